// Decay of a group against the other stumps: what was counted, how sure it is, and no verdict.
import { isNotEnough } from '../../measure/index.ts';
import type { DecayComparison } from '../../stand/index.ts';
import { head, missingSentence, number, rounded, type Sheet, type SheetTable } from './model.ts';

export function decaySheet(label: string, { frequency, length, remarks }: DecayComparison): Sheet {
  return {
    title: `Decay at the stumps of ${label} against the others`,
    lead: [frequency, length].map((part) => (isNotEnough(part) ? missingSentence(part) : part.sentence)),
    tables: [
      ...(isNotEnough(frequency) ? [] : [frequencyTable(frequency)]),
      ...(isNotEnough(length) ? [] : [lengthTable(length)]),
    ],
    remarks: ['Stain alone is counted as no decay.', ...remarks],
  };
}

type Known<T> = Exclude<T, Readonly<{ notEnough: string }>>;

function frequencyTable({ group, others, test, method }: Known<DecayComparison['frequency']>): SheetTable {
  const row = (what: string, { decayed, examined }: typeof group) => [
    what,
    String(examined),
    String(decayed),
    rounded((100 * decayed) / examined, 0),
  ];
  return {
    caption: `Frequency: ${method}. ${oddsWords(test)}, p ${probability(test.p)}`,
    columns: [head('Stumps'), number('Examined'), number('With decay'), number('%')],
    rows: [row('of the group', group), row('others', others)],
  };
}

/** Where a side is all decayed or all sound there may be no ratio, and its interval has no upper end. */
function oddsWords({ oddsRatio, interval }: Known<DecayComparison['frequency']>['test']): string {
  const { low, high } = interval;
  const range =
    high === Number.POSITIVE_INFINITY
      ? `from ${rounded(low, 2)} without upper end`
      : `${rounded(low, 2)} to ${rounded(high, 2)}`;
  const ratio = Number.isFinite(oddsRatio)
    ? `Odds ratio ${rounded(oddsRatio, 2)}`
    : 'No odds ratio can be given';
  return `${ratio}, 95 % interval ${range}`;
}

function lengthTable({ group, others, unit, test, method }: Known<DecayComparison['length']>): SheetTable {
  const row = (what: string, { measured, decayed, median }: typeof group) => [
    what,
    String(decayed),
    String(measured),
    rounded(median, 1),
  ];
  const { low, high, reached } = test.interval;
  const level = `${Math.floor(reached * 1000) / 10} % interval`;
  return {
    caption: `Length up the butt: ${method}. Shift ${rounded(test.shift, 1)} ${unit}, ${level} ${rounded(low, 1)} to ${rounded(high, 1)} ${unit}, p ${probability(test.p)}`,
    columns: [head('Stumps'), number('With decay'), number('Measured'), number(`Median, ${unit}`)],
    rows: [row('of the group', group), row('others', others)],
  };
}

function probability(p: number): string {
  return p < 0.0001 ? '< 0.0001' : rounded(p, 4);
}
