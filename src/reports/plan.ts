// The felling plan that a group adopted, held against what happened: order kept or not, lays against aims, hang-ups.
import { comparePlan, type FallCompared } from '../felling/index.ts';
import { counted, type Folded, type Group, timeText } from '../stand/index.ts';
import { type Context, known } from './context.ts';
import type { Fact } from './model.ts';

/** What is said of a plan, and the entries behind it. */
type Said = Readonly<{ says: string; entries: readonly (string | undefined)[] }>;

/** Sentences about the plan with the numbers of their entries; none where none was adopted. */
export function planFacts(context: Context, group: Group): Fact[] {
  return planSaid(context.folded, group).map(({ says, entries }) => known(says, context.numbers(entries)));
}

/** The same sentences by themselves. */
export function planSentences(folded: Folded, group: Group): string[] {
  return planSaid(folded, group).map(({ says }) => says);
}

function planSaid(folded: Folded, { id, plan }: Group): Said[] {
  const compared = comparePlan(folded, id);
  if (plan === undefined || compared === undefined) return [];
  const { falls, ended } = compared;
  const done = falls.filter(({ felled }) => felled !== undefined);
  const unmeasured = done.filter(({ off }) => off === undefined);
  const said = (says: string, these: readonly FallCompared[]): Said => ({
    says,
    entries: these.map(({ stem }) => folded.stand.stems.get(stem)?.felling?.entry),
  });
  return [
    { says: `Adopted ${timeText(plan.at)}: ${labels(falls)}, in this order.`, entries: [plan.entry] },
    ...(done.length === 0 ? [] : [said(orderWords(done), done), hungWords(done, plan.body.steps, said)]),
    ...done.flatMap((fall) => (fall.off === undefined ? [] : [said(offWords(fall.label, fall.off), [fall])])),
    ...(unmeasured.length === 0
      ? []
      : [said(`Lay not measured, so nothing is learned from it: ${labels(unmeasured)}.`, unmeasured)]),
    ...ended.map((reason) => said(`The plan ended: ${reason}`, [])),
  ];
}

function labels(falls: readonly FallCompared[]): string {
  return falls.map(({ label }) => label).join(', ');
}

function orderWords(done: readonly FallCompared[]): string {
  const felled = `${counted(done.length, 'stem')} of it felled`;
  return done.every((fall, at) => fall.felled === at + 1)
    ? `${felled}, in that order.`
    : `${felled}, not in that order: ${labels(done.toSorted(byFelling))}.`;
}

function hungWords(
  done: readonly FallCompared[],
  steps: readonly Readonly<{ hangUp?: string | undefined }>[],
  said: (says: string, these: readonly FallCompared[]) => Said,
): Said {
  const hung = done.filter(({ came }) => came === 'hung-up');
  const expected = steps.reduce((sum, { hangUp }) => sum + Number(hangUp ?? 0), 0);
  return said(
    `Hung up: ${hung.length === 0 ? 'none' : labels(hung)}; the plan expected ${expected.toFixed(2)} in all.`,
    hung,
  );
}

function byFelling({ felled: one = 0 }: FallCompared, { felled: other = 0 }: FallCompared): number {
  return one - other;
}

function offWords(label: string, off: number): string {
  const degrees = Math.round(Math.abs(off));
  return degrees === 0
    ? `${label} lies on its aim.`
    : `${label} lies ${degrees}° ${off < 0 ? 'left' : 'right'} of its aim.`;
}
