// When things happened: order, moments to look at, days, clocks that were wrong.
import { describe, expect, it, test } from 'vitest';
import { fold, instantOf, isLate, type LogEntry } from '../../src/stand/index.ts';
import { device, pen, uuid } from './entries.ts';

const stem = uuid(0x51_0001);
const on = (at: string, precision: 'instant' | 'minute' | 'day' = 'minute') => ({
  happenedAt: { at, precision },
});

function order(log: LogEntry[], until?: string): unknown[] {
  const folded = fold(log, until === undefined ? {} : { until: Date.parse(until) });
  return folded.happenings.map(({ entry }) => entry.body.text);
}

describe('the stand at a moment', () => {
  const write = pen();
  const log = [
    write('stem-marked', { stem, mark: 'cut' }, on('2026-03-02T09:00:00-05:00')),
    write('stem-felled', { stem, came: 'hung-up' }, on('2026-03-02T10:00:00-05:00')),
    write('hang-up-cleared', { stem }, on('2026-03-02T11:00:00-05:00')),
  ];

  it.each([
    ['2026-03-02T08:59:59-05:00', undefined],
    ['2026-03-02T09:00:00-05:00', 'standing'],
    ['2026-03-02T10:59:59-05:00', 'hung-up'],
    ['2026-03-02T16:00:00Z', 'felled'],
  ])('at %s the stem is %s', (until, status) => {
    expect(fold(log, { until: Date.parse(until) }).stand.stems.get(stem)?.status).toBe(status);
  });

  it('is the one that we know now: a correction made later applies', () => {
    const amended = write('entry-amended', {
      replaces: log[1]?.id ?? '',
      type: 'stem-felled',
      v: 1,
      body: { stem, came: 'down' },
      happenedAt: { at: '2026-03-02T09:30:00-05:00', precision: 'minute' },
      reason: 'it came down by itself',
    });
    const until = Date.parse('2026-03-02T09:45:00-05:00');
    expect(fold([...log, amended], { until }).stand.stems.get(stem)?.status).toBe('felled');
  });

  it('is the same when entries are taken in one by one', () => {
    const until = Date.parse('2026-03-02T10:30:00-05:00');
    expect(fold([...log].reverse(), { until }).stand).toEqual(fold(log, { until }).stand);
  });
});

describe('an entry known to the day only', () => {
  const write = pen();
  const day = write('note-written', { text: 'some time that day' }, on('2026-03-02T00:00:00-05:00', 'day'));
  const evening = write('note-written', { text: 'evening' }, on('2026-03-02T23:59:00-05:00'));
  const midnight = write('note-written', { text: 'next day' }, on('2026-03-03T00:00:00-05:00', 'instant'));

  it('comes at the end of its day, after what is known better and before the next day', () => {
    expect(order([midnight, day, evening])).toEqual(['evening', 'some time that day', 'next day']);
  });

  it('has not happened yet in the evening, for all we know', () => {
    expect(order([day, evening], '2026-03-02T23:59:30-05:00')).toEqual(['evening']);
    expect(order([day, evening], '2026-03-03T00:00:00-05:00')).toEqual(['evening', 'some time that day']);
  });

  it('ends 24 hours after its start, to the millisecond', () => {
    expect(instantOf({ at: '2026-03-02T00:00:00-05:00', precision: 'day' })).toBe(
      Date.parse('2026-03-03T00:00:00-05:00') - 1,
    );
  });
});

test('at one instant the device decides, then its sequence number, then the id', () => {
  const write = pen();
  const noon = on('2026-03-02T12:00:00-05:00');
  const log = [
    write('note-written', { text: 'b1' }, { ...noon, device: device.b, seq: 1 }),
    write('note-written', { text: 'a2, later id' }, { ...noon, device: device.a, seq: 2, id: uuid(90) }),
    write('note-written', { text: 'a3' }, { ...noon, device: device.a, seq: 3, id: uuid(70) }),
    write('note-written', { text: 'a2' }, { ...noon, device: device.a, seq: 2, id: uuid(80) }),
    write('note-written', { text: 'a1' }, { ...noon, device: device.a, seq: 1 }),
  ];
  expect(order(log)).toEqual(['a1', 'a2', 'a2, later id', 'a3', 'b1']);
});

test('the same instant written with two offsets is the same instant', () => {
  const write = pen();
  const log = [
    write('note-written', { text: 'second' }, on('2026-03-02T12:00:01-05:00', 'instant')),
    write('note-written', { text: 'first' }, on('2026-03-02T18:00:00+01:00', 'instant')),
  ];
  expect(order(log)).toEqual(['first', 'second']);
});

