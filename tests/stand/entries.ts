// Makes entries for tests of the fold: a small written-out logbook, and random ones for property tests.
import fc from 'fast-check';
import { type EventType, type JsonObject, kinds } from '../../src/events/index.ts';
import { isCorrection, type LogEntry } from '../../src/stand/index.ts';

/** A UUID whose last digits are a number, so that tests can be read; version 7 by its form. */
export function uuid(number: number): string {
  return `01970000-0000-7000-8000-${number.toString(16).padStart(12, '0')}`;
}

export const device = { a: uuid(0xa0_0001), b: uuid(0xb0_0001) };
const person = uuid(0xc0_0001);

type Written = Partial<Pick<LogEntry, 'happenedAt' | 'recordedAt' | 'device' | 'seq' | 'id'>>;

/** Writes entries one after the other, a minute apart, on one device unless told otherwise. */
export function pen(start = '2026-03-02T09:00:00-05:00', step = 60_000) {
  let number = 0;
  return (type: EventType, body: JsonObject, written: Written = {}): LogEntry => {
    number += 1;
    const time = new Date(Date.parse(start) + number * step).toISOString();
    return {
      id: uuid(number),
      type,
      v: kinds[type].v,
      happenedAt: { at: time, precision: 'instant' },
      recordedAt: written.happenedAt?.precision === 'instant' ? written.happenedAt.at : time,
      by: person,
      device: device.a,
      seq: number,
      body,
      ...written,
    };
  };
}

const stems = [0, 1, 2, 3].map((index) => uuid(0x51_0000 + index));
const saplings = [0, 1].map((index) => uuid(0x52_0000 + index));
const groups = [0, 1].map((index) => uuid(0x53_0000 + index));
const hazards = [0, 1].map((index) => uuid(0x54_0000 + index));

const stem = fc.constantFrom(...stems);
const group = fc.constantFrom(...groups);

/** Bodies of the kinds that act on each other, over a handful of things, so that they meet. */
const happening: fc.Arbitrary<{ type: EventType; body: JsonObject }> = fc.oneof(
  body('stem-marked', {
    stem,
    mark: fc.constantFrom('cut', 'leave'),
    tag: fc.constantFrom('A1', 'A2'),
    group,
  }),
  body('mark-changed', {
    stem,
    mark: fc.constantFrom('cut', 'leave'),
    reason: fc.constant('a change of mind'),
  }),
  body('stem-felled', { stem, came: fc.constantFrom('down', 'hung-up') }),
  body('hang-up-cleared', { stem }),
  body('stem-found-down', { stem }),
  body('stem-found-dead', { stem }),
  body('decay-measured', { stem, found: fc.constantFrom('none', 'rot') }),
  body('stump-audited', { stem, group }),
  body('stump-audited', { tag: fc.constantFrom('A1', 'a2', 'Z9'), group }),
  body('tag-lost', { stem }),
  body('tag-replaced', { stem, tag: fc.constantFrom('A1', 'B1') }),
  body('sapling-protected', { sapling: fc.constantFrom(...saplings), group }),
  body('sapling-checked', {
    sapling: fc.constantFrom(...saplings),
    condition: fc.constantFrom('unharmed', 'broken'),
    byStem: stem,
  }),
  body('group-laid-out', { group, label: fc.constantFrom('G1', 'G2') }),
  body('opening-closed', { group }),
  body('opening-reopened', { group, reason: fc.constant('more to do') }),
  body('hazard-noted', {
    hazard: fc.constantFrom(...hazards),
    what: fc.constant('hanging-limb'),
    stem,
    group,
  }),
  body('hazard-cleared', { hazard: fc.constantFrom(...hazards) }),
  body('damage-noted', { damage: fc.constant(uuid(0x55_0000)), to: fc.constant('leave-tree'), stem }),
  body('note-written', { text: fc.constantFrom('wind', 'rain') }),
  body('emergency-card-set', { callFirst: fc.constantFrom('911', '112') }),
  body('call-expected', {
    due: fc.constantFrom(
      { at: '2026-03-01T17:00:00-05:00', precision: 'minute' },
      { at: '2026-03-02T12:00:00-05:00', precision: 'minute' },
    ),
  }),
  body('call-made', {}),
);

