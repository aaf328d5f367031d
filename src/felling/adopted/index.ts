// adopted: the plans that a group adopted, each held against what happened while it was in force, and whether the last still holds.
import { type Folded, instantOf, type SaplingCondition, saplingLabel } from '../../stand/index.ts';
import { type FallCompared, fallsCompared } from './falls.ts';
import type { Adopted } from './later.ts';
import { fromFall, type Reason, reasonsAgainst } from './reasons.ts';
import { type Sight, sightOf } from './sight.ts';

export { adoption, type PlanSaid, planHash } from './adoption.ts';
export type { FallCompared } from './falls.ts';
export type { Reason } from './reasons.ts';
export { foundWords } from './touched.ts';

/** A sapling within reach of a plan, as it was found since; without a condition where nobody looked. */
export type SaplingFound = Readonly<{ id: string; label: string; condition: SaplingCondition | undefined }>;

export type PlanCompared = Readonly<{
  entry: string;
  /** The entry of the plan that was adopted after it. */
  replacedBy: string | undefined;
  /** Empty while the plan holds; else why it does not, sentence by sentence in order of happening. */
  ended: readonly string[];
  /** The same with the entries behind each. */
  reasons: readonly Reason[];
  next: string | undefined;
  /** Each fall that left out some that were to go first, with the reason that is recorded. */
  orderBroken: readonly Readonly<{ stem: string; says: string }>[];
  falls: readonly FallCompared[];
  /** Saplings expected to be struck by what was felled so far, and by the whole plan; undefined where the entry does not say. */
  saplings: Readonly<{
    expected: number | undefined;
    expectedInAll: number | undefined;
    found: readonly SaplingFound[];
  }>;
}>;

/** Holds the plan that a group adopted last against what was recorded since; undefined without one. */
export function comparePlan(folded: Folded, group: string): PlanCompared | undefined {
  return comparePlans(folded, group).at(-1);
}

/** The same of every plan that a group adopted, in order of adoption. */
export function comparePlans(folded: Folded, group: string): PlanCompared[] {
  const { plan, earlierPlans = [] } = folded.stand.groups.get(group) ?? {};
  const all = plan === undefined ? [] : [...earlierPlans, plan];
  return all.map((one, at) => compared(folded, one, all[at + 1]));
}

function compared(folded: Folded, plan: Adopted, next: Adopted | undefined): PlanCompared {
  const falls = fallsCompared(
    folded,
    plan,
    next === undefined ? Number.POSITIVE_INFINITY : instantOf(next.at),
  );
  const sight = sightOf(folded.stand, plan);
  // What was recorded after the next plan is no business of this one.
  const reasons =
    next === undefined
      ? reasonsAgainst(folded, plan, falls, sight)
      : falls.flatMap((fall) => fromFall(fall, falls));
  return {
    entry: plan.entry,
    replacedBy: next?.entry,
    reasons,
    ended: reasons.map(({ says }) => says),
    next: next === undefined ? falls.find(({ came }) => came === 'standing')?.stem : undefined,
    orderBroken: falls
      .filter(({ skipped }) => skipped.length > 0)
      .map((fall) => ({ stem: fall.stem, says: brokenWords(fall, reasons) })),
    falls,
    saplings: saplingsCompared(sight, plan, falls),
  };
}

/** Why a stem went before others: what the feller wrote, else what had ended the plan before. */
function brokenWords(
  { label, skipped, differed, instant = 0 }: FallCompared,
  reasons: readonly Reason[],
): string {
  const before = reasons.findLast(
    (reason) => reason.instant < instant && !reason.says.startsWith(`${label} `),
  );
  const why =
    differed !== undefined
      ? `"${differed}" was recorded with it`
      : before === undefined
        ? 'no reason recorded'
        : `the plan had ended before: ${before.says.replace(/\.$/, '')}`;
  return `${label} was felled before ${skipped.join(', ')}; ${why}.`;
}

function saplingsCompared(
  { stand, isSaplingNear }: Sight,
  plan: Adopted,
  falls: readonly FallCompared[],
): PlanCompared['saplings'] {
  const since = instantOf(plan.at);
  const sum = (of: readonly FallCompared[]) =>
    of.some(({ expected }) => expected === undefined)
      ? undefined
      : of.reduce((total, { expected = 0 }) => total + expected, 0);
  return {
    expected: sum(falls.filter(({ felled }) => felled !== undefined)),
    expectedInAll: sum(falls),
    found: [...stand.saplings.values()].flatMap((sapling): SaplingFound[] => {
      const { id, group = plan.body.group, introduced } = sapling;
      if (!introduced || !isSaplingNear('sapling', id)) return [];
      const condition = sapling.checks.findLast(({ at }) => instantOf(at) >= since)?.condition;
      // Those of another group that came through are that one's to tell.
      const isOwn = group === plan.body.group || (condition !== undefined && condition !== 'unharmed');
      return isOwn ? [{ id, label: saplingLabel(sapling), condition }] : [];
    }),
  };
}
