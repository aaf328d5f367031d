/**
 * What a stake that was surveyed again, or a declination put right, moves: a shift of so many metres moves all that hangs on it
 * by as many; a turn by d degrees moves what lies r metres away by the chord 2 r sin(d/2) (plane geometry).
 */
import { describe, expect, test } from 'vitest';
import type { EventType, JsonObject } from '../../src/events/index.ts';
import { destination, isUnresolved } from '../../src/place/index.ts';
import { readFigures } from '../../src/record/figures/index.ts';
import { sheetOf } from '../../src/reports/sheets/index.ts';
import { fold, type LogEntry, locate, movedFigures, startFolding } from '../../src/stand/index.ts';
import { pen, uuid } from './entries.ts';

const stake = uuid(0xa1);
const [onStake, onStem, alone] = [uuid(0x51), uuid(0x52), uuid(0x53)];
const start = { lon: -81.6834, lat: 35.7121 };
const fixAt = ({ lat, lon }: typeof start) => ({ how: 'fix', lat: lat.toFixed(9), lon: lon.toFixed(9) });
const metres = (value: string) => ({ text: `${value} m`, value, unit: 'm' });
const degrees = (value: string) => ({ text: `${value} deg`, value, unit: 'deg' });
const offset = (from: JsonObject, azimuth: string, distance: string, reference = 'true') => ({
  how: 'offset',
  from,
  azimuth: { text: `${azimuth} ${reference}`, value: azimuth, reference },
  distance: metres(distance),
});
const opened = (more: JsonObject = {}) => ({
  name: 'Cold Spring woods',
  zone: 'America/New_York',
  units: 'metric',
  crs: 'EPSG:26917',
  ...more,
});

/** Entries with the places that the log gave them. */
function logOf(...lines: readonly (readonly [EventType, JsonObject])[]): LogEntry[] {
  const write = pen();
  return lines.map(([type, body], position) => ({ ...write(type, body), position }));
}

const marked = (stem: string, tag: string, position: JsonObject) =>
  ['stem-marked', { stem, mark: 'leave', tag, position }] as const;
const amended = (replaces: number, type: EventType, body: JsonObject) =>
  [
    'entry-amended',
    {
      replaces: uuid(replaces),
      type,
      v: 1,
      body,
      happenedAt: { at: '2026-03-02T09:00:00-05:00', precision: 'minute' },
      reason: 'surveyed again',
    },
  ] as const;

const woods = (reference = 'true') =>
  [
    ['logbook-opened', opened({ declination: degrees('-8') })],
    ['stake-set', { stake, label: 'A', position: fixAt(start) }],
    marked(onStake, 'A1', offset({ stake }, '90', '100', reference)),
    marked(onStem, 'A2', offset({ stem: onStake }, '0', '40', reference)),
    marked(alone, 'A3', fixAt(destination(start, 200, 60))),
  ] as const;

describe('a stake that was surveyed again 10 m east of where it was thought', () => {
  const again = { stake, label: 'A', position: fixAt(destination(start, 90, 10)) };
  const after = fold(logOf(...woods(), amended(2, 'stake-set', again)));
  const { rows } = movedFigures(after, 5);

  test('moves itself and what hangs on it by 10 m east, and nothing else', () => {
    expect(rows.map(({ label }) => label).sort()).toEqual(['A1', 'A2', 'stake A']);
    for (const row of rows) {
      expect(row.metres).toBeCloseTo(10, 3);
      expect(row.azimuthTrue).toBeCloseTo(90, 2);
    }
  });

  test('is told apart from what was measured from it', () => {
    expect(Object.fromEntries(rows.map(({ label, because }) => [label, because]))).toEqual({
      'stake A': 'entered anew',
      A1: 'what it was measured from moved',
      A2: 'what it was measured from moved',
    });
    expect(rows.every(({ restsOn }) => restsOn.length > 0)).toBe(true);
  });

  test('is printed in the units that were asked for, and asked for with a size that the log had', () => {
    const asked = readFigures('moved', after, { sinceSize: '5', units: 'metric' }, '2026-03-03T00:00:00Z');
    if (!asked.ok) throw new Error(asked.remedy);
    const { title, tables } = sheetOf(asked.value);
    expect(title).toBe('What moved since the log held 5 entries');
    expect(tables[0]?.rows.map(([label, far, towards]) => `${label} ${far} ${towards}`).sort()).toEqual([
      'A1 10.00 90',
      'A2 10.00 90',
      'stake A 10.00 90',
    ]);
    for (const sinceSize of ['7', '-1', 'five', ''])
      expect(readFigures('moved', after, { sinceSize }, '2026-03-03T00:00:00Z')).toMatchObject({
        ok: false,
        field: 'sinceSize',
        value: sinceSize,
      });
  });

  test('and struck moves everything to where nobody knows', () => {
    const strike = ['entry-struck', { strikes: uuid(2), reason: 'no such stake' }] as const;
    const gone = movedFigures(fold(logOf(...woods(), strike)), 5);
    expect(Object.fromEntries(gone.rows.map(({ label, metres: far }) => [label, far]))).toEqual({
      A1: null,
      A2: null,
    });
    for (const { why } of gone.rows) expect(why).toMatch(/^now: /);
  });
});

