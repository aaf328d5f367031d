// Stems, saplings, patches, hazards and damage as plain JSON; one function each.
import type { EventType } from '../events/index.ts';
import { isUnresolved, type Resolved, type Unresolved } from '../place/index.ts';
import { openCalls } from './emergency.ts';
import { hazardLabel, saplingLabel, stemLabel } from './labels.ts';
import type {
  Damage,
  EmergencyCard,
  Felling,
  Hazard,
  Patch,
  Sapling,
  Stand,
  Stem,
  Tallied,
} from './state.ts';
import type { Locator } from './where.ts';

/** What the parts of the JSON need: where things are, and the numbers of entries. */
export type Told = Readonly<{
  locator: Locator;
  numbers: (entries: readonly string[]) => (number | string)[];
}>;

export function stemJson(stem: Stem, told: Told) {
  return {
    id: stem.id,
    label: stemLabel(stem),
    tag: stem.tag ?? null,
    tagLost: stem.tagLost,
    earlierTags: [...stem.earlierTags],
    group: stem.group ?? null,
    block: stem.block ?? null,
    mark: stem.mark ?? null,
    purpose: stem.purpose ?? null,
    reason: stem.reason ?? null,
    status: stem.status,
    species: stem.species ?? null,
    ...sizesJson(stem),
    decaySigns: [...stem.decaySigns],
    ...rotJson(stem),
    seams: [...stem.seams],
    defects: stem.defects ?? null,
    vigor: stem.vigor ?? null,
    product: stem.product ?? null,
    grade: stem.grade ?? null,
    markAtEye: stem.markAtEye ?? null,
    markOnStump: stem.markOnStump ?? null,
    felling: stem.felling === undefined ? null : fellingJson(stem.felling),
    decay: stem.decay?.body ?? null,
    position: stem.position?.entered ?? null,
    place: placeJson(told.locator.stem(stem.id)),
    entries: told.numbers(stem.entries),
  };
}

function rotJson({ rot }: Stem) {
  return {
    shell: rot?.shell ?? null,
    pocket: rot?.pocket ?? null,
    pocketDepth: rot?.pocketDepth ?? null,
    pocketAround: rot?.pocketAround ?? null,
  };
}

function sizesJson({ dbh, height, merchantableHeight, crownBase, crownRadius, lean }: Stem) {
  return {
    dbh: dbh ?? null,
    height: height ?? null,
    merchantableHeight: merchantableHeight ?? null,
    crownBase: crownBase ?? null,
    crownRadius: crownRadius ?? null,
    lean: lean ?? null,
  };
}

function fellingJson({ at, came, hungOn, clearedBy, details }: Felling) {
  return { at, came, hungOn: hungOn ?? null, broughtDown: clearedBy !== undefined, recorded: details };
}

function protectedJson(thing: Sapling | Patch, told: Told) {
  return {
    id: thing.id,
    label: saplingLabel(thing),
    group: thing.group ?? null,
    species: thing.species ?? null,
    checks: thing.checks.map(({ at, condition, by }) => ({ at, condition, by: by ?? null })),
    position: thing.position?.entered ?? null,
    place: placeJson(told.locator.resolve(thing.position)),
    entries: told.numbers(thing.entries),
  };
}

export function saplingJson(sapling: Sapling, told: Told) {
  return {
    ...protectedJson(sapling, told),
    height: sapling.height ?? null,
    diameter: sapling.diameter ?? null,
    beside: sapling.beside ?? null,
  };
}

export function patchJson(patch: Patch, told: Told) {
  return { ...protectedJson(patch, told), edge: patch.edge ?? null, area: patch.area ?? null };
}

export function hazardJson(stand: Stand, hazard: Hazard, told: Told) {
  return {
    id: hazard.id,
    label: hazardLabel(stand, hazard),
    what: hazard.what,
    open: hazard.clearedBy === undefined,
    stem: hazard.stem ?? null,
    group: hazard.group ?? null,
    radius: hazard.radius ?? null,
    note: hazard.note ?? null,
    notedAt: hazard.notedAt,
    position: hazard.position?.entered ?? null,
    place: placeJson(
      hazard.position === undefined && hazard.stem !== undefined
        ? told.locator.stem(hazard.stem)
        : told.locator.resolve(hazard.position),
    ),
    entries: told.numbers(hazard.entries),
  };
}

export function damageJson({ id, body, at, position, entries }: Damage, told: Told) {
  return {
    id,
    at,
    recorded: body,
    place: placeJson(told.locator.resolve(position)),
    entries: told.numbers(entries),
  };
}

/** What is kept as it was counted. */
export function talliedJson<T extends EventType>({ at, body, position, entry }: Tallied<T>, told: Told) {
  return {
    at,
    recorded: body,
    place: placeJson(told.locator.resolve(position)),
    entries: told.numbers([entry]),
  };
}

/** Emergency cards and open calls. Names and numbers stay in the logbook: only whether there are any is told. */
export function emergencyJson(stand: Stand, told: Told) {
  const { card, blocks } = stand.emergency;
  return {
    card: card === undefined ? null : cardJson(card, told),
    blocks: [...blocks].map(([block, own]) => ({ block, ...cardJson(own, told) })),
    openCalls: openCalls(stand).map(({ entry, person, due }) => ({
      person,
      due,
      entries: told.numbers([entry]),
    })),
  };
}

function cardJson(card: EmergencyCard, told: Told) {
  return {
    accessPoint: card.accessPoint?.entered ?? null,
    place: placeJson(told.locator.resolve(card.accessPoint)),
    wayIn: card.wayIn ?? null,
    callFirst: card.callFirst ?? null,
    nearestHelp: card.nearestHelp ?? null,
    signal: card.signal ?? null,
    hasContacts: card.contacts !== undefined && !card.contactsErased,
    entries: told.numbers(card.entries),
  };
}

/** Where something is, or why that cannot be told. */
export function placeJson(where: Resolved | Unresolved) {
  if (isUnresolved(where)) return { unknown: where.why };
  const { at, via, standardError } = where;
  return { lat: at.lat, lon: at.lon, via, standardErrorMetres: standardError };
}
