// Sample plots: what they say of the land between them, with its uncertainty.
import { isNotEnough } from '../../measure/index.ts';
import type { SampleAnswer, SampleFigures, SampleRow } from '../../stand/index.ts';
import { atLeast0, belowZero } from './interval.ts';
import { head, missingWords, number, rounded, type Sheet, unitWords, wordy } from './model.ts';

export function sampleSheet({ blocks, all, remarks }: SampleFigures): Sheet {
  const rows = blocks.length > 1 ? [...blocks, all] : blocks;
  const missing = rows.flatMap(({ label, basalArea, stems }) =>
    [basalArea, stems].flatMap((answer) =>
      isNotEnough(answer) ? [`${label}: ${missingWords(answer)}.`] : [],
    ),
  );
  const table = (caption: string, of: (row: SampleRow) => SampleAnswer, decimals: number) => ({
    caption,
    columns: [
      head('Block'),
      number('Plots'),
      number('Mean'),
      number('Standard error'),
      number('95 % from'),
      number('to'),
      number('Sampling error, %'),
      wordy('Unit'),
    ],
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
          ],
    remarks: [...remarks, ...belowZero(rows.flatMap(({ basalArea, stems }) => [basalArea, stems]))],
  };
}

function estimateCells(answer: SampleAnswer, decimals: number): string[] {
  if (isNotEnough(answer)) return ['–', '–', '–', '–', '–', ''];
  const { mean, standardError, low, high, samplingErrorPercent, unit } = answer;
  const error = typeof samplingErrorPercent === 'number' ? rounded(samplingErrorPercent, 0) : '–';
  return [
    ...[mean, standardError, atLeast0(low), high].map((value) => rounded(value, decimals)),
    error,
    unitWords(unit),
  ];
}
