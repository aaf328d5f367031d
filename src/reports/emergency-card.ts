// The emergency card as data: where help is met, whom to call, what is dangerous now, and whether a call is overdue.
// Plain JSON throughout. Unknown is said in words, together with what to record.
import { type Cautions, cautions } from '../felling/index.ts';
import type { TreeHead } from '../log/entry/index.ts';
import {
  decimalDegrees,
  degreesMinutes,
  isUnresolved,
  metres,
  type PositionEntered,
  type Resolved,
  type Unresolved,
  utmText,
} from '../place/index.ts';
import {
  callOverdue,
  dangersIn,
  type EmergencyCard,
  type ExpectedCall,
  emergencyCardFor,
  type Folded,
  isOverdue,
  locate,
  type Names,
  openCalls,
  positionWords,
  withUnit,
} from '../stand/index.ts';
import { type Context, contextOf, known, missing, recordedOr, term } from './context.ts';
import { dangerFacts } from './dangers.ts';
import { evidenceOf } from './evidence.ts';
import type { Evidence, Fact, Term } from './model.ts';

export type EmergencyCardReport = Readonly<{
  report: 'emergency-card';
  format: 1;
  title: string;
  /** RFC 3339, as passed in. */
  madeAt: string;
  /** The same in the zone of the logbook, to the minute. */
  madeLocal: string;
  program: string;
  evidence: Evidence;
  /** Which moment and which card it shows, in sentences. */
  shows: readonly string[];
  callFirst: Fact;
  /** Where help is met. */
  place: Readonly<{
    decimalDegrees: Fact;
    degreesMinutes: Fact;
    utm: Fact;
    datum: Fact;
    /** As it was entered, and how accurate it is. */
    entered: Fact;
  }>;
  wayIn: Fact;
  signal: Fact;
  nearestHelp: Fact;
  contacts: Fact;
  call: Readonly<{ state: 'overdue' | 'expected' | 'none'; facts: readonly Fact[] }>;
  /** What is recorded as hung up or open. */
  dangers: readonly Fact[];
  blocks: readonly Term[];
  cautions: Cautions;
}>;

export type EmergencyCardOptions = Readonly<{
  /** Tree head of the log that was folded. */
  head: TreeHead;
  /** The moment of making, RFC 3339; calls are overdue by it. */
  madeAt: string;
  /** Milliseconds since 1970: the moment that the log was folded up to. Then calls are overdue by this. */
  until?: number;
  program: string;
  /** Names and contacts by their sealed hash. */
  names: Names;
  /** Numbers of the entries in the log, by id. */
  positions: ReadonlyMap<string, number>;
  /** As typed, where the log was not folded as it is now. */
  at?: string;
  knownAt?: string;
  /** Id of the block whose card it is; without it the property's. */
  block?: string;
}>;

/**
 * The emergency card as plain data.
 * @throws RangeError when the head is no tree head, or `block` names no block of the stand
 */
export function emergencyCard(folded: Folded, options: EmergencyCardOptions): EmergencyCardReport {
  const { stand } = folded;
  const context = contextOf(folded, options.positions, options.names);
  const block = options.block === undefined ? onlyCard(folded) : options.block;
  const blockName = block === undefined ? undefined : nameOf(folded, block);
  const card = emergencyCardFor(stand, block);
  const property = stand.logbook?.body.name;
  const entries = context.numbers(card?.entries ?? []);
  const say = (text: string | undefined, record: string) =>
    recordedOr(text, text === undefined ? [] : entries, `not recorded; ${record}`);
  return {
    report: 'emergency-card',
    format: 1,
    title: `Emergency card${property === undefined ? '' : `: ${property}`}${blockName === undefined ? '' : `, ${blockName}`}`,
    madeAt: options.madeAt,
    madeLocal: context.recorded(options.madeAt),
    program: options.program,
    evidence: evidenceOf(options.head),
    shows: [...momentWords(options), ...otherCards(folded, block)],
    callFirst: say(card?.callFirst, 'record the number to call first'),
    place: placeFacts(context, card),
    wayIn: say(card?.wayIn, 'record the way in for somebody who was never here'),
    signal: say(card?.signal, 'record where a telephone works'),
    nearestHelp: say(card?.nearestHelp, 'record the nearest hospital and how far it is'),
    contacts: contactFact(context, card),
    call: callPart(context, options.until ?? Date.parse(options.madeAt)),
    dangers: dangerFacts(context, dangersIn(stand)),
    blocks: [...stand.blocks.values()].map(({ name, area, entries: about }) =>
      term(
        name,
        recordedOr(
          area && withUnit(area),
          context.numbers(about.slice(0, 1)),
          'area not recorded; record it with the block',
        ),
      ),
    ),
    cautions,
  };
}

