// Where a felled stem may lie: the chances against cases worked by hand and against simulated falls.
//
// The model has no published source. The worked cases follow from the definitions in docs/felling-model.md and were worked a
// second time, apart from this code, with the error function of the Python standard library: the same to 1e-9.
import { describe, expect, test } from 'vitest';
import { contact, touch } from '../../../src/felling/model/crown.ts';
import { type Body, below, directionChance, turn } from '../../../src/felling/model/fall.ts';
import { hangUpChance, hangUpMap, obstacle, segments } from '../../../src/felling/model/hang-up.ts';
import { boleChance, halfAngle } from '../../../src/felling/model/strip.ts';
import { seeded } from '../../../src/felling/order/random.ts';
import { fourErrors, normal, shareOf, touches } from './falls.ts';

const body = (given: Partial<Body>): Body => ({
  height: 20,
  lengthError: 0,
  halfWidth: 0.2,
  crownBase: 11,
  crownRadius: 3,
  ...given,
});

describe('worked cases', () => {
  test('a point 10 m off, 8° beside the aim', () => {
    const disc = { distance: 10, bearing: 48, radius: 0 };
    expect(halfAngle(0.2, disc)).toBeCloseTo(1.1459919986, 8);
    expect(boleChance({ aim: 40, directionError: 6 }, body({}), disc)).toBeCloseTo(0.0629445696, 8);
  });

  test('a disc on the other side of north', () => {
    const disc = { distance: 12, bearing: 3, radius: 0.5 };
    expect(halfAngle(0.25, disc)).toBeCloseTo(3.5833216985, 8);
    expect(
      boleChance({ aim: 355, directionError: 7.5 }, body({ height: 22, halfWidth: 0.25 }), disc),
    ).toBeCloseTo(0.2167268477, 8);
  });

  const falling = body({ height: 25 });
  const J = { stem: 1, distance: 8, bearing: 0, halfWidth: 0.2, crownRadius: 2 };
  const K = { stem: 2, distance: 10, bearing: 4, halfWidth: 0.25, crownRadius: 3 };
  const chances = (boleHolds: number, crownHolds: number) =>
    segments(
      { aim: 5, directionError: 6 },
      hangUpMap(
        falling,
        [J, K].map((one) =>
          obstacle(falling, one, { boleHolds, crownHolds, crownOverlap: 0.5, crownCap: 30 }),
        ),
      ),
    );

  test.each([
    ['both stand', [1, 2], 0.3886700654],
    ['J is down', [2], 0.230946737],
    ['K is down', [1], 0.2050559614],
    ['both are down', [], 0],
  ])('a hang-up in two neighbours: %s', (_, standing, expected) => {
    expect(hangUpChance(chances(0.5, 0.1), (stem) => standing.includes(stem))).toBeCloseTo(expected, 8);
  });

  test('chances of two neighbours are not added where their sectors overlap', () => {
    expect(hangUpChance(chances(1, 0), () => true)).toBeCloseTo(0.5088712348, 8);
  });

  test.each([
    ['C B A', [2, 1, 0], 0],
    ['A B C', [0, 1, 2], 0.951870537],
    ['B A C', [1, 0, 2], 0.7257301135],
    ['A C B', [0, 2, 1], 0.4759352685],
    ['B C A', [1, 2, 0], 0.4759352685],
    ['C A B', [2, 0, 1], 0.4759352685],
  ])('three in line, felled %s', (_, order, expected) => {
    const at = [0, 6, 12];
    const map = at.map((from, stem) =>
      segments(
        { aim: 0, directionError: 6 },
        hangUpMap(
          body({}),
          at.flatMap((to, other) =>
            other === stem
              ? []
              : obstacle(
                  body({}),
                  {
                    stem: other,
                    distance: Math.abs(to - from),
                    bearing: to > from ? 0 : 180,
                    halfWidth: 0.2,
                    crownRadius: 3,
                  },
                  { boleHolds: 1, crownHolds: 0, crownOverlap: 0.5, crownCap: 30 },
                ),
          ),
        ),
      ),
    );
    const down = new Set<number>();
    let sum = 0;
    for (const stem of order) {
      sum += hangUpChance(map[stem] ?? [], (other) => !down.has(other));
      down.add(stem);
    }
    expect(sum).toBeCloseTo(expected, 8);
  });
});

test('the normal distribution, Abramowitz & Stegun 1964, table 26.1', () => {
  const rows = [
    [0, 0.5],
    [0.5, 0.691462461274013],
    [1, 0.841344746068543],
    [1.96, 0.97500210485178],
    [2.5, 0.993790334674224],
    [-3, 0.00134989803163],
  ];
  for (const [z = 0, share = 0] of rows) expect(Math.abs(below(z) - share)).toBeLessThan(5e-11);
});

const FALLS = 200_000;

