// Why an adopted plan no longer holds: what its falls did, what stands otherwise, what was recorded or corrected since, and wind.
import { type Event, kinds, parseBody } from '../../events/index.ts';
import {
  describe,
  type Folded,
  type Happening,
  instantOf,
  type LogEntry,
  type Stem,
  stemLabel,
  versionsOf,
} from '../../stand/index.ts';
import { isMoreRot } from '../stop.ts';
import { blowsAt, metresPerSecond, windWords } from '../wind.ts';
import type { FallCompared } from './falls.ts';
import { type Adopted, type IsLater, laterThan } from './later.ts';
import type { Sight } from './sight.ts';
import { saidAgainst } from './touched.ts';

/** Why a plan ended: a sentence, the entries behind it, and when that happened (milliseconds since 1970). */
export type Reason = Readonly<{ says: string; entries: readonly string[]; instant: number }>;

/** Everything that ended a plan, in order of happening; empty while it holds. */
export function reasonsAgainst(
  folded: Folded,
  plan: Adopted,
  falls: readonly FallCompared[],
  sight: Sight,
): Reason[] {
  const isLater = laterThan(plan, folded);
  const reasons = [
    ...falls.flatMap((fall) => fromFall(fall, falls)),
    ...fromState(folded, sight),
    ...fromEntries(folded, sight, { plan, isLater }),
    ...fromCorrections(folded, sight, { plan, isLater }),
    ...fromWind(folded, plan),
  ];
  const first = new Map<string, Reason>();
  for (const reason of reasons.sort((one, other) => one.instant - other.instant))
    if (!first.has(reason.says)) first.set(reason.says, reason);
  return [...first.values()];
}

/** What a fall of the plan did otherwise than planned. */
export function fromFall(
  { label, came, off, outside, skipped, entry, instant }: FallCompared,
  falls: readonly FallCompared[],
): Reason[] {
  const said: string[] = [];
  if (came === 'hung-up') said.push(`${label} hung up.`);
  if (came === 'otherwise') said.push(`${label} came down otherwise than by felling.`);
  if (off !== undefined && outside)
    said.push(
      `${label} lies ${Math.abs(off).toFixed(0)}° ${off < 0 ? 'left' : 'right'} of its aim, outside its band.`,
    );
  if (skipped.length > 0 && falls.some((one) => one.came === 'standing'))
    said.push(`${label} was felled out of its order.`);
  return said.map((says) => ({ says, entries: entry === undefined ? [] : [entry], instant: instant ?? 0 }));
}

/** Stems that are marked otherwise than the plan has them. */
function fromState({ stand, entries }: Folded, { planned, aside, group }: Sight): Reason[] {
  return [...stand.stems.values()].flatMap((stem): Reason[] => {
    if (!isUp(stem) || stem.group !== group) return [];
    const label = stemLabel(stem);
    const marked = stem.markedBy === undefined ? undefined : entries.get(stem.markedBy);
    const reason = (says: string): Reason[] => [
      {
        says,
        entries: marked === undefined ? [] : [marked.id],
        instant: marked === undefined ? 0 : instantOf(marked.happenedAt),
      },
    ];
    if (planned.has(stem.id) && stem.mark !== 'cut') return reason(`${label} is not to be cut any more.`);
    return stem.mark === 'cut' && !planned.has(stem.id) && !aside.has(stem.id)
      ? reason(`${label} is to be cut and is not in the plan.`)
      : [];
  });
}

function isUp({ status }: Stem): boolean {
  return status === 'standing' || status === 'dead';
}

type Known = Readonly<{ plan: Adopted; isLater: IsLater }>;

/** Entries that the plan did not know, as they are in force. */
function fromEntries(
  { happenings, entries, stand }: Folded,
  sight: Sight,
  { plan, isLater }: Known,
): Reason[] {
  const by = entries.get(plan.entry)?.by;
  return happenings
    .filter(({ entry }) => isLater(entry.id))
    .flatMap(({ entry, event, happenedAt, instant }): Reason[] => {
      const own = event.type === 'felling-default-set' && event.body.person === by;
      const says = own
        ? `${event.body.assumption} was set anew for the plans of who adopted this one.`
        : event.type === 'decay-measured' && isSurprise(event, sight, { happenings, isLater })
          ? `${stemLabel(stand.stems.get(event.body.stem))} showed more rot than was noted; the others may have it too.`
          : saidAgainst(event, sight, happenedAt.at);
      return says === undefined ? [] : [{ says, entries: [entry.id], instant }];
    });
}