function body(
  type: EventType,
  fields: Record<string, fc.Arbitrary<JsonObject[string]>>,
): fc.Arbitrary<{ type: EventType; body: JsonObject }> {
  return fc.record(fields).map((made) => ({ type, body: made }));
}

type Seed = {
  made:
    | { type: EventType; body: JsonObject }
    | { correct: 'strike' | 'amend'; back: number; onCorrection: boolean }
    | { clock: number };
  onB: boolean;
  minute: number;
  backwards: boolean;
  dayOnly: boolean;
};

const seed: fc.Arbitrary<Seed> = fc.record({
  made: fc.oneof(
    { weight: 12, arbitrary: happening },
    {
      weight: 4,
      arbitrary: fc.record({
        correct: fc.constantFrom('strike' as const, 'amend' as const),
        back: fc.integer({ min: -2, max: 6 }),
        onCorrection: fc.boolean(),
      }),
    },
    { weight: 1, arbitrary: fc.record({ clock: fc.integer({ min: -3600, max: 3600 }) }) },
  ),
  onB: fc.boolean(),
  minute: fc.integer({ min: 0, max: 12 }),
  backwards: fc.boolean(),
  dayOnly: fc.integer({ min: 0, max: 9 }).map((roll) => roll === 0),
});

/**
 * Random logs: two devices, times that coincide, clocks that run backwards, entries known to the day only,
 * corrections of corrections, and corrections of entries that nobody has.
 */
export const randomLog: fc.Arbitrary<LogEntry[]> = fc
  .array(seed, { minLength: 1, maxLength: 40, size: 'max' })
  .map((seeds) => {
    const entries: LogEntry[] = [];
    const sequence = { a: 0, b: 0 };
    for (const [index, planted] of seeds.entries()) {
      const on = planted.onB ? 'b' : 'a';
      sequence[on] += 1;
      const minute = planted.backwards ? 12 - planted.minute : planted.minute;
      const at = `2026-03-02T09:${String(minute).padStart(2, '0')}:00-05:00`;
      entries.push({
        ...content(planted.made, entries, device[on]),
        id: uuid(index + 1),
        v: 1,
        happenedAt: planted.dayOnly
          ? { at: '2026-03-02T00:00:00-05:00', precision: 'day' }
          : { at, precision: 'minute' },
        recordedAt: at,
        by: person,
        device: device[on],
        seq: sequence[on],
      });
    }
    return entries;
  });

function content(
  made: Seed['made'],
  entries: readonly LogEntry[],
  onDevice: string,
): Pick<LogEntry, 'type' | 'body'> {
  if ('clock' in made) {
    return {
      type: 'clock-offset-noted',
      body: { device: onDevice, ahead: { text: `${made.clock} s`, value: String(made.clock), unit: 's' } },
    };
  }
  if ('type' in made) return made;
  const targets = made.onCorrection ? entries.filter(({ type }) => isCorrection(type)) : entries;
  const target = made.back < 0 ? undefined : targets.at(-1 - made.back);
  if (made.correct === 'strike')
    return { type: 'entry-struck', body: { strikes: target?.id ?? uuid(0xff_0000), reason: 'a mistake' } };
  const amended =
    target?.type === 'entry-amended' ? (target.body as { type: string; body: JsonObject }) : target;
  return {
    type: 'entry-amended',
    body: {
      replaces: target?.id ?? uuid(0xff_0001),
      type: amended?.type ?? 'note-written',
      v: 1,
      body: amended?.body ?? { text: 'nothing' },
      happenedAt: { at: '2026-03-02T09:06:00-05:00', precision: 'minute' },
      reason: 'put right',
    },
  };
}
