// The logbook itself and the people in it.
import {
  angle,
  choice,
  crsCode,
  identity,
  label,
  length,
  percent,
  reference,
  sealed,
  text,
} from './fields.ts';
import { optional } from './form.ts';
import { defineKind } from './kind.ts';
import { isZone } from './time.ts';

const chapter = 'Logbook and people';

export const logbookOpened = defineKind({
  type: 'logbook-opened',
  chapter,
  title: 'Logbook opened',
  help: 'The first entry: which property, which time zone, which units a bare number has, which CRS to work in.',
  fields: {
    name: label('What the property is called.', 'Cold Spring woods'),
    zone: label('IANA time zone of the woods; times without an offset are read in it.', 'America/New_York'),
    units: choice(['us', 'metric'], 'Units of bare numbers: us (in, ft, ac) or metric (cm, m, ha).'),
    crs: crsCode('Working CRS: areas are computed in it and layers exported in it.', 'EPSG:2264'),
    breastHeight: optional(
      length(
        'height',
        'Height above ground at which diameters are taken; printed with every figure.',
        '4.5 ft',
      ),
    ),
    breastHeightFrom: optional(
      choice(
        ['uphill-side', 'highest-ground', 'middle-of-slope'],
        'From which ground that height is taken on a slope.',
      ),
    ),
    declination: optional(
      angle("The user's own magnetic declination (east positive), used instead of the model.", '-8.1 deg'),
    ),
    compassError: optional(angle('Standard error of one compass reading; 2 degrees if left out.', '1 deg')),
    tapeError: optional(
      percent('Standard error of a taped distance, as a share of it; 1 % if left out.', '0.5 %'),
    ),
  },
  // Every time that is typed later is read in this zone: one that does not exist must not come in.
  between: ({ zone, compassError, tapeError }) => [
    ...(isZone(zone)
      ? []
      : [
          {
            field: 'zone',
            value: zone,
            remedy: 'write an IANA time zone such as America/New_York or Europe/Stockholm',
          },
        ]),
    ...outside('compassError', compassError, 45),
    ...outside('tapeError', tapeError, 20),
  ],
  example: {
    name: 'Cold Spring woods',
    zone: 'America/New_York',
    units: 'us',
    crs: 'EPSG:2264',
    breastHeight: '4.5 ft',
  },
});

/** An error is not negative, and beyond some size no measurement at all. */
function outside(field: string, given: { text: string; value: string } | undefined, most: number) {
  if (given === undefined || (Number(given.value) >= 0 && Number(given.value) <= most)) return [];
  return [{ field, value: given.text, remedy: `write a number from 0 to ${most}` }];
}

export const personNamed = defineKind({
  type: 'person-named',
  chapter,
  title: 'Person named',
  help: 'Gives a name to somebody who marks, fells or keeps the log. The name is kept apart and can be erased.',
  fields: {
    person: identity('person'),
    name: sealed('The name as it is to stand in reports.', 'Ann Weaver'),
    part: optional(
      choice(['owner', 'forester', 'feller', 'helper', 'office', 'other'], 'What this person does here.'),
    ),
    contact: optional(sealed('Telephone or address.', '555-0142')),
  },
  example: { name: 'Ann Weaver', part: 'owner' },
});

export const personalDataErased = defineKind({
  type: 'personal-data-erased',
  chapter,
  title: 'Personal data erased',
  help: 'Removes a name, a contact or a photo for good. The entries stay; verify then says "erased", not "changed".',
  fields: {
    person: optional(reference('person', 'Whose name and contact.', 'Ann Weaver')),
    photo: optional(sealed('Which photo: the number or id of its entry, or its hash.', '')),
    reason: text('Why, and who asked.', 'asked for by the person'),
  },
  between: (body) =>
    body.person === undefined && body.photo === undefined
      ? [{ field: 'person', value: '', remedy: 'name the person, or the photo by its entry or its hash' }]
      : [],
  example: { person: 'Ann Weaver', reason: 'asked for by the person' },
});
