// A place from distances to known points, and from an average of fixes.
import { describe, expect, test } from 'vitest';
import type { LonLat, PositionContext, PositionEntered, Resolved } from '../../src/place/index.ts';
import {
  AVERAGE_FLOOR,
  destination,
  distanceAndAzimuth,
  isUnresolved,
  resolvePosition,
} from '../../src/place/index.ts';

const STAKE: LonLat = { lat: 35.75, lon: -81.5 };

const context: PositionContext = {
  anchor: () => ({ why: 'nowhere' }),
  nameOf: (reference) => ('stake' in reference ? `stake ${reference.stake}` : `stem ${reference.stem}`),
  axes: () => undefined,
  when: '2026-03-04T15:00:00Z',
};

function place(entered: PositionEntered, given: PositionContext = context): Resolved {
  const answer = resolvePosition(entered, given);
  if (isUnresolved(answer)) throw new Error(answer.why);
  return answer;
}

describe('an average of fixes', () => {
  const fixes = (count: number, metres: string): PositionEntered => ({
    how: 'average',
    fixes: Array.from({ length: count }, (_, index) => ({
      lat: `35.7${index % 2 === 0 ? '4999' : '5001'}`,
      lon: '-81.5',
      accuracy: { text: `${metres} m`, value: metres, unit: 'm' },
    })),
  });

  test('lies in their middle', () => {
    const answer = place(fixes(60, '7.3'));
    expect(distanceAndAzimuth(answer.at, STAKE).metres).toBeLessThan(0.001);
  });

  test('of sixty is no better than sixty were found to be: 4.4 m from 7.3 m, to 0.1 m', () => {
    // "Balancing horizontal accuracy and data collection efficiency", abstract: the source of the share.
    expect(Math.abs(place(fixes(60, '7.3')).standardError - 4.4)).toBeLessThan(0.1);
  });

  test('of two is as good as chance makes it: 5 m from 7.07 m', () => {
    expect(place(fixes(2, '7.0711')).standardError).toBeCloseTo(5, 3);
  });

  test('is not believed to be better than a metre, unless one fix was', () => {
    expect(place(fixes(60, '1.2')).standardError).toBe(AVERAGE_FLOOR.metres);
    expect(place(fixes(60, '0.02')).standardError).toBe(0.02);
  });

  test('is the better fix where one is much better', () => {
    const accuracy = (value: string) => ({ text: `${value} m`, value, unit: 'm' });
    const answer = place({
      how: 'average',
      fixes: [
        { lat: '35.75', lon: '-81.5', accuracy: accuracy('1') },
        { lat: '35.751', lon: '-81.5', accuracy: accuracy('100') },
      ],
    });
    expect(distanceAndAzimuth(answer.at, STAKE).metres).toBeLessThan(0.02);
  });

  test('across the antimeridian stays there', () => {
    const answer = place({
      how: 'average',
      fixes: [
        { lat: '-17', lon: '179.9999' },
        { lat: '-17', lon: '-179.9999' },
      ],
    });
    expect(Math.abs(answer.at.lon)).toBeCloseTo(180, 6);
  });
});