test('a declination put right by 2° moves a stem 100 m away by 3.490 m, and a chain by all of its turning', () => {
  const right = amended(1, 'logbook-opened', opened({ declination: degrees('-6') }));
  const { rows } = movedFigures(fold(logOf(...woods('mag'), right)), 5);
  const chord = (far: number) => 2 * far * Math.sin(Math.PI / 180);
  const far = Object.fromEntries(rows.map(({ label, metres: away }) => [label, away]));
  expect(Object.keys(far).sort()).toEqual(['A1', 'A2']);
  expect(far.A1).toBeCloseTo(chord(100), 2);
  expect(chord(100)).toBeCloseTo(3.49, 2);
  // The chain of 100 m and 40 m at right angles turns as one piece round the stake.
  expect(far.A2).toBeCloseTo(chord(Math.hypot(100, 40)), 2);
  // From 90 - 8 = 82° to 84° true the stem goes at right angles to 83°.
  expect(rows.find(({ label }) => label === 'A1')?.azimuthTrue).toBeCloseTo(173, 1);
  for (const { because } of rows.filter(({ label }) => label === 'A1'))
    expect(because).toBe('declination, axes or working CRS changed');
});

test("the logbook's own errors of compass and tape go into what is measured with them", () => {
  const errorWith = (more: JsonObject) => {
    const [, ...rest] = woods();
    const { stand } = fold(logOf(['logbook-opened', opened(more)], ...rest));
    const answers = [locate(stand).stake(stake), locate(stand).stem(onStake)];
    const [from, to] = answers.map((answer) => (isUnresolved(answer) ? Number.NaN : answer.standardError));
    return (to ?? Number.NaN) ** 2 - (from ?? Number.NaN) ** 2;
  };
  // At 100 m: 1° is 1.745 m across, 0.5 % is 0.5 m along; 2° and 1 % as they are without a word of the logbook.
  const [fine, coarse] = [
    errorWith({
      compassError: degrees('1'),
      tapeError: { text: '0.5 %', value: '0.5', unit: '%' },
    }),
    errorWith({}),
  ];
  expect(coarse - fine).toBeCloseTo(3.4907 ** 2 + 1 - (1.7453 ** 2 + 0.25), 2);
});

test('a fold that goes on places everything as one that begins anew, whatever changes on the way', () => {
  const lines = [
    ...woods('mag'),
    amended(2, 'stake-set', { stake, label: 'A', position: fixAt(destination(start, 10, 25)) }),
    marked(alone, 'A3', offset({ stem: onStem }, '45', '12', 'mag')),
    ['stake-set', { stake, label: 'B', position: fixAt(destination(start, 300, 7)) }] as const,
    amended(1, 'logbook-opened', opened({ declination: degrees('-6') })),
    ['tag-replaced', { stem: onStem, tag: 'A22' }] as const,
    marked(onStake, 'A1', offset({ stake }, '91', '99', 'mag')),
    marked(onStake, 'A1', offset({ stem: onStem }, '91', '99', 'mag')),
  ] as const;
  const entries = logOf(...lines);
  const folding = startFolding();
  for (const [count, entry] of entries.entries()) {
    folding.add([entry]);
    const goingOn = locate(folding.folded().stand);
    const anew = locate(fold(structuredClone(entries.slice(0, count + 1))).stand);
    for (const id of [onStake, onStem, alone]) expect(goingOn.stem(id), `${count}`).toEqual(anew.stem(id));
    expect(goingOn.stake(stake)).toEqual(anew.stake(stake));
  }
});
