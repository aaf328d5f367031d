// Sample plots, regeneration plots and damage to leave trees, each with its uncertainty.
import { isNotEnough, type NotEnough } from '../../measure/index.ts';
import type {
  DamageFigures,
  RegenerationFigures,
  RegenerationVisit,
  SampleAnswer,
  SampleFigures,
  SampleRow,
} from '../../stand/index.ts';
import {
  head,
  missingSentence,
  missingWords,
  number,
  rounded,
  type Sheet,
  unitWords,
  wordy,
} from './model.ts';

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

/** There are no fewer trees than none, whatever the interval of a mean says. */
function atLeast0(low: number): number {
  return Math.max(0, low);
}

/** Said where `atLeast0` changes what is shown; the figures themselves keep the interval as it was computed. */
function belowZero(answers: readonly (Readonly<{ low: number }> | NotEnough)[]): string[] {
  return answers.some((answer) => !isNotEnough(answer) && answer.low < 0)
    ? [
        'The interval of a mean goes below zero and is shown from 0: with so few or so unlike plots it says little.',
      ]
    : [];
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

export function regenerationSheet(label: string, { visits, remarks }: RegenerationFigures): Sheet {
  return {
    title: `Regeneration in ${label}`,
    lead: visits.length === 0 ? ['No regeneration plot is recorded ("regeneration counted").'] : [],
    tables:
      visits.length === 0
        ? []
        : [
            {
              caption: 'Visit by visit; intervals at 95 %',
              columns: [
                head('Visit'),
                number('Plots'),
                number('Stems'),
                number('from'),
                number('to'),
                wordy('Unit'),
                number('Stocked, %'),
                number('from'),
                number('to'),
                wordy('Method'),
              ],
              rows: visits.map(visitRow),
            },
            ...visits.flatMap(speciesTable),
          ],
    remarks: [
      ...remarks,
      ...belowZero(visits.map(({ estimate }) => (isNotEnough(estimate) ? estimate : estimate.stems))),
    ],
  };
}

/** The day of a visit; of one that took several, the first and the last. */
function daysOf({ from, to }: RegenerationVisit): string {
  const [first, last] = [from.slice(0, 10), to.slice(0, 10)];
  return first === last ? first : `${first} to ${last}`;
}

function visitRow(visit: RegenerationVisit): string[] {
  const { estimate, methods } = visit;
  if (isNotEnough(estimate))
    return [daysOf(visit), '–', '–', '–', '–', '', '–', '–', '–', missingSentence(estimate)];
  const { stems, stocking, unit, plots } = estimate;
  const cells = isNotEnough(stems)
    ? ['–', '–', '–']
    : [stems.mean, atLeast0(stems.low), stems.high].map((value) => rounded(value, 0));
  const percents = [stocking.share, stocking.low, stocking.high].map((share) => rounded(100 * share, 0));
  return [daysOf(visit), String(plots), ...cells, unitWords(unit), ...percents, methods.join('; ')];
}

function speciesTable(visit: RegenerationVisit): Sheet['tables'] {
  const { estimate } = visit;
  if (isNotEnough(estimate) || estimate.table.length === 0) return [];
  return [
    {
      caption: `${daysOf(visit)}: mean ${unitWords(estimate.unit)} by species and height class`,
      columns: [head('Species'), wordy('Height class'), number('Stems')],
      rows: estimate.table.map(({ species, heightClass, stems }) => [
        species,
        heightClass,
        rounded(stems, 0),
      ]),
    },
  ];
}

export function damageSheet({ all, groups, remarks }: DamageFigures): Sheet {
  const limit = `${all.limit.value} ${unitWords(all.limit.unit)}`;
  const row = (label: string, share: DamageFigures['all']) => [
    label,
    String(share.trees),
    String(share.damaged),
    percent(isNotEnough(share.byNumber) ? share.byNumber : share.byNumber.share),
    percent(share.byBasalArea),
    String(share.treesAtLeast),
    ...[share.wounds.atLeast, share.wounds.under, share.wounds.unmeasured].map(String),
  ];
  const missing = [all.byNumber, all.byBasalArea].filter((answer) => isNotEnough(answer));
  return {
    title: 'Damage to leave trees',
    lead: missing.map(missingSentence),
    tables: [
      {
        caption: `Leave trees with damage; a wound counts as large from ${limit} on`,
        columns: [
          head('Group'),
          number('Leave trees'),
          number('Damaged'),
          number('% of trees'),
          number('% of basal area'),
          number('Trees with a large wound'),
          number('Large wounds'),
          number('Smaller'),
          number('Not measured'),
        ],
        rows: [...groups.map(({ label, share }) => row(label, share)), row('All', all)],
      },
    ],
    remarks: [...remarks, `Source of the ${all.source}.`],
  };
}

function percent(share: number | NotEnough): string {
  return typeof share === 'number' ? rounded(100 * share, 0) : '–';
}
