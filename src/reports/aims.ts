// Lays against aims, person by person: read what is asked, and the answer as data, as a sheet and as a picture. What is offered is
// offered with the command that records it, and nothing is used until somebody does.
import { ASSUMPTIONS, aimsOf, type FallLearned, type PersonAims } from '../felling/index.ts';
import { counted, type Folded, findThing, type Names, timeText } from '../stand/index.ts';
import type { BarChart } from './charts/model.ts';
import type { FigurePart } from './model.ts';
import { head, number, rounded, type Sheet, type SheetTable, wordy } from './sheets/model.ts';

export type AimFigures = Readonly<{ people: readonly PersonAims[] }>;

type Asked = Readonly<Record<string, string | undefined>>;
type Read =
  | Readonly<{ ok: true; figures: AimFigures }>
  | Readonly<{ ok: false; field: string; value: string; remedy: string }>;

/** Computes what is asked for: "by" names one person; nothing else means anything here. */
export function readAims(folded: Folded, names: Names, { by, ...others }: Asked): Read {
  const [strange] = Object.entries(others).filter(([, value]) => value !== undefined);
  if (strange !== undefined)
    return {
      ok: false,
      field: strange[0],
      value: strange[1] ?? '',
      remedy: 'it means nothing to figures of the aims; leave it out',
    };
  if (by === undefined) return { ok: true, figures: { people: aimsOf(folded) } };
  const found = findThing(folded.stand, 'person', by, names);
  return found.ok
    ? { ok: true, figures: { people: aimsOf(folded, found.value) } }
    : { ok: false, field: 'by', value: by, remedy: found.remedy };
}

/** As plain JSON: entries by their number, or by id where they have none yet. */
export function aimsJson({ people }: AimFigures, { stand, entries }: Folded, names: Names) {
  const numbered = (id: string) => entries.get(id)?.position ?? id;
  const told = <T extends { entry: string }>(fall: T) => ({ ...fall, entry: numbered(fall.entry) });
  return {
    what: 'aims' as const,
    figures: {
      people: people.map(
        ({ person, measured, unmeasured, farthest, estimate, offer, recorded, ...others }) => ({
          person,
          name: nameOf(person, stand, names) ?? null,
          ...others,
          measured: measured.map(told),
          unmeasured: unmeasured.map(told),
          farthest: farthest.map(({ stem, label }) => ({ stem, label })),
          estimate: estimate ?? { notEnough: notEnoughWords(measured.length, others.needed) },
          offer: offer === undefined ? null : { ...offer, restsOn: offer.restsOn.map(numbered) },
          recorded: recorded === undefined ? null : told(recorded),
        }),
      ),
    },
  };
}

function nameOf(person: string, { people }: Folded['stand'], names: Names): string | undefined {
  return names.get(people.get(person)?.name ?? '');
}

function notEnoughWords(measured: number, needed: number): string {
  return `not enough data: ${measured} of ${needed} falls measured`;
}

export function aimsSheet({ people }: AimFigures, folded: Folded, names: Names): Sheet {
  const title = 'Lays against aims';
  if (people.length === 0) return { title, lead: ['No stem was felled.'], tables: [], remarks: [] };
  return {
    title,
    lead: people.flatMap((one) => leadOf(one, folded, names)),
    tables: people.flatMap((one) => tablesOf(one, nameOf(one.person, folded.stand, names))),
    remarks: [
      'Direction error: about two of three falls of sound stems, felled with their lean, lie within it to either side of the aim.',
      'Off: from the aim to the lay, right positive. Model error: one standard deviation, as the usual model has it for that stem: wider with lean, rot, dead wood and wind, as they were known before it fell.',
      'Misses and hang-ups count like all others. "As aimed" by eye is no measurement. Nothing is used in a plan until somebody records it.',
    ],
  };
}

function leadOf(aims: PersonAims, { stand, entries }: Folded, names: Names): string[] {
  const { person, measured, unmeasured, needed, level, floor, estimate, offer, farthest, recorded } = aims;
  const name = nameOf(person, stand, names) ?? 'Somebody whose name is not here';
  const numbered = (id: string) => entries.get(id)?.position;
  const counts = `${name}: ${counted(measured.length, 'fall')} measured, ${unmeasured.length} not.`;
  const now =
    recorded === undefined
      ? []
      : [`Recorded for ${name} now: ${rounded(recorded.value, 1)}°, "${recorded.reason}".`];
  if (estimate === undefined)
    return [`${counts} Direction error: ${notEnoughWords(measured.length, needed)}.`, ...now];
  const { sigma, interval, upper, bias } = estimate;
  const usual = ASSUMPTIONS.directionError.value;
  const command = offer === undefined ? '' : commandFor(name, offer, measured.length, numbered);
  return [
    `${counts} Direction error ${rounded(sigma, 1)}°; nine times in ten the true one lies between such ends as ${rounded(interval.low, 1)}° and ${rounded(interval.high, 1)}°. The model usually takes ${rounded(usual, 1)}°.`,
    `On average ${biasWords(bias.mean)}; in truth anything from ${signed(bias.interval.low)} to ${signed(bias.interval.high)} (95 %). Nothing is taken off for that.`,
    `Farthest off for what the model expects: ${farthest.map(farWords).join(', ')}.`,
    offer === undefined
      ? `Nothing is offered: the error may be as wide as ${rounded(upper, 1)}°, and that is no aiming.`
      : offer.atFloor
        ? `Offered: ${rounded(offer.value, 1)}°, the floor. The falls would give ${rounded(upper, 1)}°; below ${rounded(floor, 1)}° goes only who records that it is meant.`
        : `Offered: ${rounded(offer.value, 1)}°, the wide end: ${rounded(100 * level, 0)} times in 100 the true one is not wider.`,
    ...(offer === undefined ? [] : [`To plan with it from now on: ${command}`]),
    ...now,
  ];
}

