// The register of all kinds, and the two ways to read a body: parse at the edge, trust inside.
import type { z } from 'zod';
import * as audits from './audit.ts';
import * as blocks from './block.ts';
import * as devices from './device.ts';
import * as emergencies from './emergency.ts';
import * as felling from './felling.ts';
import * as ground from './ground.ts';
import * as groups from './group.ts';
import * as harm from './harm.ts';
import * as keeping from './keeping.ts';
import type { Issue, JsonObject, Kind } from './kind.ts';
import * as logbook from './logbook.ts';
import { nearest } from './nearest.ts';
import * as openings from './opening.ts';
import * as plans from './plan.ts';
import * as plots from './plot.ts';
import * as prices from './price.ts';
import * as regeneration from './regeneration.ts';
import * as stems from './stem.ts';

const all = {
  'logbook-opened': logbook.logbookOpened,
  'person-named': logbook.personNamed,
  'device-paired': devices.devicePaired,
  'device-revoked': devices.deviceRevoked,
  'block-laid-out': blocks.blockLaidOut,
  'prescription-set': blocks.prescriptionSet,
  'tally-scope-set': blocks.tallyScopeSet,
  'stake-set': blocks.stakeSet,
  'boundary-evidence-noted': ground.boundaryEvidenceNoted,
  'feature-mapped': ground.featureMapped,
  'neighbour-consent-noted': ground.neighbourConsentNoted,
  'group-laid-out': groups.groupLaidOut,
  'group-widened': groups.groupWidened,
  'stem-marked': stems.stemMarked,
  'mark-changed': stems.markChanged,
  'stem-measured': stems.stemMeasured,
  'tag-lost': stems.tagLost,
  'tag-replaced': stems.tagReplaced,
  'sapling-protected': regeneration.saplingProtected,
  'patch-protected': regeneration.patchProtected,
  'sapling-checked': regeneration.saplingChecked,
  'regeneration-counted': regeneration.regenerationCounted,
  'hazard-noted': harm.hazardNoted,
  'hazard-cleared': harm.hazardCleared,
  'felling-plan-adopted': plans.fellingPlanAdopted,
  'felling-default-set': plans.fellingDefaultSet,
  'wind-noted': plans.windNoted,
  'stem-felled': felling.stemFelled,
  'hang-up-cleared': felling.hangUpCleared,
  'stem-found-down': felling.stemFoundDown,
  'stem-found-dead': felling.stemFoundDead,
  'decay-measured': felling.decayMeasured,
  'stump-audited': audits.stumpAudited,
  'damage-noted': harm.damageNoted,
  'opening-measured': openings.openingMeasured,
  'opening-closed': groups.openingClosed,
  'opening-reopened': groups.openingReopened,
  'plot-tallied': plots.plotTallied,
  'prices-set': prices.pricesSet,
  'emergency-card-set': emergencies.emergencyCardSet,
  'call-expected': emergencies.callExpected,
  'call-made': emergencies.callMade,
  'emergency-contacts-erased': emergencies.emergencyContactsErased,
  'note-written': keeping.noteWritten,
  'photo-taken': keeping.photoTaken,
  'clock-offset-noted': keeping.clockOffsetNoted,
  'import-made': keeping.importMade,
  'report-issued': keeping.reportIssued,
  'personal-data-erased': logbook.personalDataErased,
  'entry-amended': keeping.entryAmended,
  'entry-struck': keeping.entryStruck,
} as const;

export type EventType = keyof typeof all;
export type Body<T extends EventType> = z.infer<(typeof all)[T]['schema']>;
/** An event as the fold sees it: the kind, and the body in its current version. */
export type Event = { [T in EventType]: Readonly<{ type: T; body: Body<T> }> }[EventType];

export const kinds: Readonly<Record<EventType, Kind>> = all as unknown as Readonly<Record<EventType, Kind>>;
export const kindTypes = Object.keys(all) as readonly EventType[];

