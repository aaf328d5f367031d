// What a person who types an entry is asked before it is appended. An answer is a word: a flag on the
// command line, a member of "answers" over HTTP. Nothing is lost by a question, and nothing is guessed.
import type { Body, Event, QuantityEntered } from '../events/index.ts';
import { isLengthUnit, lengthIn } from '../measure/index.ts';
import { farFrom, isUnresolved, type PositionEntered } from '../place/index.ts';
import {
  type Folded,
  groupLabel,
  hazardLabel,
  instantOf,
  locate,
  openIn,
  type Stand,
  saplingLabel,
  stemLabel,
} from '../stand/index.ts';

export type Question = Readonly<{
  code: string;
  sentence: string;
  choices: readonly { answer: string; label: string }[];
}>;

type Asked = Readonly<{
  event: Event;
  happenedAt: { at: string; precision: 'instant' | 'minute' | 'day' };
  now: number;
}>;

const anyway = (label = 'record it as typed') => ({ answer: 'anyway', label });

/** The questions that this entry raises against the stand, answered or not. */
export function questionsFor({ event, happenedAt, now }: Asked, folded: Folded): Question[] {
  const { stand } = folded;
  return [
    ...aboutTime(happenedAt, now),
    ...aboutSizes(event),
    ...aboutPlace(event, stand, happenedAt.at),
    ...aboutStand(event, stand),
  ];
}

function aboutTime(happenedAt: Asked['happenedAt'], now: number): Question[] {
  const start = happenedAt.precision === 'day' ? Date.parse(happenedAt.at) : instantOf(happenedAt);
  if (start <= now + 90_000) return [];
  return [
    {
      code: 'date-in-future',
      sentence: `${happenedAt.at} is still to come.`,
      choices: [anyway('record it with that time')],
    },
  ];
}

function aboutStand(event: Event, stand: Stand): Question[] {
  switch (event.type) {
    case 'stem-marked':
      return [...tagInUse(event.body, stand), ...closedOpening(event.body.group, stand)];
    case 'tag-replaced':
      return tagInUse(event.body, stand);
    case 'stem-felled':
      return [
        ...alreadyDown(event.body, stand),
        ...toStay(event.body, stand),
        ...closedOpening(groupOfStem(event.body, stand), stand),
      ];
    case 'opening-closed':
      return stillOpen(event.body.group, stand);
    case 'hang-up-cleared':
      return notHungUp(event.body, stand);
    default:
      return [];
  }
}

function tagInUse({ tag, stem }: { tag?: string | undefined; stem: string }, stand: Stand): Question[] {
  const carriers = [...(tag === undefined ? [] : (stand.tags.get(tag.toLowerCase()) ?? []))].filter(
    (id) => id !== stem,
  );
  const other = stand.stems.get(carriers[0] ?? '');
  if (other === undefined) return [];
  const group = other.group === undefined ? '' : ` of ${groupLabel(stand.groups.get(other.group))}`;
  return [
    {
      code: 'tag-in-use',
      sentence: `Tag ${tag} is on a ${other.status === 'standing' ? 'standing' : other.status.replace('-', ' ')} stem${group} already.`,
      choices: [
        { answer: 'same-stem', label: 'it is that stem: record the mark and measures for it' },
        { answer: 'keep-both', label: 'two stems carry this tag: keep both' },
      ],
    },
  ];
}

function alreadyDown({ stem: id }: Body<'stem-felled'>, stand: Stand): Question[] {
  const stem = stand.stems.get(id);
  if (stem === undefined || stem.felling === undefined) {
    return stem?.status === 'found-down'
      ? [
          {
            code: 'already-down',
            sentence: `${stemLabel(stem)} was found down before.`,
            choices: [{ answer: 'keep-both', label: 'keep both entries' }],
          },
        ]
      : [];
  }
  return [
    {
      code: 'already-down',
      sentence: `${stemLabel(stem)} is already ${stem.status === 'hung-up' ? 'recorded as hung up' : 'down'} (${stem.felling.at.at.slice(0, 16).replace('T', ' ')}). If it is another stem, give its tag.`,
      choices: [
        { answer: 'correct', label: 'the earlier entry is wrong: amend it with this one' },
        { answer: 'keep-both', label: 'keep both entries' },
      ],
    },
  ];
}

function toStay({ stem: id }: Body<'stem-felled'>, stand: Stand): Question[] {
  const stem = stand.stems.get(id);
  if (stem?.mark !== 'leave' || stem.felling) return [];
  return [
    {
      code: 'leave-tree',
      sentence: `${stemLabel(stem)} is marked to stay${stem.purpose === undefined ? '' : ` (${stem.purpose})`}.`,
      choices: [anyway('it was felled: record it; it becomes a finding')],
    },
  ];
}

function groupOfStem({ stem, group }: Body<'stem-felled'>, stand: Stand): string | undefined {
  return stand.stems.get(stem)?.group ?? group;
}

function closedOpening(group: string | undefined, stand: Stand): Question[] {
  const found = group === undefined ? undefined : stand.groups.get(group);
  if (found?.opening !== 'closed') return [];
  return [
    {
      code: 'closed-opening',
      sentence: `The opening of ${groupLabel(found)} is closed. If work goes on there, record "opening reopened" first.`,
      choices: [anyway()],
    },
  ];
}