describe(`against ${FALLS} simulated falls`, () => {
  const random = seeded(20261127);
  const cases = Array.from({ length: 24 }, () => ({
    body: body({
      height: 12 + 18 * random(),
      lengthError: random() < 0.25 ? 0 : 0.15 * random(),
      halfWidth: 0.1 + 0.3 * random(),
      crownBase: 12 * random(),
      crownRadius: 1 + 5 * random(),
    }),
    disc: {
      distance: 1.5 + 30 * random(),
      bearing: 360 * random(),
      radius: random() < 0.3 ? 0 : 1.2 * random(),
    },
    off: 30 * (random() - 0.5),
    directionError: 3 + 20 * random(),
  }));

  test.each(cases)(
    'bole and crown: height $body.height, $disc',
    ({ body: stem, disc, off, directionError }) => {
      const fall = { aim: disc.bearing + off, directionError };
      const expected = touch(fall, contact(stem, disc));
      const draw = () =>
        touches(
          stem,
          disc,
          fall.aim + directionError * normal(random),
          stem.height * (1 + stem.lengthError * normal(random)),
        );
      const bole = shareOf(FALLS, () => draw().bole);
      const crownOnly = shareOf(FALLS, () => {
        const { bole: under, crown } = draw();
        return crown && !under;
      });
      expect(Math.abs(bole - expected.bole)).toBeLessThan(fourErrors(expected.bole, FALLS));
      expect(Math.abs(crownOnly - expected.crownOnly)).toBeLessThan(fourErrors(expected.crownOnly, FALLS));
      expect(boleChance(fall, stem, disc)).toBeCloseTo(expected.bole, 6);
    },
  );

  test.each([1, 2, 3, 4, 5, 6])('hang-ups among eight neighbours, group %i', (seed) => {
    const draw = seeded(seed * 7919);
    const stem = body({ height: 22, lengthError: 0.09, halfWidth: 0.22, crownRadius: 3.2 });
    const how = { boleHolds: 0.5, crownHolds: 0.1, crownOverlap: 0.5, crownCap: 30 };
    const neighbours = Array.from({ length: 8 }, (_, index) =>
      obstacle(
        stem,
        {
          ...(index < 6 ? { stem: index } : {}),
          distance: 2 + 24 * draw(),
          bearing: 360 * draw(),
          halfWidth: 0.1 + 0.2 * draw(),
          crownRadius: 1.5 + 2 * draw(),
        },
        how,
      ),
    );
    const fall = { aim: (neighbours[0]?.bearing ?? 0) + 5, directionError: 9 };
    const standing = (index: number) => index !== 2;
    const hung = shareOf(FALLS, () => {
      const direction = fall.aim + fall.directionError * normal(draw);
      const length = stem.height * (1 + stem.lengthError * normal(draw));
      return neighbours.some(({ stem: index, distance, bearing, halfWidth, bole, crown }) => {
        if (index !== undefined && !standing(index)) return false;
        const angle = Math.abs(turn(direction - bearing));
        if (distance > length + halfWidth || angle > crown) return false;
        return draw() < (angle <= bole ? how.boleHolds : how.crownHolds);
      });
    });
    const expected = hangUpChance(segments(fall, hangUpMap(stem, neighbours)), standing);
    expect(expected).toBeGreaterThan(0.005);
    expect(Math.abs(hung - expected)).toBeLessThan(fourErrors(expected, FALLS));
  });
});

describe('what has to hold whatever the numbers', () => {
  test('turning everything changes nothing', () => {
    for (const by of [13, 90, 181.5, 359]) {
      const at = (bearing: number) => ({ distance: 12, bearing, radius: 0.4 });
      const still = touch({ aim: 350, directionError: 9 }, contact(body({ lengthError: 0.07 }), at(4)));
      const turned = touch(
        { aim: 350 + by, directionError: 9 },
        contact(body({ lengthError: 0.07 }), at(4 + by)),
      );
      expect(turned.bole).toBeCloseTo(still.bole, 12);
      expect(turned.crownOnly).toBeCloseTo(still.crownOnly, 12);
    }
  });

  test('one more stem in the way never lowers the chance of a hang-up', () => {
    const draw = seeded(4242);
    for (let round = 0; round < 200; round += 1) {
      const stem = body({ lengthError: 0.07 });
      const all = Array.from({ length: 6 }, (_, index) =>
        obstacle(
          stem,
          { stem: index, distance: 1 + 25 * draw(), bearing: 360 * draw(), halfWidth: 0.2, crownRadius: 2.5 },
          { boleHolds: 0.5, crownHolds: 0.1, crownOverlap: 0.5, crownCap: 30 },
        ),
      );
      const fall = { aim: 360 * draw(), directionError: 5 + 10 * draw() };
      const fewer = hangUpChance(segments(fall, hangUpMap(stem, all.slice(1))), () => true);
      const more = hangUpChance(segments(fall, hangUpMap(stem, all)), () => true);
      expect(more).toBeGreaterThanOrEqual(fewer - 1e-12);
    }
  });

  test('all directions together have the chance 1', () => {
    expect(directionChance({ aim: 77, directionError: 30 }, 12, 372)).toBeCloseTo(1, 12);
  });
});