export function kindOf(type: string): Kind | undefined {
  return Object.hasOwn(kinds, type) ? kinds[type as EventType] : undefined;
}

/** The kind whose name is nearest to a mistyped one, to be suggested and never run. */
export function nearestKind(type: string): string | undefined {
  return nearest(type, kindTypes);
}

export type BodyReading =
  | { ok: true; event: Event }
  /** A kind or version made by a newer program: kept and counted, not understood here. */
  | { ok: false; newer: true; sentence: string }
  | { ok: false; newer: false; issues: readonly Issue[] };

/**
 * Checks a body that comes from outside against its kind. Unknown kinds and newer versions are not
 * errors: the log keeps them. Returns the event in the current version, or what is wrong, field by field.
 */
export function parseBody(type: string, v: number, body: JsonObject): BodyReading {
  const raised = raise(type, v, body);
  if (!raised.ok) return raised;
  const parsed = raised.kind.schema.safeParse(raised.body);
  if (!parsed.success)
    return {
      ok: false,
      newer: false,
      issues: parsed.error.issues.map((issue) => toIssue(issue, raised.body)),
    };
  const between = raised.kind.between(raised.body);
  if (between.length > 0) return { ok: false, newer: false, issues: between };
  const amended = type === 'entry-amended' ? amendedIssues(raised.body as Body<'entry-amended'>) : [];
  if (amended.length > 0) return { ok: false, newer: false, issues: amended };
  return { ok: true, event: { type, body: raised.body } as unknown as Event };
}

/** The body within an amendment is held against its own kind, or the fold would meet it unchecked. */
function amendedIssues({ type, v, body }: Body<'entry-amended'>): readonly Issue[] {
  const within = parseBody(type, v, body);
  if (within.ok || within.newer) return [];
  return within.issues.map((issue) => ({ ...issue, field: `body.${issue.field}` }));
}

/** Reads a body that the log already accepted: brings it to the current version and trusts it. */
export function readBody(type: string, v: number, body: JsonObject): BodyReading {
  const raised = raise(type, v, body);
  return raised.ok ? { ok: true, event: { type, body: raised.body } as unknown as Event } : raised;
}

/** Chains the upcasters of one kind from version `v` to its current version. */
export function upcast(
  kind: Pick<Kind, 'v' | 'upcasters'>,
  v: number,
  body: JsonObject,
): JsonObject | undefined {
  let current = body;
  for (let version = v; version < kind.v; version += 1) {
    const step = kind.upcasters[version];
    if (step === undefined) return undefined;
    current = step(current);
  }
  return current;
}

type Raised = { ok: true; kind: Kind; body: JsonObject } | Extract<BodyReading, { ok: false }>;

function raise(type: string, v: number, body: JsonObject): Raised {
  const kind = kindOf(type);
  if (kind === undefined) {
    return {
      ok: false,
      newer: true,
      sentence: `"${type}" is not a kind this version knows; a newer program can read it.`,
    };
  }
  if (v > kind.v) {
    return {
      ok: false,
      newer: true,
      sentence: `"${type}" version ${v} is newer than this program's ${kind.v}; a newer program can read it.`,
    };
  }
  if (v === kind.v) return { ok: true, kind, body };
  const current = upcast(kind, v, body);
  if (current === undefined) {
    return {
      ok: false,
      newer: false,
      issues: [{ field: 'v', value: String(v), remedy: `versions 1 to ${kind.v} of "${type}" exist` }],
    };
  }
  return { ok: true, kind, body: current };
}

function toIssue(issue: z.core.$ZodIssue, body: JsonObject): Issue {
  const unknown = issue.code === 'unrecognized_keys' ? issue.keys[0] : undefined;
  const path = unknown === undefined ? issue.path : [...issue.path, unknown];
  return {
    field: path.length === 0 ? 'body' : path.join('.'),
    value: JSON.stringify(valueAt(body, path) ?? null).slice(0, 200),
    remedy: unknown === undefined ? issue.message : 'this kind has no such field; leave it out',
  };
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    value,
  );
}
