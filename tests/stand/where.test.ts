// Where things are: through stakes, stems and the axes of blocks, whatever leads to what.
import { describe, expect, it, test } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import { distanceAndAzimuth, isUnresolved, type LonLat } from '../../src/place/index.ts';
import { fold, type LogEntry, locate } from '../../src/stand/index.ts';
import { pen, uuid } from './entries.ts';

const stake = uuid(0xa1);
const stem = (number: number) => uuid(0x51_0000 + number);
const block = uuid(0xb1);
const fix = { how: 'fix', lat: '35.71210', lon: '-81.68340' };
const east = { text: '90 true', value: '90', reference: 'true' };
const metres = (value: string) => ({ text: `${value} m`, value, unit: 'm' });
const offset = (from: JsonObject, value: string) => ({
  how: 'offset',
  from,
  azimuth: east,
  distance: metres(value),
});

function marked(write: ReturnType<typeof pen>, number: number, position: JsonObject): LogEntry {
  return write('stem-marked', { stem: stem(number), mark: 'cut', tag: `A${number}`, position });
}

function at(log: LogEntry[], number: number): LonLat {
  const answer = locate(fold(log).stand).stem(stem(number));
  if (isUnresolved(answer)) throw new Error(answer.why);
  return answer.at;
}

function why(log: LogEntry[], number: number): string {
  const answer = locate(fold(log).stand).stem(stem(number));
  return isUnresolved(answer) ? answer.why : '';
}

describe('a stem measured from a stake', () => {
  const write = pen();
  const set = write('stake-set', { stake, label: 'A', position: fix });
  const chain = [
    marked(write, 1, offset({ stake }, '30')),
    marked(write, 2, offset({ stem: stem(1) }, '12')),
  ];

  it('is as far from it as was taped, and one measured from that stem beyond', () => {
    const start = { lon: -81.6834, lat: 35.7121 };
    for (const [number, distance] of [
      [1, 30],
      [2, 42],
    ] as const) {
      const found = distanceAndAzimuth(start, at([set, ...chain], number));
      expect(found.metres).toBeCloseTo(distance, 3);
      expect(found.azimuthTrue).toBeCloseTo(90, 2);
    }
  });

  it('says by what way its place is known', () => {
    const answer = locate(fold([set, ...chain]).stand).stem(stem(2));
    expect(isUnresolved(answer) ? '' : answer.via).toMatch(/12 m from stem A1$/);
  });

  it('moves with the stake when that is surveyed again', () => {
    const better = { how: 'fix', lat: '35.71220', lon: '-81.68340' };
    const amended = write('entry-amended', {
      replaces: set.id,
      type: 'stake-set',
      v: 1,
      body: { stake, label: 'A', position: better },
      happenedAt: set.happenedAt,
      reason: 'surveyed again',
    });
    expect(at([set, ...chain, amended], 2).lat - at([set, ...chain], 2).lat).toBeCloseTo(0.0001, 9);
  });

  it('is nowhere while the stake is, and says so', () => {
    expect(why(chain, 2)).toBe('No position was recorded.');
    expect(why([write('stake-set', { stake, label: 'A' }), ...chain], 2)).toBe('No position was recorded.');
    expect(why([write('stake-set', { stake, label: 'A', position: { how: 'unknown' } }), ...chain], 1)).toBe(
      'No position was recorded.',
    );
  });
});

