/**
 * 20,000 texts that may be meant as positions, the same in every run: well-formed ones, and the same with pieces changed, left
 * out, doubled and mixed. Each is refused with what to write instead, or is a position that says the same when it is written
 * out and read again, and that is placed or answered with a reason.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readPosition } from '../../src/events/position.ts';
import type { AnchorReference, PositionEntered, Taped } from '../../src/place/index.ts';
import { isUnresolved, resolvePosition } from '../../src/place/index.ts';

const TEXTS = 20_000;
const labels = ['A', 'B', 'A12', 'North', '7', 'old post'];
const find = (noun: string, text: string) =>
  labels.includes(text)
    ? ({ ok: true, value: text } as const)
    : ({ ok: false, remedy: `no ${noun} is called "${text}"` } as const);

const number = fc.oneof(
  fc.integer({ min: -400, max: 400 }).map(String),
  fc.integer({ min: -99_999_999, max: 99_999_999 }).map((whole) => (whole / 1e5).toFixed(5)),
  fc.constantFrom(
    '0',
    '-0',
    '00',
    '90',
    '180',
    '-180.0001',
    '1e5',
    '1,5',
    '.5',
    '5.',
    'NaN',
    '９',
    '1'.repeat(40),
  ),
);
const length = fc
  .tuple(number, fc.constantFrom(' ft', ' m', 'm', "'", '', ' chains', ' kg'))
  .map(([value, unit]) => value + unit);
const azimuth = fc
  .tuple(
    number,
    fc.constantFrom(' mag', ' true', '° true', ' grid EPSG:26917', ' grid', '', ' magnetic', ' deg mag'),
  )
  .map(([value, north]) => value + north);
const anchor = fc
  .tuple(fc.constantFrom('stake', 'stem', 'Stake', 'tree'), fc.constantFrom(...labels, 'Z9'))
  .map((words) => words.join(' '));
const slope = fc.oneof(
  fc.constant(''),
  number.map((value) => `, slope ${value} %`),
  fc.constant(', slope steep'),
);
const error = fc.oneof(
  fc.constant(''),
  length.map((text) => ` +-${text}`),
  length.map((text) => ` ± ${text}`),
);
const fix = fc
  .tuple(number, number, error, fc.constantFrom('', ', fixed 09:05', ', source phone', ', fixed'))
  .map(([lat, lon, good, clause]) => `${lat}, ${lon}${good}${clause}`);
/** One that a receiver could have given. */
const sound = fc
  .tuple(fc.integer({ min: -9e6, max: 9e6 }), fc.integer({ min: -18e6, max: 18e6 }), fc.nat({ max: 30 }))
  .map(([lat, lon, good]) => `${(lat / 1e5).toFixed(5)}, ${(lon / 1e5).toFixed(5)} +-${good} m`);
const taped = fc.tuple(length, slope, anchor).map(([far, on, from]) => `${far}${on} from ${from}`);

const text = fc.oneof(
  fix,
  sound,
  fc
    .tuple(fc.constantFrom('EPSG:26917', 'EPSG:2264', 'epsg:27700', 'EPSG:1'), number, number, error)
    .map(([code, x, y, good]) => `${code} ${x}, ${y}${good}`),
  fc.tuple(azimuth, taped).map((parts) => parts.join(', ')),
  fc
    .tuple(
      fc.array(taped, { minLength: 2, maxLength: 4 }),
      fc.constantFrom('', ', left', ', right', ', both'),
    )
    .map(([parts, side]) => parts.join(', ') + side),
  fc
    .array(fc.oneof({ weight: 5, arbitrary: sound }, fix), { minLength: 1, maxLength: 4 })
    .map((fixes) => `average ${fixes.join(' | ')}`),
  fc
    .tuple(length, length, fc.constantFrom(...labels, 'South'))
    .map(([x, y, block]) => `x ${x}, y ${y} in block ${block}`),
  fc.constantFrom(
    'unknown',
    'later',
    ' Unknown ',
    '',
    'x',
    ';',
    'from stake A',
    '0,0',
    '\u0000',
    '35.7121; -81.6834',
  ),
  fc.string({ maxLength: 30 }),
);
/** A piece of it gone, doubled, or another put in. */
const spoilt = fc
  .tuple(
    text,
    fc.nat(),
    fc.nat({ max: 8 }),
    fc.constantFrom('', '', ',', ' ', '-', 'from', '°', '+-', '|', '9'),
    fc.boolean(),
  )
  .map(([whole, at, count, put, isWhole]) => {
    const start = at % (whole.length + 1);
    return isWhole ? whole : whole.slice(0, start) + put + whole.slice(start + count);
  });

