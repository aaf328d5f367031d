// The stand as standJson gives it, for the document and for the tests that hold answers against it.
import { z } from '@hono/zod-openapi';
import type { EventType } from '../../events/index.ts';
import { findingCodes } from '../../stand/index.ts';
import { entryNumber, hash, place } from './common.ts';
import { stored, storedBody } from './stored.ts';

const id = z.uuid();
const text = z.string().nullable();
const entries = z.array(entryNumber);
const reference = id.nullable();
const position = stored('stem-marked', 'position').nullable();
const species = stored('stem-marked', 'species').nullable();
const group = z.string().nullable();
const happened = z.strictObject({ at: z.string(), precision: z.enum(['instant', 'minute', 'day']) });

const logbook = z.strictObject({
  name: z.string(),
  zone: z.string(),
  units: z.enum(['us', 'metric']),
  crs: z.string(),
  breastHeight: stored('logbook-opened', 'breastHeight').nullable(),
  breastHeightFrom: stored('logbook-opened', 'breastHeightFrom').nullable(),
  declination: stored('logbook-opened', 'declination').nullable(),
});

const person = z.strictObject({ id, name: text, part: text, erased: z.boolean(), entries });

const device = z.strictObject({
  id,
  label: z.string(),
  keyId: text,
  person: reference,
  revoked: z.boolean(),
  entries,
});

const card = {
  accessPoint: position,
  place,
  wayIn: text,
  callFirst: text,
  nearestHelp: text,
  signal: text,
  hasContacts: z.boolean(),
  entries,
};
const emergency = z.strictObject({
  card: z.strictObject(card).nullable(),
  blocks: z.array(z.strictObject({ block: id, ...card })),
  openCalls: z.array(z.strictObject({ person: id, due: happened, entries })),
});

const block = z.strictObject({
  id,
  name: z.string(),
  area: stored('block-laid-out', 'area').nullable(),
  boundary: stored('block-laid-out', 'boundary').nullable(),
  boundaryFrom: text,
  axes: z
    .strictObject({ origin: stored('stem-marked', 'position'), azimuth: stored('stem-felled', 'lay') })
    .nullable(),
  prescription: storedBody('prescription-set').nullable(),
  tallyScope: storedBody('tally-scope-set').nullable(),
  entries,
});

const stake = z.strictObject({ id, label: z.string(), what: text, position, place, entries });

const talliedOf = (type: EventType) =>
  z.strictObject({ at: happened, recorded: storedBody(type), place, entries });

/** The same of what has no place of its own. */
const keptOf = (type: EventType) => z.strictObject({ at: happened, recorded: storedBody(type), entries });

const count = z.int().min(0);
const groupShape = z.strictObject({
  id,
  label: z.string(),
  block: reference,
  reason: text,
  opening: z.enum(['not cut yet', 'open', 'closed']),
  position,
  place,
  plannedEdge: stored('group-laid-out', 'plannedEdge').nullable(),
  plannedArea: stored('group-laid-out', 'plannedArea').nullable(),
  widened: z.array(z.string()),
  measured: z.array(talliedOf('opening-measured')),
  plan: talliedOf('felling-plan-adopted').nullable(),
  closings: z.array(z.looseObject({ at: happened })),
  counts: z.strictObject({
    markedCut: count,
    markedLeave: count,
    felled: count,
    hungUp: count,
    markedCutStanding: count,
    foundDown: count,
    stumpsExamined: count,
    stumpsDecayed: count,
    saplings: count,
    patches: count,
    openHazards: count,
    damages: count,
    openFindings: count,
  }),
  entries,
});

const felling = z.strictObject({
  at: happened,
  came: z.enum(['down', 'hung-up']),
  hungOn: reference,
  broughtDown: z.boolean(),
  recorded: storedBody('stem-felled'),
});

