// What a plan must say besides order and aims: stems that come to lie across others, boles that may break, stems that can roll,
// and what is lost if nothing is lost twice.
import type { AfterPlan, FellingPlan } from '../../felling/index.ts';
import type { System } from '../../measure/index.ts';
import { head, number, rounded, type SheetTable, wordy } from './model.ts';
import { called, far, named, percent, sum } from './plan-words.ts';

/** How many pairs are printed; all of them are in the JSON. */
const MOST = 12;

type Pair = AfterPlan['crossings']['pairs'][number];

export function afterTables({ after }: FellingPlan, system: System): SheetTable[] {
  const { crossings, rolling } = after;
  const pairs = crossings.pairs.slice(0, MOST);
  return [
    ...(pairs.length === 0
      ? []
      : [
          {
            caption: 'Once they are down: what comes to lie across what',
            columns: [
              head('Stem'),
              wordy('Across'),
              number('Chance'),
              number('Bole on bole'),
              wordy('Where'),
            ],
            rows: pairs.map((pair) => [
              pair.label,
              overWords(pair),
              percent(pair.chance),
              percent(pair.bole),
              whereWords(pair, system),
            ]),
          },
        ]),
    ...(rolling.length === 0
      ? []
      : [
          {
            caption: 'On this slope: stems that can roll once they lie, and what is below them',
            columns: [head('Stem'), wordy('What is below'), number('Chance')],
            rows: rolling.flatMap(({ label, chance, reach, below }) => [
              [label, 'it comes to lie across the slope', percent(chance)],
              ...(below.length === 0
                ? [['', `nothing that was entered within ${far(reach, system)} straight down the slope`, '']]
                : below.slice(0, MOST).map((one) => ['', belowWords(one), percent(one.chance)])),
            ]),
          },
        ]),
  ];
}

function overWords({ over: { kind, label } }: Pair): string {
  return kind === 'planned stem'
    ? label
    : kind === 'stump'
      ? named('stump', label)
      : `${label}, which lies there`;
}

function whereWords({ label, over, out, along }: Pair, system: System): string {
  const own = `${far(out, system)} up ${label}`;
  return along === undefined ? own : `${own}, ${far(along, system)} up ${over.label}`;
}

function belowWords({ what, label }: AfterPlan['rolling'][number]['below'][number]): string {
  return what === 'people' ? `people: ${label}` : called(what, label);
}

export function afterRemarks({ after: { crossings, rolling, once }, falls, model }: FellingPlan): string[] {
  if (falls.length === 0) return [];
  const { slope } = model.inputs;
  const { rollSlope } = model.assumed;
  const broken = crossings.broken.map(({ label, expected }) => `${label} (${sum(expected)} times)`);
  return [
    ...(crossings.expected < 0.005
      ? []
      : [
          `Expected in all: ${rounded(crossings.expected, 1)} times a stem lies across another that is down. Stems that cross lie under tension: they can spring or roll when somebody limbs or cuts them.`,
        ]),
    ...(broken.length === 0
      ? []
      : [
          `May break, because the bole comes down on a bole or a stump: ${broken.join(', ')}. Stones, humps and ditches are not entered.`,
        ]),
    ...(slope === undefined
      ? ['No slope was said (--slope and --downhill), so that nothing is said of rolling and sliding.']
      : rolling.length === 0
        ? [`No stem is expected to lie so that it rolls; only slopes over ${rollSlope} % are looked at.`]
        : [
            'A stem that lies across the slope can roll at once, or when it is limbed or cut, and farther than is looked at here. Nobody works or stays below it; work from the uphill side.',
          ]),
    ...(once.added - once.once < 0.005
      ? []
      : [
          `The loss of each fall is counted by itself. If what is lost once cannot be lost again, saplings, patches and leave trees lose ${sum(once.once)} instead of ${sum(once.added)} saplings' worth (${rounded(once.ratio, 2)} times as much).`,
        ]),
  ];
}
