// The emergency card: what is recorded stands on it, what is not says what to record, and nothing on it becomes markup.
import { describe, expect, it, test } from 'vitest';
import type { EventType, JsonObject } from '../../src/events/index.ts';
import { cautions } from '../../src/felling/index.ts';
import {
  type EmergencyCardOptions,
  type EmergencyCardReport,
  emergencyCard,
  renderEmergencyCard,
} from '../../src/reports/index.ts';
import { fold } from '../../src/stand/index.ts';
import { pen, uuid } from '../stand/entries.ts';
import { asked, id, root } from './woods.ts';

const hash = { contacts: 'c'.repeat(64), by: 'd'.repeat(64) };
const due = { at: '2026-03-20T17:00:00-04:00', precision: 'minute' };
const gate = {
  how: 'fix',
  lat: '41.878928',
  lon: '-87.636415',
  accuracy: { text: '12 ft', value: '12', unit: 'ft' },
};
const whole = {
  accessPoint: gate,
  wayIn: 'gravel lane past the red barn',
  callFirst: '911',
  nearestHelp: 'hospital, 14 miles',
  signal: 'at the landing',
  contacts: hash.contacts,
};

function cardOf(
  lines: readonly (readonly [EventType, JsonObject])[],
  more: Partial<EmergencyCardOptions> = {},
): EmergencyCardReport {
  const write = pen('2026-03-20T09:00:00-04:00');
  const entries = lines.map(([type, body], index) =>
    write(type, body, { id: uuid(0x9000 + index), seq: 900 + index }),
  );
  const { folded, options } = asked({}, {}, entries);
  const names = new Map([
    ...options.names,
    [hash.contacts, 'Ruth 555-0142\nTobias 555-0117'],
    [hash.by, 'Joan 555-0164'],
  ]);
  return emergencyCard(folded, { ...options, madeAt: '2026-03-20T12:00:00-04:00', names, ...more });
}

describe('a card that was recorded', () => {
  const card = cardOf([['emergency-card-set', whole]]);

  // The notations of this place are published; see tests/reference/notation.test.ts.
  it('has the place in two notations and UTM with the datum, and how it was entered', () => {
    expect(card.place.degreesMinutes.text).toBe("41° 52.736' N, 87° 38.185' W");
    expect(card.place.decimalDegrees.text).toBe('41.87893° N, 87.63642° W');
    expect(card.place.utm.text).toMatch(/^zone 16 north, \d{6} m E, \d{7} m N$/);
    expect(card.place.datum.text).toBe('WGS 84');
    // 12 ft are 3.66 m (the international foot is 0.3048 m).
    expect(card.place.entered.text).toBe('at 41.878928, -87.636415, to about 4 m');
  });

  it('has the way in, whom to call and where a telephone works, each with its entry', () => {
    for (const [name, text] of [
      ['wayIn', whole.wayIn],
      ['callFirst', '911'],
      ['nearestHelp', whole.nearestHelp],
      ['signal', whole.signal],
      ['contacts', 'Ruth 555-0142\nTobias 555-0117'],
    ] as const)
      expect(card[name]).toEqual({ text, known: true, entries: [35] });
    expect(card.blocks).toMatchObject([{ term: 'Lower bench', fact: { text: '9.5 ac' } }]);
  });

  it('says what is dangerous now, and carries all cautions', () => {
    expect(card.dangers.map(({ text }) => text)).toEqual([
      'A3 is recorded as hung up. Keep everybody at least two tree lengths away; get trained help.',
      'Open hazard: hung-up stem at A3, in G1. Keep away until it is dealt with.',
    ]);
    const page = renderEmergencyCard(card);
    for (const { text } of cautions.points) expect(page).toContain(text);
    expect(page).toContain(cautions.lead);
    expect(page).toContain(`gapledger verify --since 35:${root}`);
    expect(page).toContain('Made 2026-03-20 12:00');
  });

  test('names and numbers that are erased, or not in this copy, are not guessed', () => {
    const erased = cardOf([
      ['emergency-card-set', whole],
      ['emergency-contacts-erased', { reason: 'asked for' }],
    ]);
    expect(erased.contacts).toMatchObject({
      known: false,
      text: 'erased; record the contacts that hold now',
    });
    const copy = cardOf([['emergency-card-set', whole]], { names: new Map() });
    expect(copy.contacts).toMatchObject({ known: false, text: 'not in this copy of the logbook' });
  });

  test('a place that hangs on nothing says why, and is not left out', () => {
    const from = { stake: uuid(0x77) };
    const lost = {
      how: 'offset',
      from,
      azimuth: { text: '10 mag', value: '10', reference: 'mag' },
      distance: gate.accuracy,
    };
    const card = cardOf([['emergency-card-set', { accessPoint: lost }]]);
    expect(card.place.decimalDegrees.text).toMatch(/^cannot be told: /);
    expect(card.place.entered.text).toContain('12 ft at 10 mag from stake');
    expect(renderEmergencyCard(card)).toContain('cannot be told: ');
  });
});