const stem = z.strictObject({
  id,
  label: z.string(),
  tag: text,
  tagLost: z.boolean(),
  earlierTags: z.array(z.string()),
  group,
  block: reference,
  mark: z.enum(['cut', 'leave']).nullable(),
  purpose: text,
  reason: text,
  status: z.enum(['standing', 'felled', 'hung-up', 'found-down', 'dead']),
  species,
  dbh: stored('stem-marked', 'dbh').nullable(),
  height: stored('stem-marked', 'height').nullable(),
  merchantableHeight: stored('stem-marked', 'merchantableHeight').nullable(),
  crownBase: stored('stem-marked', 'crownBase').nullable(),
  crownRadius: stored('stem-marked', 'crownRadius').nullable(),
  lean: stored('stem-marked', 'lean').nullable(),
  decaySigns: stored('stem-marked', 'decaySigns'),
  shell: stored('stem-marked', 'shell').nullable(),
  pocket: stored('stem-marked', 'pocket').nullable(),
  pocketDepth: stored('stem-marked', 'pocketDepth').nullable(),
  pocketAround: stored('stem-marked', 'pocketAround').nullable(),
  seams: stored('stem-marked', 'seams'),
  defects: text,
  vigor: text,
  product: text,
  grade: text,
  markAtEye: z.boolean().nullable(),
  markOnStump: z.boolean().nullable(),
  felling: felling.nullable(),
  decay: storedBody('decay-measured').nullable(),
  position,
  place,
  entries,
});

const check = z.strictObject({
  at: happened,
  condition: stored('sapling-checked', 'condition'),
  by: reference,
});
const kept = { id, label: z.string(), group, species, checks: z.array(check), position, place, entries };
const sapling = z.strictObject({
  ...kept,
  height: stored('sapling-protected', 'height').nullable(),
  diameter: stored('sapling-protected', 'diameter').nullable(),
  beside: reference,
});
const patch = z.strictObject({
  ...kept,
  edge: stored('patch-protected', 'edge').nullable(),
  area: stored('patch-protected', 'area').nullable(),
});

const hazard = z.strictObject({
  id,
  label: z.string(),
  what: z.string(),
  open: z.boolean(),
  stem: reference,
  group,
  radius: stored('hazard-noted', 'radius').nullable(),
  note: text,
  notedAt: happened,
  position,
  place,
  entries,
});
const damage = z.strictObject({ id, at: happened, recorded: storedBody('damage-noted'), place, entries });

export const stand = z
  .strictObject({
    stand: z.literal(1).openapi({ description: 'Version of this shape.' }),
    head: z.strictObject({ size: z.int().min(0), root: hash }),
    logbook: logbook.nullable(),
    people: z.array(person),
    devices: z.array(device),
    emergency,
    blocks: z.array(block),
    stakes: z.array(stake),
    evidence: z.array(talliedOf('boundary-evidence-noted')),
    features: z.array(
      z.strictObject({ id, label: z.string(), recorded: storedBody('feature-mapped').nullable(), entries }),
    ),
    consents: z.array(talliedOf('neighbour-consent-noted')),
    groups: z.array(groupShape),
    stems: z.array(stem),
    saplings: z.array(sapling),
    patches: z.array(patch),
    hazards: z.array(hazard),
    damages: z.array(damage),
    stumpsAudited: z.array(talliedOf('stump-audited')),
    plots: z.array(talliedOf('plot-tallied')),
    regeneration: z.array(talliedOf('regeneration-counted')),
    prices: z.array(keptOf('prices-set')),
    fellingDefaults: z.array(keptOf('felling-default-set')),
    winds: z.array(keptOf('wind-noted')),
    openFindings: count,
  })
  .openapi('Stand');

export const finding = z
  .strictObject({
    code: z.enum(findingCodes),
    sentence: z.string(),
    remedy: z.string(),
    at: z.string(),
    about: z.record(z.string(), id),
    concerns: z.enum(['woods', 'record']),
    state: z.enum(['open', 'settled']),
    settledBy: entryNumber.nullable(),
    entries,
  })
  .openapi('Finding');
