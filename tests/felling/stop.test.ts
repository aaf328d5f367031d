// When a stop card is due.
import { describe, expect, test } from 'vitest';
import type { Event, JsonObject } from '../../src/events/index.ts';
import { farOffDegrees, stopReasons } from '../../src/felling/index.ts';
import { fold } from '../../src/stand/index.ts';
import { pen, uuid } from '../stand/entries.ts';

const stem = uuid(0x51_0001);
const stake = uuid(0x52_0001);
const when = '2026-03-02T10:00:00-05:00';
const azimuth = (value: number, reference: 'mag' | 'true') => ({
  text: `${value} ${reference}`,
  value: String(value),
  reference,
});
const inches = (value: string) => ({ text: `${value} in`, value, unit: 'in' });
const standOf = (...bodies: [Parameters<ReturnType<typeof pen>>[0], JsonObject][]) => {
  const write = pen();
  return fold(bodies.map(([type, body]) => write(type, body))).stand;
};
const felled = (body: JsonObject) =>
  ({ type: 'stem-felled', body: { stem, came: 'down', ...body } }) as unknown as Event;
const looked = (body: JsonObject) =>
  ({ type: 'decay-measured', body: { stem, ...body } }) as unknown as Event;
const reasons = (before: ReturnType<typeof standOf>, event: Event) => stopReasons(before, event, when);

test('a stem that hangs, and a hazard noted as one', () => {
  expect(reasons(standOf(), felled({ came: 'hung-up' }))).toEqual(['hung-up']);
  const hazard = {
    type: 'hazard-noted',
    body: { hazard: uuid(9), what: 'hung-up-stem' },
  } as unknown as Event;
  expect(reasons(standOf(), hazard)).toEqual(['hung-up']);
  expect(reasons(standOf(), felled({}))).toEqual([]);
});

describe('a lay off the aim', () => {
  const off = (aimed: number, lay: number) =>
    reasons(standOf(), felled({ aimed: azimuth(aimed, 'mag'), lay: azimuth(lay, 'mag') }));

  // 60 ft × sin 10° = 10.42 ft (trigonometry): the top lands more than ten feet to the side.
  test('counts from ten degrees, either way and across north', () => {
    expect(60 * Math.sin((farOffDegrees * Math.PI) / 180)).toBeCloseTo(10.42, 2);
    expect(off(40, 49)).toEqual([]);
    expect(off(40, 50)).toEqual(['lay-far-off']);
    expect(off(40, 30)).toEqual(['lay-far-off']);
    expect(off(355, 4)).toEqual([]);
    expect(off(355, 6)).toEqual(['lay-far-off']);
    expect(off(0, 360)).toEqual([]);
    expect(off(90, 270)).toEqual(['lay-far-off']);
  });

  test('a lay that nobody measured is no measurement', () => {
    expect(reasons(standOf(), felled({ aimed: azimuth(40, 'mag') }))).toEqual([]);
  });

  // NOAA's calculator gives about 8° west for western North Carolina in 2026; the logbook's own value is used here.
  test('read from different norths they are compared from true north, where a place is known', () => {
    const event = felled({ aimed: azimuth(48, 'mag'), lay: azimuth(48, 'true') });
    expect(reasons(standOf(), event)).toEqual([]);
    const before = standOf(
      [
        'logbook-opened',
        {
          name: 'x',
          zone: 'America/New_York',
          units: 'us',
          crs: 'EPSG:2264',
          declination: { text: '-12 deg', value: '-12', unit: 'deg' },
        },
      ],
      ['stake-set', { stake, label: 'A', position: { how: 'fix', lat: '35.7', lon: '-81.7' } }],
    );
    expect(reasons(before, event)).toEqual(['lay-far-off']);
  });
});

describe('rot at the stump', () => {
  const marked = (decaySigns: string[]) => standOf(['stem-marked', { stem, mark: 'cut', decaySigns }]);

  test('is worse than noted where no sign of it was noted', () => {
    expect(reasons(standOf(['stem-marked', { stem, mark: 'cut' }]), looked({ found: 'rot' }))).toEqual([
      'more-rot',
    ]);
    expect(reasons(marked(['conks']), looked({ found: 'rot' }))).toEqual([]);
    expect(reasons(marked([]), looked({ found: 'none' }))).toEqual([]);
    expect(reasons(marked([]), looked({ found: 'stain' }))).toEqual([]);
  });

  test('a hollow is worse than conks, and expected where a cavity or a hollow sound was noted', () => {
    expect(reasons(marked(['conks']), looked({ found: 'hollow' }))).toEqual(['more-rot']);
    expect(reasons(marked(['hollow-sound']), looked({ found: 'hollow' }))).toEqual([]);
  });

  test('a second look is held against the first', () => {
    const before = standOf(
      ['stem-marked', { stem, mark: 'cut', decaySigns: ['conks'] }],
      ['decay-measured', { stem, found: 'rot', diameter: inches('4') }],
    );
    expect(reasons(before, looked({ found: 'rot', diameter: inches('4') }))).toEqual([]);
    const wider = { text: '12 cm', value: '12', unit: 'cm' };
    expect(reasons(before, looked({ found: 'rot', diameter: wider }))).toEqual(['more-rot']);
    expect(reasons(before, looked({ found: 'hollow' }))).toEqual(['more-rot']);
  });
});
