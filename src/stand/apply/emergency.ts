// The emergency card, and calls that somebody expects from whoever is out.
import { type Happening, instantOf } from '../entry.ts';
import type { EmergencyCard, ExpectedCall, Stand } from '../state.ts';
import { blockOf } from './frame.ts';
import { type Apply, located, take } from './scene.ts';

export const emergencyCardSet: Apply<'emergency-card-set'> = (stand, body, happening) => {
  const card = cardFor(stand, body.block, happening);
  card.entries.push(happening.entry.id);
  const { wayIn, callFirst, nearestHelp, signal, contacts } = body;
  const accessPoint = located(body.accessPoint, happening);
  take<Partial<EmergencyCard>>(card, { accessPoint, wayIn, callFirst, nearestHelp, signal, contacts });
  if (contacts !== undefined) card.contactsErased = false;
};

function cardFor(stand: Stand, block: string | undefined, happening: Happening): EmergencyCard {
  if (block === undefined) {
    stand.emergency.card ??= emptyCard();
    return stand.emergency.card;
  }
  blockOf(stand.blocks, block, happening);
  const { blocks } = stand.emergency;
  const card = blocks.get(block) ?? emptyCard();
  blocks.set(block, card);
  return card;
}

function emptyCard(): EmergencyCard {
  return { entries: [], contactsErased: false };
}

/** An expectation that was put off before it was due is no call that was missed. */
export const callExpected: Apply<'call-expected'> = (stand, body, happening) => {
  const person = body.person ?? happening.entry.by;
  const { calls } = stand.emergency;
  for (const call of openOf(calls, person))
    if (happening.instant <= instantOf(call.due)) call.movedBy = happening.entry.id;
  const call: ExpectedCall = { entry: happening.entry.id, person, due: body.due, erased: false };
  take<Partial<ExpectedCall>>(call, { expectedBy: body.expectedBy });
  calls.push(call);
};

export const callMade: Apply<'call-made'> = (stand, body, happening) => {
  const person = body.person ?? happening.entry.by;
  for (const call of openOf(stand.emergency.calls, person))
    call.made = { entry: happening.entry.id, at: happening.happenedAt, instant: happening.instant };
};

function openOf(calls: readonly ExpectedCall[], person: string): ExpectedCall[] {
  return calls.filter(
    (call) => call.person === person && call.made === undefined && call.movedBy === undefined,
  );
}

export const emergencyContactsErased: Apply<'emergency-contacts-erased'> = (stand) => {
  const { card, blocks, calls } = stand.emergency;
  for (const one of [card, ...blocks.values()]) if (one?.contacts !== undefined) one.contactsErased = true;
  for (const call of calls) if (call.expectedBy !== undefined) call.erased = true;
};