function notHungUp({ stem: id }: Body<'hang-up-cleared'>, stand: Stand): Question[] {
  const stem = stand.stems.get(id);
  if (stem === undefined || stem.status === 'hung-up') return [];
  return [
    { code: 'not-hung-up', sentence: `${stemLabel(stem)} is not recorded as hung up.`, choices: [anyway()] },
  ];
}

/** Closing asks what is still open, in the order of what can hurt somebody. */
function stillOpen(group: string, stand: Stand): Question[] {
  const open = openIn(stand, group);
  const list = [
    ...open.hungUp.map((stem) => `${stemLabel(stem)} is hung up`),
    ...open.hazards.map((hazard) => `hazard not cleared: ${hazardLabel(stand, hazard)}`),
    ...open.standing.map((stem) => `${stemLabel(stem)} is marked to be cut and stands`),
    ...[...open.uncheckedSaplings, ...open.uncheckedPatches].map(
      (thing) => `${saplingLabel(thing)} is not checked`,
    ),
  ];
  if (list.length === 0) return [];
  const shown = list.slice(0, 12).join('; ');
  const rest = list.length > 12 ? `; and ${list.length - 12} more` : '';
  return [
    {
      code: 'still-open',
      sentence: `Still open in ${groupLabel(stand.groups.get(group))}: ${shown}${rest}.`,
      choices: [anyway('close it all the same; each of these becomes a finding')],
    },
  ];
}

/** Sizes beyond these are asked about. Common practice, no source. */
const largest = { dbhInches: 100, heightFeet: 330, stumpHeightFeet: 6 };

function aboutSizes(event: Event): Question[] {
  if (event.type !== 'stem-marked' && event.type !== 'stem-measured' && event.type !== 'stem-felled')
    return [];
  const { body } = event;
  const height = 'height' in body ? body.height : undefined;
  return [
    ...tooLarge('DBH', body.dbh, 'in', largest.dbhInches),
    ...tooLarge('height', height, 'ft', largest.heightFeet),
    ...('stumpHeight' in body
      ? tooLarge('stump height', body.stumpHeight, 'ft', largest.stumpHeightFeet)
      : []),
  ];
}

function tooLarge(
  what: string,
  quantity: QuantityEntered | undefined,
  unit: 'in' | 'ft',
  limit: number,
): Question[] {
  if (quantity === undefined || !isLengthUnit(quantity.unit)) return [];
  const value = lengthIn(Number(quantity.value), quantity.unit, unit);
  if (value > 0 && value <= limit) return [];
  const likely = value > limit ? likelyUnit(quantity, unit, limit) : undefined;
  return [
    {
      code: 'size',
      sentence: `A ${what} of ${quantity.text} (${quantity.unit}) ${value <= 0 ? 'is not above zero' : `is more than ${limit} ${unit}`}.${likely === undefined ? '' : ` Did you mean ${likely}?`}`,
      choices: [anyway()],
    },
  ];
}

/** The unit or decimal point that was probably meant. */
function likelyUnit({ value, unit }: QuantityEntered, into: 'in' | 'ft', limit: number): string | undefined {
  const number = Number(value);
  for (const smaller of ['cm', 'mm'] as const) {
    if (unit !== smaller && lengthIn(number, smaller, into) <= limit) return `${value} ${smaller}`;
  }
  return number / 10 <= limit ? `${number / 10} ${unit}` : undefined;
}

/** Things farther than this from their block are asked about, metres. Common practice, no source. */
const farMetres = 300;

function aboutPlace(event: Event, stand: Stand, when: string): Question[] {
  const entered = 'position' in event.body ? event.body.position : undefined;
  if (entered === undefined || event.type === 'stake-set') return [];
  return farFromBlock(entered, event, stand, when);
}

function farFromBlock(entered: PositionEntered, event: Event, stand: Stand, when: string): Question[] {
  const locator = locate(stand);
  const at = locator.resolve({ entered, when, entry: '' });
  if (isUnresolved(at)) {
    return entered.how === 'unknown'
      ? []
      : [
          {
            code: 'position',
            sentence: `This position cannot be worked out: ${at.why}`,
            choices: [anyway('keep it as written')],
          },
        ];
  }
  const blocks = blocksOf(event, stand).flatMap((block) =>
    block.boundary ? [{ block, ...locator.ring(block.boundary, when) }] : [],
  );
  const known = blocks.filter(({ ring }) => ring.length >= 3);
  if (known.length === 0 || known.some(({ ring }) => !farFrom(at.at, ring, farMetres))) return [];
  const { lat, lon } = at.at;
  return [
    {
      code: 'far-from-block',
      sentence: `Latitude ${lat.toFixed(5)}, longitude ${lon.toFixed(5)} is more than ${farMetres} m from ${known.map(({ block }) => block.name).join(', ')}. Check the order of the numbers, their unit and the zone.`,
      choices: [anyway()],
    },
  ];
}

function blocksOf(event: Event, stand: Stand) {
  const body = event.body as { group?: string; block?: string };
  const block = body.block ?? (body.group === undefined ? undefined : stand.groups.get(body.group)?.block);
  const named = block === undefined ? undefined : stand.blocks.get(block);
  return named ? [named] : [...stand.blocks.values()];
}
