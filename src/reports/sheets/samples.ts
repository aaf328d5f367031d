// Sample plots: what they say of the land between them, with its uncertainty.
import { isNotEnough, ruleName } from '../../measure/index.ts';
import type { SampleAnswer, SampleFigures, SampleRow } from '../../stand/index.ts';
import { atLeast0, belowZero } from './interval.ts';
import {
  head,
  missingWords,
  number,
  rounded,
  type Sheet,
  type SheetTable,
  unitWords,
  wordy,
} from './model.ts';

export function sampleSheet({ rule, blocks, all, remarks }: SampleFigures): Sheet {
  const rows = blocks.length > 1 ? [...blocks, all] : blocks;
  const missing = rows.flatMap(({ label, ...row }) =>
    Object.entries(words).flatMap(([name, what]) => {
      const answer = row[name as keyof typeof words];
      return isNotEnough(answer) ? [`${what} of ${label}: ${missingWords(answer)}.`] : [];
    }),
  );
  const table = (caption: string, of: (row: SampleRow) => SampleAnswer | null, decimals: number) => ({
    caption,
    columns: [head('Block'), number('Plots'), ...estimateColumns],
    rows: rows.map((row) => [row.label, String(row.plots), ...estimateCells(of(row), decimals)]),
  });
  return {
    title: 'Sample plots',
    lead: blocks.length === 0 ? ['No plot is recorded ("plot tallied").'] : missing,
    tables:
      blocks.length === 0
        ? []
        : [
            table('Live basal area', ({ basalArea }) => basalArea, 1),
            table('Live stems', ({ stems }) => stems, 0),
            ...(rule === null ? [] : [table(`Live volume by ${ruleName(rule)}`, ({ volume }) => volume, 0)]),
          ],
    remarks: [
      ...remarks,
      ...belowZero(
        rows.flatMap(({ basalArea, stems, volume }) => [basalArea, stems, ...(volume ? [volume] : [])]),
      ),
    ],
  };
}

export const estimateColumns: SheetTable['columns'] = [
  number('Mean'),
  number('Standard error'),
  number('95 % from'),
  number('to'),
  number('Sampling error, %'),
  wordy('Unit'),
];

const words = { basalArea: 'Basal area', stems: 'Stems', volume: 'Volume' } as const;

/** Mean, standard error, both ends of the interval, sampling error and unit. */
export function estimateCells(answer: SampleAnswer | null, decimals: number): string[] {
  if (answer === null || isNotEnough(answer)) return ['–', '–', '–', '–', '–', ''];
  const { value: mean, standardError, low, high, samplingErrorPercent, unit } = answer;
  const error = typeof samplingErrorPercent === 'number' ? rounded(samplingErrorPercent, 0) : '–';
  return [
    ...[mean, standardError, atLeast0(low), high].map((value) => rounded(value, decimals)),
    error,
    unitWords(unit),
  ];
}
