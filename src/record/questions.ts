// What a person who types an entry is asked before it is appended. An answer is a word: a flag on the
// command line, a member of "answers" over HTTP. Nothing is lost by a question, and nothing is guessed.
import { type Body, type Event, parseBody } from '../events/index.ts';
import {
  type Folded,
  groupLabel,
  hazardLabel,
  openIn,
  type Stand,
  saplingLabel,
  stemLabel,
} from '../stand/index.ts';
import { type Asked, aboutPlace, aboutSizes, aboutTime, anyway, type Question } from './plausible.ts';

export type { Question } from './plausible.ts';

/** The questions that this entry raises against the stand, answered or not. */
export function questionsFor({ event, happenedAt, now }: Asked, folded: Folded): Question[] {
  const { stand } = folded;
  if (event.type === 'entry-amended') return aboutAmendment(event.body, now, stand);
  return [
    ...aboutTime(happenedAt, now),
    ...aboutSizes(event),
    ...aboutPlace(event, stand, happenedAt.at),
    ...aboutStand(event, stand),
  ];
}

/** A new version is looked at for slips of typing; what it is about has been asked before. */
function aboutAmendment(body: Body<'entry-amended'>, now: number, stand: Stand): Question[] {
  const reading = parseBody(body.type, body.v, body.body);
  if (!reading.ok) return [];
  const { event } = reading;
  const retagged = event.type === 'stem-marked' && stand.stems.get(event.body.stem)?.tag !== event.body.tag;
  return [
    ...aboutTime(body.happenedAt, now),
    ...aboutSizes(event),
    ...aboutPlace(event, stand, body.happenedAt.at),
    ...(retagged ? tagInUse(event.body, stand, []) : []),
  ];
}

function aboutStand(event: Event, stand: Stand): Question[] {
  switch (event.type) {
    case 'stem-marked':
      return [...tagInUse(event.body, stand), ...closedOpening(event.body.group, stand)];
    case 'tag-replaced':
      return tagInUse(event.body, stand, []);
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

/** Only a mark may turn out to be for the stem that carries the tag already. */
const sameStem = { answer: 'same-stem', label: 'it is that stem: record the mark and measures for it' };

function tagInUse(
  { tag, stem }: { tag?: string | undefined; stem: string },
  stand: Stand,
  others: Question['choices'] = [sameStem],
): Question[] {
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
      choices: [...others, { answer: 'keep-both', label: 'two stems carry this tag: keep both' }],
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