describe('offsets that lead round in a circle', () => {
  const circle = /^The offsets lead round in a circle; measure one of them from a stake\.$/;

  it('have no answer but a sentence: two stems from each other, and a third from one of them', () => {
    const write = pen();
    const log = [
      marked(write, 1, offset({ stem: stem(2) }, '5')),
      marked(write, 2, offset({ stem: stem(1) }, '5')),
      marked(write, 3, offset({ stem: stem(2) }, '5')),
    ];
    for (const number of [1, 2, 3]) expect(why(log, number)).toMatch(circle);
  });

  it('a stem from itself', () => {
    expect(why([marked(pen(), 1, offset({ stem: stem(1) }, '5'))], 1)).toMatch(circle);
  });

  it('a stem on the axes of a block that start at that stem', () => {
    const write = pen();
    const log = [
      write('block-laid-out', { block, name: 'North', axesOrigin: offset({ stem: stem(1) }, '5') }),
      marked(write, 1, { how: 'local', block, x: metres('1'), y: metres('2') }),
    ];
    expect(why(log, 1)).toMatch(/has no axes/);
  });

  it('axes that start on the axes of a block', () => {
    const write = pen();
    const log = [
      write('block-laid-out', {
        block,
        name: 'North',
        axesOrigin: { how: 'local', block, x: metres('1'), y: metres('2') },
      }),
      marked(write, 1, { how: 'local', block, x: metres('1'), y: metres('2') }),
    ];
    expect(why(log, 1)).toMatch(/has no axes/);
  });
});

test('a stake and a stem of the same id are two things', () => {
  const write = pen();
  const log = [
    write('stake-set', { stake: stem(1), label: 'A', position: fix }),
    marked(write, 1, offset({ stake: stem(1) }, '30')),
  ];
  expect(distanceAndAzimuth({ lon: -81.6834, lat: 35.7121 }, at(log, 1)).metres).toBeCloseTo(30, 3);
});

test('x and y on the axes of a block', () => {
  const write = pen();
  const log = [
    write('block-laid-out', { block, name: 'North', axesOrigin: fix, axesAzimuth: east }),
    marked(write, 1, { how: 'local', block, x: metres('30'), y: metres('40') }),
  ];
  // y points east and x to the right of it, south: 50 m away (3-4-5) at 90° + atan(30/40).
  const found = distanceAndAzimuth({ lon: -81.6834, lat: 35.7121 }, at(log, 1));
  expect(found.metres).toBeCloseTo(50, 3);
  expect(found.azimuthTrue).toBeCloseTo(90 + (Math.atan2(30, 40) * 180) / Math.PI, 2);
});

test('an edge keeps the corners that can be told, and counts the others', () => {
  const edge = [fix, offset({ stake }, '10'), { how: 'unknown' }] as never;
  const write = pen();
  const where = locate(fold([write('stake-set', { stake, label: 'A', position: fix })]).stand);
  const { ring, unresolved } = where.ring(edge, '2026-03-02T09:00:00-05:00');
  expect(ring).toHaveLength(2);
  expect(unresolved).toBe(1);
});

test("the logbook's own declination is used instead of the model", () => {
  const write = pen();
  const opened = (degrees: string) =>
    write('logbook-opened', {
      name: 'Woods',
      zone: 'America/New_York',
      units: 'us',
      crs: 'EPSG:2264',
      declination: { text: `${degrees} deg`, value: degrees, unit: 'deg' },
    });
  const from = write('stake-set', { stake, label: 'A', position: fix });
  const magnetic = { text: '98 mag', value: '98', reference: 'mag' };
  const tree = marked(write, 1, { ...offset({ stake }, '100'), azimuth: magnetic });
  const start = { lon: -81.6834, lat: 35.7121 };
  expect(distanceAndAzimuth(start, at([opened('-8'), from, tree], 1)).azimuthTrue).toBeCloseTo(90, 2);
  expect(distanceAndAzimuth(start, at([opened('2'), from, tree], 1)).azimuthTrue).toBeCloseTo(100, 2);
});

test('a chain of ten thousand stems, each measured from the one before, ends where it ends', () => {
  const write = pen();
  const log = [write('stake-set', { stake, label: 'A', position: fix })];
  const last = 10_000;
  for (let number = 1; number <= last; number += 1)
    log.push(marked(write, number, offset(number === 1 ? { stake } : { stem: stem(number - 1) }, '1')));
  expect(distanceAndAzimuth({ lon: -81.6834, lat: 35.7121 }, at(log, last)).metres).toBeCloseTo(last, -2);
});