/** Where the property has no card and one block has, that card is shown: better than an empty one. */
function onlyCard({ stand: { emergency } }: Folded): string | undefined {
  const [only, ...others] = emergency.blocks.keys();
  return emergency.card === undefined && others.length === 0 ? only : undefined;
}

function nameOf({ stand }: Folded, block: string): string {
  const found = stand.blocks.get(block);
  if (found === undefined)
    throw new RangeError(`block "${block}": no such block; give the id of a block of the stand`);
  return found.name;
}

function momentWords({ at, knownAt, head }: EmergencyCardOptions): string[] {
  return [
    ...(at === undefined ? [] : [`Shows what had happened up to ${at}, not what is so now.`]),
    ...(knownAt === undefined
      ? []
      : [`Shows what was known at ${knownAt}: the first ${head.size} entries of the log.`]),
  ];
}

function otherCards({ stand }: Folded, shown: string | undefined): string[] {
  const names = [...stand.emergency.blocks.keys()]
    .filter((id) => id !== shown)
    .map((id) => stand.blocks.get(id)?.name ?? 'an unknown block');
  if (names.length === 0) return [];
  return [`There ${names.length === 1 ? 'is another card' : 'are other cards'} for ${names.join(', ')}.`];
}

function placeFacts(context: Context, card: EmergencyCard | undefined): EmergencyCardReport['place'] {
  const { stand } = context.folded;
  const located = card?.accessPoint;
  if (located === undefined) {
    const gap = missing('not recorded; record where a vehicle can be met, with its position');
    return { decimalDegrees: gap, degreesMinutes: gap, utm: gap, datum: gap, entered: gap };
  }
  const entries = context.numbers([located.entry]);
  const where = locate(stand).resolve(located);
  const written = (write: (at: Resolved['at']) => string | undefined): Fact => {
    if (isUnresolved(where)) return missing(`cannot be told: ${where.why}`, entries);
    return recordedOr(write(where.at), entries, 'none: UTM ends here');
  };
  return {
    decimalDegrees: written(decimalDegrees),
    degreesMinutes: written(degreesMinutes),
    utm: written(utmText),
    datum: written(() => 'WGS 84'),
    entered: known(
      `${positionWords(stand, located.entered)}${accuracyWords(where, located.entered)}`,
      entries,
    ),
  };
}

/** As it was stated: between datums nothing is added, for the card gives the place in WGS 84. */
function accuracyWords(where: Resolved | Unresolved, entered: PositionEntered): string {
  if ('accuracy' in entered && entered.accuracy !== undefined) {
    const stated = metres(entered.accuracy, 'accuracy');
    if (!isUnresolved(stated)) return `, to about ${Math.ceil(stated.metres)} m`;
  }
  if (isUnresolved(where) || where.errorIsGuide === true) return ', accuracy not recorded';
  return `, to about ${Math.ceil(where.standardError)} m`;
}

function contactFact(context: Context, card: EmergencyCard | undefined): Fact {
  if (card?.contacts === undefined)
    return missing('not recorded; record whom else to call, by name and number');
  const entries = context.numbers(card.entries);
  if (card.contactsErased) return missing('erased; record the contacts that hold now', entries);
  const text = context.names.get(card.contacts);
  return text === undefined ? missing('not in this copy of the logbook', entries) : known(text, entries);
}

function callPart(context: Context, now: number): EmergencyCardReport['call'] {
  const { stand } = context.folded;
  const overdue = callOverdue(stand, now);
  const open = openCalls(stand);
  if (open.length === 0)
    return {
      state: 'none',
      facts: [missing('No call is recorded as expected; record by when somebody expects to hear from you.')],
    };
  return {
    state: overdue === undefined ? 'expected' : 'overdue',
    facts: open.map((call) => known(callWords(context, call, now), context.numbers([call.entry]))),
  };
}

function callWords(context: Context, call: ExpectedCall, now: number): string {
  const { person, due, expectedBy } = call;
  const name = context.person(person);
  const told = expectedBy === undefined || call.erased ? undefined : context.names.get(expectedBy);
  return [
    `${isOverdue(call, now) ? 'OVERDUE: a' : 'A'} call from ${name.known ? name.text : 'somebody'} is expected by ${context.time(due)}`,
    told === undefined ? undefined : `by ${told}`,
  ]
    .filter((part) => part !== undefined)
    .join(', ');
}
