// The felling plans that a group adopted, held against what happened: order kept or not and why, lays against aims, hang-ups,
// saplings expected and found, and what ended each.
import { comparePlans, type FallCompared, foundWords, type PlanCompared } from '../felling/index.ts';
import { counted, type Folded, type Group, timeText } from '../stand/index.ts';
import { type Context, known } from './context.ts';
import type { EntryNumber, Fact } from './model.ts';

/** What is said of a plan, and the entries behind it. */
type Said = Readonly<{ says: string; entries: readonly (string | undefined)[] }>;

type Adopted = NonNullable<Group['plan']>;

/** Sentences about the plans with the numbers of their entries; none where none was adopted. */
export function planFacts(context: Context, group: Group): Fact[] {
  return plansSaid(context.folded, group).map(({ says, entries }) => known(says, context.numbers(entries)));
}

/** The same sentences by themselves. */
export function planSentences(folded: Folded, group: Group): string[] {
  return plansSaid(folded, group).map(({ says }) => says);
}

/** One plan held against what happened, as plain JSON: entries by their number, or by id where they have none yet. */
export function planComparedJson(
  { entry, replacedBy, reasons, falls, saplings, next, ...others }: PlanCompared,
  { entries }: Pick<Folded, 'entries'>,
) {
  const numbered = (id: string | undefined): EntryNumber | null =>
    id === undefined ? null : (entries.get(id)?.position ?? id);
  return {
    ...others,
    entry: numbered(entry),
    replacedBy: numbered(replacedBy),
    next: next ?? null,
    saplings: {
      expected: saplings.expected ?? null,
      expectedInAll: saplings.expectedInAll ?? null,
      found: saplings.found.map(({ condition, ...sapling }) => ({
        ...sapling,
        condition: condition ?? null,
      })),
    },
    reasons: reasons.map(({ says, entries: behind }) => ({ says, entries: behind.map(numbered) })),
    falls: falls.map(({ entry: felling, instant: _instant, felled, off, differed, expected, ...fall }) => ({
      ...fall,
      felled: felled ?? null,
      off: off ?? null,
      differed: differed ?? null,
      expected: expected ?? null,
      entry: numbered(felling),
    })),
  };
}

/** Every plan of a group so. */
export function plansComparedJson(folded: Folded, { id }: Group) {
  return comparePlans(folded, id).map((compared) => planComparedJson(compared, folded));
}

function plansSaid(folded: Folded, { id, plan, earlierPlans = [] }: Group): Said[] {
  const adopted = plan === undefined ? [] : [...earlierPlans, plan];
  return comparePlans(folded, id).flatMap((compared, at) => {
    const one = adopted[at];
    return one === undefined ? [] : planSaid(folded, one, compared);
  });
}

function planSaid(folded: Folded, plan: Adopted, compared: PlanCompared): Said[] {
  const { falls, reasons, orderBroken, replacedBy } = compared;
  const done = falls.filter(({ felled }) => felled !== undefined);
  const unmeasured = done.filter(({ off }) => off === undefined);
  const said = (says: string, these: readonly FallCompared[]): Said => ({
    says,
    entries: these.map(({ entry }) => entry),
  });
  return [
    {
      says: `Adopted ${timeText(plan.at)}: ${labels(falls)}, in this order.${replacedBy === undefined ? '' : ' A later plan took its place.'}`,
      entries: [plan.entry, replacedBy],
    },
    ...assumedWords(plan),
    ...(done.length === 0 ? [] : [said(orderWords(done), done)]),
    ...orderBroken.map(({ stem, says }) =>
      said(
        says,
        done.filter((fall) => fall.stem === stem),
      ),
    ),
    ...(done.length === 0 ? [] : [hungWords(done, plan.body.steps, said)]),
    ...done.flatMap((fall) => (fall.off === undefined ? [] : [said(offWords(fall, fall.off), [fall])])),
    ...(unmeasured.length === 0
      ? []
      : [
          said(
            `Lay not measured, so nothing is learned from it: ${labels(unmeasured)} (${unmeasured.length} of ${done.length}).`,
            unmeasured,
          ),
        ]),
    ...(done.length === 0 ? [] : saplingWords(folded, compared)),
    ...reasons.map(({ says, entries }) => ({ says: `The plan ended: ${says}`, entries })),
  ];
}

/** What the plan was computed with that is not usual; what loosens is said to. */
function assumedWords({ entry, body: { assumed = [] } }: Adopted): Said[] {
  if (assumed.length === 0) return [];
  const list = assumed.map(
    ({ name, value, looser }) => `${name} ${value}${looser === true ? ' (looser than usual)' : ''}`,
  );
  return [
    { says: `Computed with numbers that are not the usual ones: ${list.join(', ')}.`, entries: [entry] },
  ];
}

function labels(falls: readonly FallCompared[]): string {
  return falls.map(({ label }) => label).join(', ');
}

function orderWords(done: readonly FallCompared[]): string {
  const felled = `${counted(done.length, 'stem')} of it felled`;
  return done.every(({ skipped }) => skipped.length === 0)
    ? `${felled}, in that order.`
    : `${felled}, not in that order: ${labels(done.toSorted(byFelling))}.`;
}

function hungWords(
  done: readonly FallCompared[],
  steps: Adopted['body']['steps'],
  said: (says: string, these: readonly FallCompared[]) => Said,
): Said {
  const hung = done.filter(({ came }) => came === 'hung-up');
  const expected = (of: typeof steps) =>
    of.reduce((sum, { hangUp }) => sum + Number(hangUp ?? 0), 0).toFixed(2);
  const felled = new Set(done.map(({ stem }) => stem));
  return said(
    `Hung up: ${hung.length === 0 ? 'none' : labels(hung)}; the plan expected ${expected(steps.filter(({ stem }) => felled.has(stem)))} for these, ${expected(steps)} in all.`,
    hung,
  );
}

function byFelling({ felled: one = 0 }: FallCompared, { felled: other = 0 }: FallCompared): number {
  return one - other;
}

function offWords({ label, outside }: FallCompared, off: number): string {
  const degrees = Math.round(Math.abs(off));
  if (degrees === 0) return `${label} lies on its aim.`;
  return `${label} lies ${degrees}° ${off < 0 ? 'left' : 'right'} of its aim${outside ? ', outside its band' : ''}.`;
}

function saplingWords(
  { stand }: Folded,
  { saplings: { expected, expectedInAll, found } }: PlanCompared,
): Said[] {
  if (found.length === 0) return [];
  const predicted =
    expected === undefined || expectedInAll === undefined
      ? 'the entry does not say how many the plan expected to be struck'
      : `the plan expected ${expected.toFixed(2)} to be struck by these falls, ${expectedInAll.toFixed(2)} in all`;
  const looked = found.filter(({ condition }) => condition !== undefined);
  const harmed = looked.filter(({ condition }) => condition !== 'unharmed');
  const missing = found.filter(({ condition }) => condition === undefined);
  const seen =
    looked.length === 0
      ? 'nobody has looked at them since'
      : `of ${looked.length} looked at since, ${harmed.length === 0 ? 'none was harmed' : harmed.map(({ label, condition = 'unharmed' }) => `${label} ${foundWords(condition)}`).join(', ')}`;
  const unseen =
    looked.length === 0 || missing.length === 0
      ? ''
      : ` Not looked at: ${missing.map(({ label }) => label).join(', ')}.`;
  return [
    {
      says: `Saplings within reach: ${predicted}; ${seen}.${unseen}`,
      entries: looked.map(({ id }) => stand.saplings.get(id)?.checks.at(-1)?.entry),
    },
  ];
}
