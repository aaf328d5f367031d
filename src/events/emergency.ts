// For the worst day: where help is to come and whom to call, and by when somebody expects to hear from whoever is out.
import { happened, label, position, reference, sealed, text } from './fields.ts';
import { optional } from './form.ts';
import { defineKind } from './kind.ts';

const chapter = 'Emergencies and calls';

export const emergencyCardSet = defineKind({
  type: 'emergency-card-set',
  chapter,
  title: 'Emergency card set',
  help: 'Where help is to come, how it gets in and whom to call first. A later card adds to the earlier one and replaces what it says anew; a card of one block goes before that of the whole property.',
  fields: {
    block: optional(
      reference('block', 'Only for this block; for the whole property if left out.', 'North cove'),
    ),
    accessPoint: optional(position('Where help is to be met: a gate or a landing that a vehicle reaches.')),
    wayIn: optional(
      text('The way in for somebody who was never here.', 'Laurel Run Road, second gate on the left'),
    ),
    callFirst: optional(label('The number to call first.', '911')),
    nearestHelp: optional(text('Nearest hospital, and how far.', 'county hospital, 22 miles by road')),
    signal: optional(text('Where a telephone works.', 'at the gate; none in the cove')),
    contacts: optional(
      sealed('Whom else to call, by name and number. Kept apart, and can be erased.', 'Ann Weaver 555-0142'),
    ),
  },
  between: ({ block: _block, ...said }) =>
    Object.values(said).some((value) => value !== undefined)
      ? []
      : [
          {
            field: 'accessPoint',
            value: '',
            remedy: 'a card says at least one thing: where help is met, the way in, or whom to call',
          },
        ],
  example: {
    accessPoint: '44.123456, -71.654321',
    wayIn: 'Laurel Run Road, second gate on the left',
    callFirst: '911',
    nearestHelp: 'county hospital, 22 miles by road',
    signal: 'at the gate; none in the cove',
    contacts: 'Ann Weaver 555-0142',
  },
});

export const callExpected = defineKind({
  type: 'call-expected',
  chapter,
  title: 'Call expected',
  help: 'Somebody expects to hear from whoever is out, at the latest by a time. It is overdue until "call made" is recorded.',
  fields: {
    due: happened('By when the call is expected at the latest.'),
    expectedBy: optional(
      sealed('Who expects the call, by name and number. Kept apart, and can be erased.', 'Joan 555-0117'),
    ),
    person: optional(
      reference('person', 'Whose call is expected; whoever records it if left out.', 'Ann Weaver'),
    ),
  },
  example: { due: '2026-03-14 17:00', expectedBy: 'Joan 555-0117' },
});

export const callMade = defineKind({
  type: 'call-made',
  chapter,
  title: 'Call made',
  help: 'Whoever was out was heard from. Ends all calls that were expected of that person.',
  fields: {
    person: optional(
      reference('person', 'Who was heard from; whoever records it if left out.', 'Ann Weaver'),
    ),
    note: optional(text('What was said.', 'out of the woods, back on Thursday')),
  },
  example: { note: 'out of the woods, back on Thursday' },
});

export const emergencyContactsErased = defineKind({
  type: 'emergency-contacts-erased',
  chapter,
  title: 'Emergency contacts erased',
  help: 'Removes for good every name and number that was ever written on an emergency card or as expecting a call. The entries stay; write the contacts that still hold on a new card.',
  fields: { reason: text('Why, and who asked.', 'asked for by the person') },
  example: { reason: 'asked for by the person' },
});