/** The exact command that records what is offered. */
function commandFor(
  name: string,
  { value, restsOn }: NonNullable<PersonAims['offer']>,
  falls: number,
  numbered: (id: string) => number | undefined,
): string {
  const numbers = restsOn.flatMap((id) => numbered(id) ?? []);
  // A list in an entry holds 200 at most.
  const behind = numbers.length === 0 || numbers.length > 200 ? '' : ` --rests-on "${numbers.join('; ')}"`;
  return `gapledger record felling-default-set --person "${name}" --assumption directionError --value ${value} --reason "${falls} measured lays"${behind}`;
}

function biasWords(mean: number): string {
  return `lays are ${rounded(Math.abs(mean), 1)}° to the ${mean < 0 ? 'left' : 'right'} of the aim`;
}

function farWords({ label, off, standardised, came }: FallLearned): string {
  return `${label} ${signed(off)} (${rounded(Math.abs(standardised), 1)} times the model error${came === 'hung-up' ? ', hung up' : ''})`;
}

function signed(degrees: number): string {
  const text = rounded(Math.abs(degrees), 1);
  if (Number(text) === 0) return '0.0°';
  return `${degrees < 0 ? '−' : '+'}${text}°`;
}

function tablesOf({ measured, unmeasured }: PersonAims, name = 'somebody'): SheetTable[] {
  return [
    ...(measured.length === 0
      ? []
      : [
          {
            caption: `Measured falls of ${name}`,
            columns: [
              head('Stem'),
              wordy('When'),
              number('Aim'),
              number('Lay'),
              number('Off'),
              number('Model error'),
              number('Off ÷ error'),
              wordy('Came'),
            ],
            rows: measured.map((fall) => [
              fall.label,
              timeText(fall.at),
              fall.aimFrom === 'plan' ? `${fall.aimed}, by the plan` : fall.aimed,
              fall.lay,
              signed(fall.off),
              `${rounded(fall.error, 1)}°`,
              rounded(fall.standardised, 2).replace('-', '−'),
              fall.came === 'down' ? 'down' : 'hung up',
            ]),
          },
        ]),
    ...(unmeasured.length === 0
      ? []
      : [
          {
            caption: `Not learned from, of ${name}`,
            columns: [head('Stem'), wordy('When'), wordy('Why')],
            rows: unmeasured.map(({ label, at, why }) => [label, timeText(at), why]),
          },
        ]),
  ];
}

/** The same in a report, with a picture; nothing where no lay was measured. */
export function aimsPart(folded: Folded, names: Names): FigurePart[] {
  const figures = { people: aimsOf(folded) };
  const chart = offChart(figures);
  return chart === undefined
    ? []
    : [{ sheet: aimsSheet(figures, folded, names), chart, data: aimsJson(figures, folded, names) }];
}

/** Width of a bar, degrees. */
const WIDTH = 5;

/** How often stems lay how far off, by steps of five degrees; those that hung up on top. */
function offChart({ people }: AimFigures): BarChart | undefined {
  const falls = people.flatMap(({ measured }) => measured);
  if (falls.length === 0) return undefined;
  const stepOf = ({ off }: FallLearned) => Math.floor(off / WIDTH);
  const steps = falls.map(stepOf);
  const [least, most] = [Math.min(...steps, -1), Math.max(...steps, 0)];
  const all = Array.from({ length: most - least + 1 }, (_, at) => least + at);
  const values = (came: FallLearned['came']) =>
    all.map((step) => falls.filter((fall) => fall.came === came && stepOf(fall) === step).length);
  const within = falls.filter(({ standardised }) => Math.abs(standardised) <= 1).length;
  return {
    is: 'bars',
    title: 'How far lays are off their aims',
    description: `Bars of falls for each five degrees off the aim, left of it below zero; ${within} of ${falls.length} measured falls lie within the error of the model. The numbers stand in the table.`,
    across: 'Off the aim, degrees: from here on; left of it below 0',
    up: 'Falls',
    categories: all.map((step) => String(step * WIDTH).replace('-', '−')),
    series: [
      { name: 'down', fill: 'solid', values: values('down') },
      { name: 'hung up', fill: 'hatched', values: values('hung-up') },
    ],
  };
}
