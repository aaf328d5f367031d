// Questions about stems that come down: down already, marked to stay, holding another one, never hung up.
import type { Body } from '../events/index.ts';
import { groupLabel, type Stand, type Stem, stemLabel, timeText } from '../stand/index.ts';
import { anyway, type Question } from './question.ts';

/** The stand when it happened, and as it is known now: a late entry can contradict either. */
export type Standings = Readonly<{ past: Stand; now: Stand }>;

const keepBoth = { answer: 'keep-both', label: 'keep both entries' };
const cleared = { answer: 'cleared', label: 'it is the same stem: record hang-up-cleared' };
const correct = { answer: 'correct', label: 'the earlier entry is wrong: amend it with this one' };

/** What a felling raises; what can hurt somebody comes first. */
export function aboutFelling(body: Body<'stem-felled'>, standings: Standings): Question[] {
  const group = standings.past.stems.get(body.stem)?.group ?? body.group;
  return [
    ...holdsHungUp(body, standings.past),
    ...alreadyDown(body, standings),
    ...toStay(body, standings.past),
    ...closedOpening(group, standings.past),
  ];
}

/** A stem falls once: it is asked about when it was down before, and when the log has it come down later. */
function alreadyDown({ stem: id, came }: Body<'stem-felled'>, { past, now }: Standings): Question[] {
  const before = past.stems.get(id);
  const stem = before && isDown(before) ? before : now.stems.get(id);
  if (stem === undefined || !isDown(stem)) return [];
  const label = stemLabel(stem);
  if (stem.felling === undefined) {
    const when = stem === before ? 'before' : 'later than this';
    return ask(`${label} was found down ${when}. If this is another stem, give its tag.`, [keepBoth]);
  }
  const when = timeText(stem.felling.at);
  if (stem.status !== 'hung-up')
    return ask(`${label} is already down (${when}). If this is another stem, give its tag.`, [
      correct,
      keepBoth,
    ]);
  const hangsNow = came === 'down' && now.stems.get(id)?.status === 'hung-up';
  return hangsNow
    ? ask(
        `${label} is recorded as hung up (${when}). If it has come down now, it is the same stem: record hang-up-cleared. If this is another stem, give its tag.`,
        [cleared, correct, keepBoth],
      )
    : ask(`${label} is already recorded as hung up (${when}). If this is another stem, give its tag.`, [
        correct,
        keepBoth,
      ]);
}

/** Felled, hung up or found down. */
export function isDown({ felling, status }: Stem): boolean {
  return felling !== undefined || status === 'found-down';
}

function ask(sentence: string, choices: Question['choices']): Question[] {
  return [{ code: 'already-down', sentence, choices }];
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

/** Felling the tree that holds another is among the worst that can be done; whoever types it is told so. */
function holdsHungUp({ stem: id }: Body<'stem-felled'>, stand: Stand): Question[] {
  const held = [...stand.stems.values()].filter(
    ({ status, felling }) => status === 'hung-up' && felling?.hungOn === id,
  );
  if (held.length === 0) return [];
  return [
    {
      code: 'holds-hung-up',
      sentence: `${stemLabel(stand.stems.get(id))} holds ${held.map(stemLabel).join(', ')}, recorded as hung up. Do not cut the tree that holds a hung-up tree, and do not work or walk under either: keep everybody two tree lengths away and get trained help.`,
      choices: [anyway('it was felled: record it; it becomes a finding')],
    },
  ];
}

/** A stem cannot be held by itself: nobody can have meant that, so there is nothing to choose. */
export function heldByItself(body: Body<'stem-felled'>): boolean {
  return body.hungOn !== undefined && body.hungOn === body.stem;
}

export function closedOpening(group: string | undefined, stand: Stand): Question[] {
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

export function notHungUp({ stem: id }: Body<'hang-up-cleared'>, { past, now }: Standings): Question[] {
  const stem = past.stems.get(id) ?? now.stems.get(id);
  if (stem === undefined || past.stems.get(id)?.status === 'hung-up') return [];
  const moment = now.stems.get(id)?.felling === undefined ? '' : ' at that time';
  return [
    {
      code: 'not-hung-up',
      sentence: `${stemLabel(stem)} is not recorded as hung up${moment}.`,
      choices: [anyway()],
    },
  ];
}