describe('a card for a block', () => {
  const own = ['emergency-card-set', { block: id.block, wayIn: 'by the ford' }] as const;

  it('says what the block says, and the rest of the property', () => {
    const card = cardOf([['emergency-card-set', whole], own], { block: id.block });
    expect([card.title, card.wayIn.text, card.callFirst.text]).toEqual([
      'Emergency card: Laurel Run woods, Lower bench',
      'by the ford',
      '911',
    ]);
    const general = cardOf([['emergency-card-set', whole], own]);
    expect(general.wayIn.text).toBe(whole.wayIn);
    expect(general.shows).toEqual(['There is another card for Lower bench.']);
  });

  it('is shown where it is the only one, rather than an empty one', () => {
    expect(cardOf([own]).title).toContain('Lower bench');
  });

  it('of a block that is not there is refused by name', () => {
    expect(() => cardOf([], { block: uuid(0x99) })).toThrow(/block ".*": no such block/);
  });
});

describe('a call', () => {
  const call = ['call-expected', { due, expectedBy: hash.by }] as const;
  const at = (madeAt: string, more: Partial<EmergencyCardOptions> = {}) =>
    cardOf([call], { madeAt, ...more });

  it('is expected until its time and overdue after, and then comes first', () => {
    expect(at('2026-03-20T17:00:00-04:00').call.state).toBe('expected');
    const overdue = at('2026-03-20T17:00:01-04:00');
    expect(overdue.call).toMatchObject({
      state: 'overdue',
      facts: [{ text: 'OVERDUE: a call from Ida Fenn is expected by 2026-03-20 17:00, by Joan 555-0164' }],
    });
    const page = renderEmergencyCard(overdue);
    expect(page.indexOf('OVERDUE')).toBeLessThan(page.indexOf('Call first'));
  });

  it('is judged at the moment that the log was folded up to', () => {
    const until = Date.parse('2026-03-20T16:00:00-04:00');
    expect(at('2026-03-25T12:00:00-04:00', { until }).call.state).toBe('expected');
  });

  it('that was made is no longer expected', () => {
    expect(cardOf([call, ['call-made', {}]], { madeAt: '2026-03-21T12:00:00-04:00' }).call.state).toBe(
      'none',
    );
  });
});

test('nothing recorded: every part says so and what to record', () => {
  const { options } = asked();
  const empty = emergencyCard(fold([]), { ...options, positions: new Map(), head: { size: 0, root } });
  for (const name of ['callFirst', 'wayIn', 'signal', 'nearestHelp', 'contacts'] as const)
    expect(empty[name]).toMatchObject({
      known: false,
      text: expect.stringMatching(/^not recorded; record /) as string,
    });
  for (const fact of Object.values(empty.place)) expect(fact.text).toMatch(/^not recorded; record /);
  const page = renderEmergencyCard(empty);
  expect(page).toContain('No hung-up stem and no open hazard is recorded. That nobody wrote one down');
  expect(page).not.toMatch(/<p[^>]*>\s*<\/p>|undefined|NaN|\[object/);
});

test('what people wrote never becomes markup, and the file asks nothing of anybody', () => {
  const hostile = '<script>alert(1)</script><img src=x>"\'&</style>';
  const card = cardOf(
    [['emergency-card-set', { wayIn: hostile, callFirst: hostile, contacts: hash.contacts }]],
    {
      names: new Map([[hash.contacts, hostile]]),
    },
  );
  const page = renderEmergencyCard(card);
  expect(page).not.toMatch(/<script|<img|<link|<iframe|@import|url\(|https?:/i);
  expect(page.match(/<\/style>/g)).toHaveLength(1);
  expect(page.match(/&lt;script&gt;/g)).toHaveLength(3);
});

test('it is plain JSON, and the same input gives the same card', () => {
  const made = () => cardOf([['emergency-card-set', whole]]);
  expect(JSON.parse(JSON.stringify(made()))).toEqual(made());
});
