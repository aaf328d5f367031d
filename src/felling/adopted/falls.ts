// The falls of an adopted plan, held against what was recorded: order, direction, how the stem came down, saplings.
import { type Folded, instantOf, type Stand, stemLabel } from '../../stand/index.ts';
import { offBetween } from '../lay-off.ts';
import type { Adopted } from './later.ts';

/** One stem of an adopted plan, held against what happened. Degrees; positive to the right of the aim. */
export type FallCompared = Readonly<{
  stem: string;
  label: string;
  /** Place in the plan, and among the stems that were felled since; from 1. */
  planned: number;
  felled: number | undefined;
  aim: number;
  /** Only a lay that was measured counts, as it was before anything hung up was cleared. */
  off: number | undefined;
  /** Whether it lies outside the band that the plan gave to that side. */
  outside: boolean;
  came: 'down' | 'hung-up' | 'standing' | 'otherwise';
  /** Stems that were to go before it and did not, by label. */
  skipped: readonly string[];
  /** What the feller recorded as having gone otherwise than meant. */
  differed: string | undefined;
  /** Saplings that the plan expected it to strike; undefined where the entry does not say. */
  expected: number | undefined;
  /** Saplings that were found harmed by it, by id. */
  harmed: readonly string[];
  /** The entry by which it came down, and when that was (milliseconds since 1970). */
  entry: string | undefined;
  instant: number | undefined;
}>;

type Step = Adopted['body']['steps'][number];
type Window = Readonly<{ stand: Stand; entries: Folded['entries']; plan: Adopted; until: number }>;

/**
 * @param until milliseconds since 1970: what was felled from then on is of a later plan
 */
export function fallsCompared(
  { stand, entries }: Pick<Folded, 'stand' | 'entries'>,
  plan: Adopted,
  until: number,
): FallCompared[] {
  const window = { stand, entries, plan, until };
  const order = plan.body.steps
    .flatMap(({ stem }) => {
      const instant = felledAt(window, stem);
      return instant === undefined ? [] : [{ stem, instant }];
    })
    .sort((one, other) => one.instant - other.instant);
  return plan.body.steps.map((step, at) => fallCompared(window, step, at, order));
}

/** When a stem was felled, as far as this plan is concerned. */
function felledAt({ stand, until }: Window, stem: string): number | undefined {
  const felling = stand.stems.get(stem)?.felling;
  const instant = felling === undefined ? undefined : instantOf(felling.at);
  return instant === undefined || instant >= until ? undefined : instant;
}

function fallCompared(
  window: Window,
  { stem: id, aim, left, right, saplings }: Step,
  at: number,
  order: readonly Readonly<{ stem: string; instant: number }>[],
): FallCompared {
  const { stand, plan } = window;
  const stem = stand.stems.get(id);
  const instant = felledAt(window, id);
  const felling = instant === undefined ? undefined : stem?.felling;
  const lay = felling?.details.lay;
  const off =
    felling === undefined || lay === undefined
      ? undefined
      : offBetween(stand, id, { azimuth: aim, when: plan.at.at }, { azimuth: lay, when: felling.at.at });
  const came = cameDown(window, id, felling?.came);
  const by = came === 'otherwise' ? window.entries.get(stem?.statusBy ?? '') : undefined;
  const band = (off ?? 0) < 0 ? left : right;
  return {
    stem: id,
    label: stemLabel(stem),
    planned: at + 1,
    felled: instant === undefined ? undefined : order.findIndex((one) => one.stem === id) + 1,
    aim: Number(aim.value),
    off,
    outside: off !== undefined && band !== undefined && Math.abs(off) > Number(band),
    came,
    skipped: instant === undefined ? [] : skippedBy(window, at, instant),
    differed: felling?.details.differed,
    expected: saplings === undefined ? undefined : Number(saplings),
    harmed: instant === undefined ? [] : harmedBy(stand, id),
    entry: felling?.entry ?? by?.id,
    instant: instant ?? (by === undefined ? undefined : instantOf(by.happenedAt)),
  };
}

function cameDown(
  { stand, until }: Window,
  id: string,
  came: 'down' | 'hung-up' | undefined,
): FallCompared['came'] {
  if (came !== undefined) return came;
  const status = stand.stems.get(id)?.status ?? 'standing';
  // What happened under a later plan is that one's to tell.
  if (status === 'standing' || status === 'dead' || until !== Number.POSITIVE_INFINITY) return 'standing';
  return 'otherwise';
}

/** Those before it in the plan that were still up when it fell. Of two that are known to the same moment nobody can tell. */
function skippedBy(window: Window, at: number, instant: number): string[] {
  return window.plan.body.steps.slice(0, at).flatMap(({ stem }) => {
    const other = felledAt(window, stem);
    return other === undefined || other > instant ? [stemLabel(window.stand.stems.get(stem))] : [];
  });
}

function harmedBy({ saplings }: Stand, stem: string): string[] {
  return [...saplings.values()]
    .filter(({ checks }) => checks.some(({ by, condition }) => by === stem && condition !== 'unharmed'))
    .map(({ id }) => id);
}
