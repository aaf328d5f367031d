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
  const { low, high } = test.interval;
  return {
    caption: `Frequency: ${method}. Odds ratio ${rounded(test.oddsRatio, 2)}, 95 % interval ${rounded(low, 2)} to ${rounded(high, 2)}, p ${probability(test.p)}`,
    columns: [head('Stumps'), number('Examined'), number('With decay'), number('%')],
    rows: [row('of the group', group), row('others', others)],
  };
}

function lengthTable({ group, others, unit, test, method }: Known<DecayComparison['length']>): SheetTable {
  const row = (what: string, { measured, decayed, median }: typeof group) => [
    what,
    String(decayed),
    String(measured),
    rounded(median, 1),
  ];
  const { low, high } = test.interval;
  return {
    caption: `Length up the butt: ${method}. Shift ${rounded(test.shift, 1)} ${unit}, interval ${rounded(low, 1)} to ${rounded(high, 1)} ${unit}, p ${probability(test.p)}`,
    columns: [head('Stumps'), number('With decay'), number('Measured'), number(`Median, ${unit}`)],
    rows: [row('of the group', group), row('others', others)],
  };
}

function probability(p: number): string {
  return p < 0.0001 ? '< 0.0001' : rounded(p, 4);
}
