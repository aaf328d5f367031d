/**
 * Was it the right group to take? Decay at the examined stumps of a group, held against the other examined stumps: how
 * often it was found, and how far up the butt it went. Numbers with their uncertainty, and no verdict.
 */
import { type NotEnough, notEnough } from './figure.ts';
import { type FisherTest, fisherTest } from './statistics/fisher.ts';
import { medianOfSorted } from './statistics/median.ts';
import { type RankTest, rankTest } from './statistics/ranks.ts';

/** A stump that somebody looked at. One that nobody looked at does not belong here. */
export type ExaminedStump = Readonly<{
  /** Rot or a hollow was found. */
  decayed: boolean;
  /** How far up the butt the decay goes, where it was measured; the same unit for all stumps. */
  upTheButt?: number;
}>;

export type GroupComparison = Readonly<{
  frequency: FrequencyComparison | NotEnough;
  length: LengthComparison | NotEnough;
  /** What must be read with the numbers. */
  remarks: readonly string[];
}>;

export type DecayCount = Readonly<{ decayed: number; examined: number }>;
export type FrequencyComparison = Readonly<{
  group: DecayCount;
  others: DecayCount;
  test: FisherTest;
  sentence: string;
  method: string;
  source: string;
}>;
export type LengthComparison = Readonly<{
  group: Readonly<{ measured: number; decayed: number; median: number }>;
  others: Readonly<{ measured: number; decayed: number; median: number }>;
  unit: string;
  test: RankTest;
  sentence: string;
  method: string;
  source: string;
}>;

/**
 * With three on either side not even the most extreme outcome is rarer than one in ten by chance alone; with four it is
 * 2 in 70. Counted from the exact distributions of both tests.
 */
const fewestStumps = 4;

const remarks = [
  'The groups were not chosen at random: where the trees stood, and why they were marked, can make a difference too.',
  'Stumps that nobody examined say nothing, and are not counted.',
] as const;

/**
 * Decay at the examined stumps of a group against that of the other examined stumps.
 *
 * @param group the examined stumps of the group
 * @param others all other examined stumps
 * @param unit what `upTheButt` is measured in, for the words and the shift
 * @returns for each of both questions the comparison, or that there is too little to say
 * @throws RangeError for a length that is negative or no number
 */
export function compareDecay(
  group: readonly ExaminedStump[],
  others: readonly ExaminedStump[],
  unit: string,
): GroupComparison {
  for (const { upTheButt } of [...group, ...others]) {
    if (upTheButt !== undefined && !(Number.isFinite(upTheButt) && upTheButt >= 0))
      throw new RangeError(`upTheButt: ${upTheButt} is no length; give a number of at least 0.`);
  }
  return { frequency: compareFrequency(group, others), length: compareLength(group, others, unit), remarks };
}

function compareFrequency(
  group: readonly ExaminedStump[],
  others: readonly ExaminedStump[],
): FrequencyComparison | NotEnough {
  const few = tooFew(group.length, others.length, 'examined stumps');
  if (few !== undefined) return few;
  const [here, there] = [countOf(group), countOf(others)];
  const test = fisherTest([
    [here.decayed, here.examined - here.decayed],
    [there.decayed, there.examined - there.decayed],
  ]);
  return {
    group: here,
    others: there,
    test,
    sentence: frequencySentence(here, there, test),
    method: "Fisher's exact test, two-sided; conditional maximum likelihood odds ratio with exact interval",
    source: 'Fisher 1935; Cornfield 1956',
  };
}

function compareLength(
  group: readonly ExaminedStump[],
  others: readonly ExaminedStump[],
  unit: string,
): LengthComparison | NotEnough {
  const [here, there] = [lengthsOf(group), lengthsOf(others)];
  const few = tooFew(here.length, there.length, 'decayed stumps with a measured length up the butt');
  if (few !== undefined) return few;
  const test = rankTest(here, there);
  const of = (stumps: readonly ExaminedStump[], lengths: readonly number[]) => ({
    measured: lengths.length,
    decayed: countOf(stumps).decayed,
    median: medianOfSorted([...lengths].sort((one, other) => one - other)),
  });
  const [ours, theirs] = [of(group, here), of(others, there)];
  return {
    group: ours,
    others: theirs,
    unit,
    test,
    sentence: lengthSentence(ours.measured, theirs.measured, test, unit),
    method: `Mann–Whitney test, two-sided, ${test.distribution === 'exact' ? 'exact' : 'normal approximation with corrections for ties and continuity'}; Hodges–Lehmann shift`,
    source: 'Mann & Whitney 1947; Hodges & Lehmann 1963; Bauer 1972',
  };
}

function tooFew(here: number, there: number, what: string): NotEnough | undefined {
  if (here >= fewestStumps && there >= fewestStumps) return undefined;
  return notEnough(
    `too few to say: ${here} in the group and ${there} elsewhere; ${what} are needed, ${fewestStumps} at least on either side.`,
  );
}

function frequencySentence(here: DecayCount, there: DecayCount, test: FisherTest): string {
  const counted = `Decay was found at ${here.decayed} of ${here.examined} examined stumps of the group and at ${there.decayed} of ${there.examined} others.`;
  if (Number.isNaN(test.oddsRatio)) return `${counted} The two do not differ.`;
  const { low, high } = test.interval;
  return `${counted} The odds of decay in the group are ${oddsWords(test)} those of the others, p ${chance(test.p)}. ${judged(low > 1 || high < 1)}`;
}

function oddsWords({ oddsRatio, interval }: FisherTest): string {
  const { low, high } = interval;
  if (oddsRatio === Number.POSITIVE_INFINITY)
    return `at least ${short(low)} times (95 % interval, no upper end)`;
  if (oddsRatio === 0) return `at most ${short(high)} times (95 % interval, from 0 on)`;
  return `${short(oddsRatio)} times (95 % interval ${short(low)} to ${short(high)})`;
}

function lengthSentence(here: number, there: number, test: RankTest, unit: string): string {
  const { low, high, reached } = test.interval;
  const level = `${Math.floor(reached * 1000) / 10} % interval`;
  const range = `(${level} of the difference ${signed(low)} to ${signed(high)} ${unit}), p ${chance(test.p)}`;
  return `Where decay was measured, at ${here} stumps of the group and ${there} others, it goes ${shiftWords(test.shift, unit)} ${range}. ${judged(low > 0 || high < 0)}`;
}

function shiftWords(shift: number, unit: string): string {
  if (shift === 0) return 'as far up the butt in the group as elsewhere';
  return `${short(Math.abs(shift))} ${unit} ${shift < 0 ? 'less far' : 'farther'} up the butt in the group`;
}

/** What the interval lets one say, and no more. */
function judged(apart: boolean): string {
  return apart
    ? 'Chance alone would seldom make such a difference.'
    : 'That is also what chance alone can make: no difference fits these numbers too.';
}

function countOf(stumps: readonly ExaminedStump[]): DecayCount {
  return { decayed: stumps.filter(({ decayed }) => decayed).length, examined: stumps.length };
}

function lengthsOf(stumps: readonly ExaminedStump[]): number[] {
  return stumps.flatMap(({ decayed, upTheButt }) => (decayed && upTheButt !== undefined ? [upTheButt] : []));
}

function chance(p: number): string {
  return p < 0.0001 ? '< 0.0001' : `= ${short(p)}`;
}

function signed(value: number): string {
  return value < 0 ? `−${short(-value)}` : short(value);
}

/** Two digits that count; enough for a sentence, the numbers themselves stand beside it. */
function short(value: number): string {
  return String(Number(value.toPrecision(2)));
}