describe('a clock that was wrong', () => {
  const write = pen();
  const onA = write('note-written', { text: 'A' }, on('2026-03-02T10:00:00-05:00'));
  const onB = write(
    'note-written',
    { text: 'B' },
    {
      ...on('2026-03-02T10:20:00-05:00'),
      device: device.b,
      seq: 1,
    },
  );
  const offset = (value: string, unit: string, since?: string): LogEntry =>
    write(
      'clock-offset-noted',
      {
        device: device.b,
        ahead: { text: `${value} ${unit}`, value, unit },
        ...(since === undefined ? {} : { since: { at: since, precision: 'minute' } }),
      },
      on('2026-03-02T12:00:00-05:00'),
    );
  const notes = (log: LogEntry[]) => order(log).filter((text) => text !== undefined);

  it('is allowed for in the order; the time stays as it was written', () => {
    expect(notes([onA, onB])).toEqual(['A', 'B']);
    const corrected = [onA, onB, offset('30', 'min')];
    expect(notes(corrected)).toEqual(['B', 'A']);
    expect(fold(corrected).stand.notes.map(({ at }) => at.at)).toEqual([
      '2026-03-02T10:20:00-05:00',
      '2026-03-02T10:00:00-05:00',
    ]);
  });

  it.each([
    ['1199', 's', ['A', 'B']],
    ['1201', 's', ['B', 'A']],
    ['0.34', 'h', ['B', 'A']],
    ['-30', 'min', ['A', 'B']],
  ])('ahead by %s %s', (value, unit, expected) => {
    expect(notes([onA, onB, offset(value, unit)])).toEqual(expected);
  });

  it('counts from when it was wrong, by that clock', () => {
    expect(notes([onA, onB, offset('30', 'min', '2026-03-02T10:15:00-05:00')])).toEqual(['B', 'A']);
    expect(notes([onA, onB, offset('30', 'min', '2026-03-02T10:25:00-05:00')])).toEqual(['A', 'B']);
  });

  it('was right again from the last note on', () => {
    const right = offset('0', 's', '2026-03-02T10:20:00-05:00');
    const wrong = offset('30', 'min');
    expect(right.id < wrong.id).toBe(true);
    expect(notes([onA, onB, right, wrong])).toEqual(['A', 'B']);
  });

  it('of two notes from the same time on, the later id holds', () => {
    expect(notes([onA, onB, offset('30', 'min'), offset('0', 's')])).toEqual(['A', 'B']);
    expect(notes([onA, onB, offset('0', 's'), offset('30', 'min')])).toEqual(['B', 'A']);
  });

  it('noted by the device itself, holds for what it recorded since the note before: its counter tells, not its clock', () => {
    type Pen = Parameters<typeof write>;
    const by = (seq: number, type: Pen[0], body: Pen[1], at: string): LogEntry =>
      write(type, body, { ...on(at), device: device.b, seq });
    const ahead = (value: string) => ({ device: device.b, ahead: { text: `${value} h`, value, unit: 'h' } });
    const log = [
      by(1, 'note-written', { text: 'at nine, five hours ahead' }, '2026-03-02T14:00:00-05:00'),
      by(2, 'clock-offset-noted', ahead('5'), '2026-03-02T15:00:00-05:00'),
      by(3, 'note-written', { text: 'at half past ten, put right' }, '2026-03-02T10:30:00-05:00'),
      by(4, 'clock-offset-noted', ahead('0'), '2026-03-02T10:40:00-05:00'),
      by(5, 'note-written', { text: 'at eleven' }, '2026-03-02T11:00:00-05:00'),
      write('note-written', { text: 'at ten, another phone' }, on('2026-03-02T10:00:00-05:00')),
    ];
    const expected = [
      'at nine, five hours ahead',
      'at ten, another phone',
      'at half past ten, put right',
      'at eleven',
    ];
    expect(notes(log)).toEqual(expected);
    expect(notes(log.toReversed())).toEqual(expected);
  });

  it('is not allowed for when the note is struck', () => {
    const wrong = offset('30', 'min');
    const struck = write('entry-struck', { strikes: wrong.id, reason: 'the other phone' });
    expect(notes([onA, onB, wrong, struck])).toEqual(['A', 'B']);
  });

  it('moves the moment at which the stand is looked at too', () => {
    const until = '2026-03-02T09:55:00-05:00';
    expect(order([onA, onB], until)).toEqual([]);
    expect(order([onA, onB, offset('30', 'min')], until)).toEqual(['B']);
  });
});

test('late means recorded on a later day, by the offset that the time was written in', () => {
  const minute = (at: string) => ({ at, precision: 'minute' as const });
  expect(isLate(minute('2026-03-02T23:50:00-05:00'), '2026-03-02T23:59:00-05:00')).toBe(false);
  expect(isLate(minute('2026-03-02T23:50:00-05:00'), '2026-03-03T00:05:00-05:00')).toBe(true);
  expect(isLate(minute('2026-03-02T23:50:00-05:00'), '2026-03-03T04:55:00Z')).toBe(false);
  expect(isLate(minute('2026-03-02T08:00:00+09:30'), '2026-03-01T22:40:00Z')).toBe(false);
  expect(isLate(minute('2026-03-02T08:00:00Z'), '2026-03-03T00:00:00Z')).toBe(true);
  expect(isLate(minute('2026-03-02T08:00:00-05:00'), '2026-03-01T08:00:00-05:00')).toBe(false);
});