/** Rot in a stem of the plan that nothing had shown before. */
function isSurprise(
  event: Extract<Event, { type: 'decay-measured' }>,
  { planned, stand }: Sight,
  { happenings, isLater }: Readonly<{ happenings: readonly Happening[]; isLater: IsLater }>,
): boolean {
  const { stem } = event.body;
  if (!planned.has(stem)) return false;
  const known = happenings.findLast(
    (one) => one.event.type === 'decay-measured' && one.event.body.stem === stem && !isLater(one.entry.id),
  );
  const decay =
    known?.event.type === 'decay-measured' ? { entry: known.entry.id, body: known.event.body } : undefined;
  return isMoreRot({ decaySigns: stand.stems.get(stem)?.decaySigns ?? [], decay }, event.body);
}

/** Corrections of what the plan was computed from: told by the entry that was put right. */
function fromCorrections(folded: Folded, sight: Sight, { plan, isLater }: Known): Reason[] {
  const behind = new Set(plan.body.restsOn ?? []);
  const done = new Set<string>();
  return [...folded.entries.values()].flatMap((correction): Reason[] => {
    const isOne = correction.type === 'entry-amended' || correction.type === 'entry-struck';
    if (!isOne || !isLater(correction.id)) return [];
    const versions = versionsOf(correction.id, folded);
    const root = versions[0]?.entry;
    if (root === undefined || root.id === plan.entry || isLater(root.id) || done.has(root.id)) return [];
    done.add(root.id);
    const said = versions.flatMap(({ entry }) => eventIn(entry) ?? []);
    const touched =
      // A file that was taken out again takes everything along that was made from it.
      root.type === 'import-made' ||
      behind.has(root.id) ||
      said.some((event) => saidAgainst(event, sight, root.happenedAt.at) !== undefined);
    if (!touched) return [];
    const [first] = said;
    const what = first === undefined ? 'an entry' : called(first, folded.stand);
    const number = root.position === undefined ? '' : ` (entry ${root.position})`;
    return [
      {
        says: `What it was computed from was corrected: ${what}${number}.`,
        entries: [root.id, correction.id],
        instant: instantOf(correction.happenedAt),
      },
    ];
  });
}

/** What is struck is no more in the stand, so that it goes by the label that its entry gives it. */
function called(event: Event, stand: Folded['stand']): string {
  const { label, tag, name } = event.body as Readonly<Record<string, unknown>>;
  const given = [label, tag, name].find((one) => typeof one === 'string');
  return given === undefined
    ? describe(event, stand)
    : `${kinds[event.type].title.toLowerCase()} ${String(given)}`;
}

/** What an entry says, or what an amendment makes another one say. */
function eventIn({ type, v, body }: LogEntry): Event | undefined {
  const [of, version, said] =
    type === 'entry-amended' ? ([body.type, body.v, body.body] as const) : ([type, v, body] as const);
  if (typeof of !== 'string' || typeof version !== 'number' || typeof said !== 'object' || said === null)
    return undefined;
  const read = parseBody(of, version, said as LogEntry['body']);
  return read.ok ? read.event : undefined;
}

/** More wind than the plan was computed for. */
function fromWind({ stand }: Folded, { body, at }: Adopted): Reason[] {
  const assumed = Number(body.wind ?? 0);
  const since = instantOf(at);
  return stand.winds.flatMap((noted): Reason[] => {
    const instant = instantOf(noted.at);
    const speed = metresPerSecond(noted.body.wind);
    if (instant <= since || speed === undefined || speed <= assumed || !blowsAt(noted, body.group)) return [];
    const system = stand.logbook?.body.units === 'metric' ? 'metric' : 'inch';
    const counted = assumed === 0 ? 'calm' : windWords(assumed, system);
    return [
      {
        says: `Wind of ${noted.body.wind.text} was noted; the plan was computed for ${counted}.`,
        entries: [noted.entry],
        instant,
      },
    ];
  });
}
