// What to know on the worst day: the emergency card in force, and calls that are expected or overdue.
import { instantOf, timeText } from './entry.ts';
import type { Finding } from './findings.ts';
import type { EmergencyCard, ExpectedCall, Stand } from './state.ts';

/**
 * The emergency card in force: what the card of the block says, and of the property's card whatever the block's leaves
 * open. Undefined when no card was ever set.
 * @param block id of a block; without it, or where the block has no card, that of the property
 */
export function emergencyCardFor({ emergency }: Stand, block?: string): EmergencyCard | undefined {
  const { card } = emergency;
  const own = block === undefined ? undefined : emergency.blocks.get(block);
  if (own === undefined || card === undefined) return own ?? card;
  return {
    ...card,
    ...own,
    contactsErased: own.contacts === undefined ? card.contactsErased : own.contactsErased,
    entries: [...card.entries, ...own.entries],
  };
}

/** Calls that are expected and not recorded as made, the one that is due first before all others. */
export function openCalls({ emergency }: Stand): ExpectedCall[] {
  return emergency.calls
    .filter(({ made, movedBy }) => made === undefined && movedBy === undefined)
    .sort((one, other) => instantOf(one.due) - instantOf(other.due));
}

/**
 * The call that is overdue, the one that has been so longest; undefined while none is. That none is overdue does not say
 * that anybody is well.
 * @param now milliseconds since 1970
 */
export function callOverdue(stand: Stand, now: number): ExpectedCall | undefined {
  return openCalls(stand).find((call) => isOverdue(call, now));
}

/** Whether an open call should have been made by now (milliseconds since 1970). */
export function isOverdue({ due }: ExpectedCall, now: number): boolean {
  return instantOf(due) < now;
}

/**
 * Calls that nobody recorded on the day that they were due, once the log goes on after that day.
 * @param last the instant of the last happening
 */
export function callFindings({ emergency }: Stand, last: number): Finding[] {
  return emergency.calls
    .filter(({ movedBy, made, due }) => movedBy === undefined && (made?.instant ?? last) > endOfDay(due))
    .map(({ entry, due, made }) => ({
      code: 'call-not-made',
      entries: [entry],
      about: {},
      sentence: `The call that was expected by ${timeText(due)} was not made on that day, as far as is recorded.`,
      remedy:
        'Make sure that whoever was out is well. If the call was made, record "call made" with the time of the call.',
      at: due.at,
      ...(made === undefined ? {} : { settled: made.entry }),
    }));
}

/** The end of the day of a time, by the offset that it was written in. */
function endOfDay({ at }: ExpectedCall['due']): number {
  const offset = /(?:Z|[+-]\d{2}:\d{2})$/.exec(at)?.[0] ?? 'Z';
  return instantOf({ at: `${at.slice(0, 10)}T00:00:00${offset}`, precision: 'day' });
}