describe('distances from known points', () => {
  // Three stakes: A, B 50 m east of it, C 40 m north of it. Plane geometry; 30-40-50 is a right triangle.
  const places: Readonly<Record<string, LonLat>> = {
    A: STAKE,
    B: destination(STAKE, 90, 50),
    C: destination(STAKE, 0, 40),
    D: destination(STAKE, 90, 100),
  };
  const known: PositionContext = {
    ...context,
    anchor: (reference) => {
      const at = places['stake' in reference ? reference.stake : ''];
      return at === undefined ? { why: 'nowhere' } : { at, standardError: 0, via: 'survey' };
    },
  };
  type Way = readonly [stake: string, metres: number];
  const taped = (ways: readonly Way[], side?: 'left' | 'right'): PositionEntered => ({
    how: 'distances',
    taped: ways.map(([stake, metres]) => ({
      from: { stake },
      distance: { text: `${metres} m`, value: String(metres), unit: 'm' },
    })),
    ...(side === undefined ? {} : { side }),
  });
  /** 18 m east and 24 m north of A: 30 m from A and 40 m from B. */
  const left = destination(STAKE, (Math.atan2(18, 24) * 180) / Math.PI, 30);
  const right = destination(STAKE, 180 - (Math.atan2(18, 24) * 180) / Math.PI, 30);

  test('two leave two places, to the left and to the right of the line, and both are given', () => {
    const answer = resolvePosition(
      taped([
        ['A', 30],
        ['B', 40],
      ]),
      known,
    );
    if (!isUnresolved(answer) || answer.either === undefined) throw new Error('both places are wanted');
    expect(answer.why).toMatch(/^Two places fit.*from stake A to stake B; add ", left" or ", right"/);
    for (const { side, at } of answer.either)
      expect(distanceAndAzimuth(at, side === 'left' ? left : right).metres).toBeLessThan(0.001);
  });

  test.each([
    ['left', left],
    ['right', right],
  ] as const)('two and "%s" are one place', (side, expected) => {
    const answer = place(
      taped(
        [
          ['A', 30],
          ['B', 40],
        ],
        side,
      ),
      known,
    );
    expect(distanceAndAzimuth(answer.at, expected).metres).toBeLessThan(0.001);
    expect(answer.via).toBe('30 m from stake A, 40 m from stake B: where both distances meet');
  });

  test('where the tapes cross at a right angle the error is that of both together', () => {
    // 1 % of 30 and 40 m with 0.15 m each for the point: √(0.3² + 0.15² + 0.4² + 0.15²).
    expect(
      place(
        taped(
          [
            ['A', 30],
            ['B', 40],
          ],
          'left',
        ),
        known,
      ).standardError,
    ).toBeCloseTo(0.5431, 3);
  });

  test('a third one from off the line settles which it is', () => {
    // From C, 40 m north of A: 18 m east and 16 m south, √(18² + 16²) = 24.083 m.
    const answer = place(
      taped([
        ['A', 30],
        ['B', 40],
        ['C', 24.083],
      ]),
      known,
    );
    expect(distanceAndAzimuth(answer.at, left).metres).toBeLessThan(0.002);
    expect(answer.via).toMatch(/least squares, left over -?0\.00, -?0\.00, -?0\.00 m$/);
  });

  test('a third one on the same line does not, and both are given again', () => {
    // D lies 100 m east of A: √(82² + 24²) = 85.440 m.
    expect(
      resolvePosition(
        taped([
          ['A', 30],
          ['B', 40],
          ['D', 85.44],
        ]),
        known,
      ),
    ).toHaveProperty('either');
    expect(
      place(
        taped(
          [
            ['A', 30],
            ['B', 40],
            ['D', 85.44],
          ],
          'right',
        ),
        known,
      ).at.lat,
    ).toBeCloseTo(right.lat, 7);
  });

  test('a side that the third distance speaks against is questioned', () => {
    expect(
      resolvePosition(
        taped(
          [
            ['A', 30],
            ['B', 40],
            ['C', 24.083],
          ],
          'right',
        ),
        known,
      ),
    ).toEqual({
      why: expect.stringContaining('put it to the left') as unknown,
    });
  });

  test('three that contradict each other are fitted, and what is left over is printed and makes the error larger', () => {
    const good = place(
      taped([
        ['A', 30],
        ['B', 40],
        ['C', 24.083],
      ]),
      known,
    );
    const bad = place(
      taped([
        ['A', 30],
        ['B', 40],
        ['C', 27],
      ]),
      known,
    );
    expect(bad.standardError).toBeGreaterThan(3 * good.standardError);
    expect(bad.via).toMatch(/left over (-?\d\.\d\d, ){2}-?\d\.\d\d m/);
  });

  test('that do not meet are refused, with what is missing', () => {
    expect(
      resolvePosition(
        taped(
          [
            ['A', 10],
            ['B', 30],
          ],
          'left',
        ),
        known,
      ),
    ).toEqual({
      why: expect.stringMatching(/do not meet: 10\.0 m is missing/) as unknown,
    });
    expect(
      resolvePosition(
        taped(
          [
            ['A', 100],
            ['B', 30],
          ],
          'left',
        ),
        known,
      ),
    ).toEqual({
      why: expect.stringMatching(/do not meet: 20\.0 m is missing/) as unknown,
    });
  });

  test('that miss each other by no more than the tape does meet between', () => {
    const answer = place(
      taped([
        ['A', 20],
        ['B', 29.8],
      ]),
      known,
    );
    expect(distanceAndAzimuth(STAKE, answer.at).metres).toBeCloseTo(20.1, 2);
    // Where circles only touch, across is badly known: the root of 2 r s.
    expect(answer.standardError).toBeGreaterThan(3);
  });

  test('from two points in one place, or from one, lead nowhere', () => {
    expect(
      resolvePosition(
        taped(
          [
            ['A', 10],
            ['A', 10],
          ],
          'left',
        ),
        known,
      ),
    ).toEqual({
      why: expect.stringContaining('in one place') as unknown,
    });
    expect(resolvePosition(taped([['A', 10]]), known)).toHaveProperty('why');
    expect(
      resolvePosition(
        taped(
          [
            ['A', 30],
            ['Z', 40],
          ],
          'left',
        ),
        known,
      ),
    ).toEqual({ why: 'nowhere' });
  });
});
