// Regeneration plots: visit by visit, and from each visit to the next.
import { isNotEnough } from '../../measure/index.ts';
import type { RegenerationFigures, RegenerationVisit } from '../../stand/index.ts';
import { atLeast0, belowZero, daysOf } from './interval.ts';
import {
  head,
  missingSentence,
  number,
  rounded,
  type Sheet,
  type SheetTable,
  unitWords,
  wordy,
} from './model.ts';

export function regenerationSheet(label: string, { visits, steps, remarks }: RegenerationFigures): Sheet {
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
            ...(steps.length === 0 ? [] : [stepsTable(steps)]),
            ...visits.flatMap(speciesTable),
          ],
    remarks: [
      ...remarks,
      ...belowZero(visits.map(({ estimate }) => (isNotEnough(estimate) ? estimate : estimate.stems))),
    ],
  };
}

function visitRow(visit: RegenerationVisit): string[] {
  const { estimate, methods } = visit;
  if (isNotEnough(estimate))
    return [daysOf(visit), '–', '–', '–', '–', '', '–', '–', '–', missingSentence(estimate)];
  const { stems, stocking, plots } = estimate;
  const cells = isNotEnough(stems)
    ? ['–', '–', '–', '']
    : [
        ...[stems.value, atLeast0(stems.low), stems.high].map((value) => rounded(value, 0)),
        unitWords(stems.unit),
      ];
  const percents = isNotEnough(stocking)
    ? ['–', '–', '–']
    : [stocking.value, stocking.low, stocking.high].map((share) => rounded(100 * share, 0));
  return [daysOf(visit), String(plots), ...cells, ...percents, methods.join('; ')];
}

type Steps = RegenerationFigures['steps'];

/** What lies between the visits: differences with their interval, and how many plots they rest on. */
function stepsTable(steps: Steps): SheetTable {
  return {
    caption: 'From visit to visit, later minus earlier; intervals at 95 %',
    columns: [
      head('Visits'),
      number('Plots'),
      number('then'),
      number('at both'),
      number('Stems'),
      number('from'),
      number('to'),
      wordy('Unit'),
      number('Stocked, points'),
      wordy('Stocked plots'),
      wordy('Method'),
    ],
    rows: steps.map(stepRow),
  };
}

function stepRow({ from, to, change }: Steps[number]): string[] {
  const visits = `${from.slice(0, 10)} to ${to.slice(0, 10)}`;
  if (isNotEnough(change)) return [visits, ...Array.from({ length: 9 }, () => '–'), missingSentence(change)];
  const { plots, stems, stocking } = change;
  const { earlier, later } = stocking;
  return [
    visits,
    ...[plots.earlier, plots.later, plots.both].map(String),
    ...(isNotEnough(stems)
      ? ['–', '–', '–', '']
      : [...[stems.value, stems.low, stems.high].map((value) => signed(value)), unitWords(stems.unit)]),
    signed(stocking.value),
    `${earlier.stocked} of ${earlier.plots}, then ${later.stocked} of ${later.plots}`,
    isNotEnough(stems) ? missingSentence(stems) : stems.method,
  ];
}

/** A difference shows which way it goes. */
function signed(value: number): string {
  return `${value > 0 ? '+' : ''}${rounded(value, 0)}`;
}

function speciesTable(visit: RegenerationVisit): SheetTable[] {
  const { estimate } = visit;
  if (isNotEnough(estimate)) return [];
  const [first] = estimate.table;
  if (first === undefined) return [];
  return [
    {
      caption: `${daysOf(visit)}: mean ${unitWords(first.stems.unit)} by species and height class`,
      columns: [head('Species'), wordy('Height class'), number('Stems')],
      rows: estimate.table.map(({ species, heightClass, stems }) => [
        species,
        heightClass,
        rounded(stems.value, 0),
      ]),
    },
  ];
}
