// The emergency card adds up from several entries; a call is overdue until it was made or put off in time.
import { describe, expect, it, test } from 'vitest';
import {
  callOverdue,
  describe as describeEvent,
  emergencyCardFor,
  fold,
  openCalls,
  openFindings,
} from '../../src/stand/index.ts';
import { pen, uuid } from './entries.ts';
import { type Line, written } from './group-story.ts';

const ann = uuid(0xc0_0001);
const bo = uuid(0xc0_0002);
const block = uuid(0xd0_0001);
const hash = (letter: string) => letter.repeat(64);
const at = (time: string, precision: 'instant' | 'minute' | 'day' = 'minute') => ({
  at: `2026-03-${time}:00-05:00`,
  precision,
});
const standOf = (...lines: Line[]) => fold(written(...lines)).stand;
const now = (time: string) => Date.parse(`2026-03-${time}:00-05:00`);

describe('the card', () => {
  const fix = { how: 'fix', lat: '44.1', lon: '-71.6' };
  const first: Line = ['emergency-card-set', { accessPoint: fix, callFirst: '911', contacts: hash('a') }];

  it('is added to by later entries, which take nothing away', () => {
    const card = emergencyCardFor(standOf(first, ['emergency-card-set', { signal: 'at the gate' }]));
    expect(card).toMatchObject({ callFirst: '911', signal: 'at the gate', contacts: hash('a') });
    expect(card?.accessPoint?.entered).toEqual(fix);
    expect(card?.entries).toEqual([uuid(1), uuid(2)]);
  });

  it('of a block goes before that of the property, which fills what it leaves open', () => {
    const laid: Line = ['block-laid-out', { block, name: 'North cove' }];
    const own: Line = ['emergency-card-set', { block, wayIn: 'by the ford', callFirst: '112' }];
    const stand = standOf(laid, first, own);
    expect(emergencyCardFor(stand, block)).toMatchObject({
      wayIn: 'by the ford',
      callFirst: '112',
      contacts: hash('a'),
    });
    expect(emergencyCardFor(stand)).toMatchObject({ callFirst: '911' });
    expect(emergencyCardFor(stand)).not.toHaveProperty('wayIn');
    expect(emergencyCardFor(standOf(laid, own), block)).toMatchObject({ callFirst: '112' });
    expect(emergencyCardFor(standOf(laid))).toBeUndefined();
  });

  it('knows that its contacts were erased, until new ones are written', () => {
    const erased: Line = ['emergency-contacts-erased', { reason: 'asked for' }];
    expect(emergencyCardFor(standOf(first, erased))?.contactsErased).toBe(true);
    const again = standOf(first, erased, ['emergency-card-set', { contacts: hash('b') }]);
    expect(emergencyCardFor(again)).toMatchObject({ contacts: hash('b'), contactsErased: false });
  });
});

describe('a call that is expected', () => {
  const expected = (due: string, more: object = {}): Line => ['call-expected', { due: at(due), ...more }];
  const made = (time: string, more: object = {}): Line => [
    'call-made',
    { ...more },
    { happenedAt: at(time, 'instant') },
  ];

  it('is overdue from its time on, to the second, until it is recorded as made', () => {
    const stand = standOf(expected('02T17:00'));
    expect(callOverdue(stand, now('02T17:00'))).toBeUndefined();
    expect(callOverdue(stand, now('02T17:00') + 1000)).toMatchObject({ entry: uuid(1), person: ann });
    expect(callOverdue(standOf(expected('02T17:00'), made('02T16:40')), now('02T18:00'))).toBeUndefined();
  });

  it('known to the day only is overdue at the end of that day', () => {
    const stand = standOf(['call-expected', { due: at('02T00:00', 'day') }]);
    expect(callOverdue(stand, now('02T23:59'))).toBeUndefined();
    expect(callOverdue(stand, now('03T00:01'))).toBeDefined();
  });

  it('is not ended by the call of somebody else', () => {
    const stand = standOf(expected('02T17:00'), made('02T16:00', { person: bo }));
    expect(callOverdue(stand, now('02T18:00'))).toMatchObject({ person: ann });
    const reported = standOf(expected('02T17:00', { person: bo }), made('02T16:00', { person: bo }));
    expect(openCalls(reported)).toEqual([]);
  });

  it('of two people: the one that has been overdue longer is named', () => {
    const stand = standOf(expected('02T18:00'), expected('02T17:00', { person: bo }));
    expect(callOverdue(stand, now('02T19:00'))).toMatchObject({ person: bo });
    expect(openCalls(stand).map(({ person }) => person)).toEqual([bo, ann]);
  });

  it('is put off by a later expectation before it is due, and not once it is overdue', () => {
    const late: Line = ['call-expected', { due: at('02T19:00') }, { happenedAt: at('02T17:30', 'instant') }];
    expect(callOverdue(standOf(expected('02T17:00'), late), now('02T18:00'))).toMatchObject({
      entry: uuid(1),
    });
    const inTime: Line = [
      'call-expected',
      { due: at('02T19:00') },
      { happenedAt: at('02T16:30', 'instant') },
    ];
    expect(callOverdue(standOf(expected('02T17:00'), inTime), now('02T18:00'))).toBeUndefined();
    expect(fold(written(expected('02T17:00'), inTime, made('02T18:50'))).findings).toEqual([]);
  });

  test('that was made on its day is no finding; made the next day it is one that is settled', () => {
    const later: Line = ['note-written', { text: 'frost' }, { happenedAt: at('03T08:00', 'instant') }];
    expect(fold(written(expected('02T17:00'), made('02T21:00'), later)).findings).toEqual([]);
    const { findings } = fold(written(expected('02T17:00'), made('03T07:00'), later));
    expect(findings).toMatchObject([{ code: 'call-not-made', settled: uuid(2) }]);
    expect(openFindings(findings)).toEqual([]);
    expect(openFindings(fold(written(expected('02T17:00'), later)).findings)).toHaveLength(1);
  });
});

test('card and calls are told in words, without names and numbers of whom to call', () => {
  const write = pen();
  const { happenings, stand } = fold([
    write('emergency-card-set', {
      accessPoint: { how: 'fix', lat: '44.1', lon: '-71.6' },
      callFirst: '911',
      signal: 'at the gate',
      contacts: hash('a'),
    }),
    write('call-expected', { due: at('02T17:00'), expectedBy: hash('b') }),
    write('call-made', { note: 'back' }),
    write('emergency-contacts-erased', { reason: 'asked for' }),
  ]);
  const names = new Map([
    [hash('a'), 'Ann 555-0142'],
    [hash('b'), 'Joan 555-0117'],
  ]);
  expect(happenings.map(({ event }) => describeEvent(event, stand, names))).toEqual([
    'emergency card, help is met at 44.1, -71.6, call 911 first, telephone at the gate',
    'call expected by 2026-03-02 17:00',
    'call made, back',
    'emergency contacts erased, asked for',
  ]);
});
