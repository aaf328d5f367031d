// What a person who types an entry is asked before it is appended. An answer is a word: a flag on the
// command line, a member of "answers" over HTTP. Nothing is lost by a question, and nothing is guessed.
import { type Body, type Event, type Issue, parseBody } from '../events/index.ts';
import { type Folded, fold, instantOf, type Names } from '../stand/index.ts';
import { aboutLine } from './at-line.ts';
import { stillOpen } from './closing.ts';
import { aboutFelling, closedOpening, heldByItself, notHungUp } from './falls.ts';
import { labelInUse, tagInUse } from './labels-in-use.ts';
import { aboutPlace } from './places.ts';
import { type Asked, anyway, type Question } from './question.ts';
import { aboutSizes } from './sizes.ts';

export type { Question } from './question.ts';

/** The questions that this entry raises against the stand, answered or not. */
export function questionsFor({ event, happenedAt, now, names }: Asked, folded: Folded): Question[] {
  if (event.type === 'entry-amended') return aboutAmendment(event.body, { now, names, folded });
  return [
    ...aboutTime(happenedAt, now),
    ...aboutEntry(event, happenedAt.at, { names, folded, amending: false }),
    ...aboutStand(event, { past: standAt(happenedAt, folded), now: folded }),
  ];
}

/** What no answer can make right; it is refused where somebody types it. */
export function impossibleIn(event: Event): Issue[] {
  if (event.type !== 'stem-felled' || !heldByItself(event.body)) return [];
  const remedy = 'a stem cannot be hung up in itself; name the tree that holds it, or leave it out';
  return [{ field: 'hungOn', value: event.body.hungOn ?? '', remedy }];
}

type Context = Readonly<{ names: Names | undefined; folded: Folded }>;

/** A new version is looked at for slips of typing; what it is about has been asked before. */
function aboutAmendment(
  body: Body<'entry-amended'>,
  { now, ...context }: Context & { now: number },
): Question[] {
  const reading = parseBody(body.type, body.v, body.body);
  if (!reading.ok) return [];
  return [
    ...aboutTime(body.happenedAt, now),
    ...aboutEntry(reading.event, body.happenedAt.at, { ...context, amending: true }),
  ];
}

/** Slips of typing: sizes, places, and labels that something else has. */
function aboutEntry(
  event: Event,
  when: string,
  { names, folded, amending }: Context & { amending: boolean },
): Question[] {
  return [
    ...aboutSizes(event, folded.stand, amending),
    ...aboutPlace(event, folded.stand, when),
    ...aboutLine(event, folded.stand, when),
    ...(amending ? tagInUse(event, folded, amending) : []),
    ...labelInUse(event, folded, names),
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

/** An entry that is recorded late is held against the stand when it happened. */
function standAt(happenedAt: Asked['happenedAt'], folded: Folded): Folded {
  const until = instantOf(happenedAt);
  const last = folded.happenings.at(-1);
  return last === undefined || last.instant <= until ? folded : fold(folded.entries.values(), { until });
}

type Standings = Readonly<{ past: Folded; now: Folded }>;

/** What contradicts the state of things. A tag is on two stems when it was in use at that time, and when it is now. */
function aboutStand(event: Event, { past, now }: Standings): Question[] {
  const tagBefore = tagInUse(event, past, false);
  return [
    ...(tagBefore.length > 0 ? tagBefore : tagInUse(event, now, false)),
    ...aboutState(event, { past, now }),
  ];
}

function aboutState(event: Event, { past, now }: Standings): Question[] {
  switch (event.type) {
    case 'stem-marked':
      return closedOpening(event.body.group, past.stand);
    case 'stem-felled':
      return aboutFelling(event.body, { past: past.stand, now: now.stand });
    case 'opening-closed':
      return stillOpen(event.body.group, past.stand);
    case 'hang-up-cleared':
      return notHungUp(event.body, { past: past.stand, now: now.stand });
    default:
      return [];
  }
}