describe(`${TEXTS} texts meant as positions`, () => {
  test('are refused with what to write, or say the same when written out and read again', () => {
    const seen = { refused: 0, placed: 0, unplaced: 0 };
    const hows = new Map<string, number>();
    fc.assert(
      fc.property(spoilt, fc.constantFrom('us', 'metric'), (written, units) => {
        const read = readPosition(written, units, find);
        if (!read.ok) {
          seen.refused += 1;
          expect(read.remedy.length, written).toBeGreaterThan(8);
          return;
        }
        const { value } = read;
        hows.set(value.how, (hows.get(value.how) ?? 0) + 1);
        const again = readPosition(writtenOut(value), units, find);
        expect(again, `${written} → ${writtenOut(value)}`).toEqual(read);
        expect(JSON.parse(JSON.stringify(value))).toEqual(value);
        const answer = resolvePosition(value, {
          anchor: () => ({ at: { lat: 35.7, lon: -81.7 }, standardError: 1, via: 'a stake' }),
          nameOf: () => 'stake A',
          axes: () => undefined,
          when: '2026-03-02T12:00:00Z',
        });
        if (isUnresolved(answer)) {
          seen.unplaced += 1;
          expect(answer.why, written).toMatch(/.{20}\.$/s);
        } else {
          seen.placed += 1;
          expect(Math.abs(answer.at.lat), written).toBeLessThanOrEqual(90);
          expect(Math.abs(answer.at.lon), written).toBeLessThanOrEqual(180);
          expect(answer.standardError, written).toBeGreaterThan(0);
        }
      }),
      { numRuns: TEXTS, seed: 20260302 },
    );
    // All three ends are come upon, and every form of position.
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(200);
    expect([...hows.keys()].sort()).toEqual([
      'average',
      'distances',
      'fix',
      'grid',
      'local',
      'offset',
      'unknown',
    ]);
  }, 120_000);
});

/** A position as a person would write it, from what was kept of it. */
function writtenOut(position: PositionEntered): string {
  switch (position.how) {
    case 'fix': {
      const { lat, lon, accuracy, fixedAt, source } = position;
      const clauses = [
        ...(fixedAt === undefined ? [] : [`, fixed ${fixedAt}`]),
        ...(source === undefined ? [] : [`, source ${source}`]),
      ];
      return `${lat}, ${lon}${accuracy === undefined ? '' : ` +-${accuracy.text}`}${clauses.join('')}`;
    }
    case 'grid': {
      const { crs, easting, northing, accuracy } = position;
      return `${crs} ${easting}, ${northing}${accuracy === undefined ? '' : ` +-${accuracy.text}`}`;
    }
    case 'offset':
      return `${position.azimuth.text}, ${tapedText(position)}`;
    case 'distances':
      return [...position.taped.map(tapedText), ...(position.side === undefined ? [] : [position.side])].join(
        ', ',
      );
    case 'average':
      return `average ${position.fixes.map((one) => writtenOut({ how: 'fix', ...one })).join(' | ')}`;
    case 'local':
      return `x ${position.x.text}, y ${position.y.text} in block ${position.block}`;
    case 'unknown':
      return 'unknown';
  }
}

function tapedText({ distance, slope, from }: Taped): string {
  return `${distance.text}${slope === undefined ? '' : `, slope ${slope.text}`} from ${anchorText(from)}`;
}

function anchorText(from: AnchorReference): string {
  return 'stake' in from ? `stake ${from.stake}` : `stem ${from.stem}`;
}
