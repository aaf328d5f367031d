// Openings side by side: area by each way of measuring, form, distances, and how much of a block was opened.
import type { OpeningFigures, OpeningRow } from '../../stand/index.ts';
import { type Lengths, lengthsIn } from './lengths.ts';
import { head, number, rounded, type Sheet, type SheetTable, wordy } from './model.ts';

export function openingsSheet(figures: OpeningFigures): Sheet {
  const { rows, blocks, remarks, system } = figures;
  const title = 'Openings';
  if (rows.length === 0)
    return {
      title,
      lead: ['No stem of a group was felled, so there is no opening.'],
      tables: [],
      remarks: [],
    };
  const missing = rows.flatMap(({ label, measures }) =>
    measures.flatMap((measure) => ('why' in measure ? [`${label}, ${measure.method}: ${measure.why}`] : [])),
  );
  const us = system === 'inch';
  return {
    title,
    lead: missing,
    tables: [
      areas(rows, us),
      forms(rows, lengthsIn(system)),
      distances(rows, us, lengthsIn(system)),
      ...(blocks.length === 0 ? [] : [opened(figures)]),
    ],
    remarks,
  };
}

function areas(rows: readonly OpeningRow[], us: boolean): SheetTable {
  return {
    caption: 'Area by each way of measuring',
    columns: [
      head('Opening'),
      wordy('Way of measuring'),
      number(us ? 'Area, ac' : 'Area, ha'),
      number(us ? 'Area, ft²' : 'Area, m²'),
      number('Standard error, %'),
      number('Of the planned, %'),
    ],
    rows: rows.flatMap(({ label, measures, ofPlanned }) => {
      const known = measures.filter((measure) => 'area' in measure);
      return known.map(({ method, area, standardError }, position) => [
        label,
        method,
        us ? rounded(area.ac, 3) : rounded(area.ha, 4),
        us ? rounded(area.m2 / 0.3048 ** 2, 0) : rounded(area.m2, 0),
        rounded((100 * standardError) / area.m2, 0),
        position > 0 || ofPlanned === null ? '–' : rounded(ofPlanned, 0),
      ]);
    }),
  };
}

function forms(rows: readonly OpeningRow[], { unit, of }: Lengths): SheetTable {
  return {
    caption: 'Form',
    columns: [
      head('Opening'),
      number(`Length, ${unit}`),
      number(`Width, ${unit}`),
      number('Long axis, ° true'),
      number('Roundness'),
      number(`Edge trees, ${unit}`),
      number('Width in tree heights'),
    ],
    rows: rows.map(({ label, form, edgeHeight, widthInHeights }) => [
      label,
      ...(form === null
        ? ['–', '–', '–', '–']
        : [of(form.length), of(form.width), rounded(form.orientation, 0), rounded(form.roundness, 2)]),
      edgeHeight === null ? '–' : of(edgeHeight),
      widthInHeights === null ? '–' : rounded(widthInHeights, 2),
    ]),
  };
}

function distances(rows: readonly OpeningRow[], us: boolean, { unit, of }: Lengths): SheetTable {
  return {
    caption: 'Neighbours, edge to edge',
    columns: [head('Opening'), wordy('Nearest opening'), wordy('Counts as one with'), wordy('Features')],
    rows: rows.map(({ label, nearest, touches, together, features }) => [
      label,
      nearest === null ? 'none' : `${nearest.label}, ${of(nearest.metres)} ${unit}`,
      together === null
        ? 'none'
        : `${touches.join(', ')}: together ${us ? `${rounded(together.ac, 3)} ac` : `${rounded(together.ha, 4)} ha`}`,
      features.length === 0
        ? 'none mapped'
        : features.map((one) => `${one.label}, ${of(one.metres)} ${unit}`).join('; '),
    ]),
  };
}

function opened({ blocks, period, system }: OpeningFigures): SheetTable {
  const us = system === 'inch';
  return {
    caption: 'Share of the block that was opened',
    columns: [
      head('Block'),
      number('Year'),
      number(us ? 'Opened, ac' : 'Opened, ha'),
      number('Of the block, %'),
      number(`In ${period} years, %`),
    ],
    rows: blocks.flatMap(({ label, years }) =>
      years.map(({ year, m2, percent, rolling }) => [
        label,
        String(year),
        us ? rounded(m2 / 4046.8564224, 3) : rounded(m2 / 10_000, 4),
        percent === null ? '–' : rounded(percent, 1),
        rolling === null ? '–' : rounded(rolling, 1),
      ]),
    ),
  };
}
