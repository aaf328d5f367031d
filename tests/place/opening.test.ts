/** Outlines, form and error of openings, and distances between things on the ground. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import {
  apart,
  areaBeyond,
  areaStandardError,
  areaTogether,
  crownEdge,
  destination,
  distanceAndAzimuth,
  geodesicArea,
  inBuffer,
  type LonLat,
  lineTree,
  middleOf,
  planarArea,
  ringForm,
  spokeArea,
  spokeRing,
} from '../../src/place/index.ts';

const here: LonLat = { lon: -81.6834, lat: 35.7121 };
/** A place so many metres east and north of here. */
const at = (east: number, north: number): LonLat =>
  destination(here, (Math.atan2(east, north) * 180) / Math.PI, Math.hypot(east, north));
const box = (west: number, south: number, width: number, height: number) => [
  at(west, south),
  at(west, south + height),
  at(west + width, south + height),
  at(west + width, south),
];

describe('form of a ring', () => {
  const form = ringForm(box(0, 0, 30, 10));

  test('its longest axis is the diagonal of a rectangle, the width what lies across', () => {
    expect(form?.length).toBeCloseTo(Math.hypot(30, 10), 3);
    // Twice the height of the triangle over the diagonal: 2 × 30 × 10 / diagonal.
    expect(form?.width).toBeCloseTo((2 * 300) / Math.hypot(30, 10), 3);
    expect(form?.perimeter).toBeCloseTo(80, 3);
  });

  test('roundness is 0.785 for a square and 1 for a circle', () => {
    expect(ringForm(box(0, 0, 10, 10))?.roundness).toBeCloseTo(Math.PI / 4, 4);
    const circle = spokeRing(
      here,
      Array.from({ length: 180 }, (_, index) => ({ azimuthTrue: 2 * index, metres: 10 })),
    );
    expect(ringForm(circle)?.roundness).toBeCloseTo(1, 3);
  });

  test('fewer than three corners have none', () => {
    expect(ringForm([at(0, 0), at(5, 5)])).toBeUndefined();
    expect(ringForm([here, here, here])).toBeUndefined();
  });
});

describe('error of an area', () => {
  test('a square of side s whose corners are each off by e is off by e × s × √2', () => {
    // Each corner's neighbours are a diagonal apart: ½ √(4 e² × 2 s²) = e s √2.
    expect(areaStandardError(box(0, 0, 20, 20), [1, 1, 1, 1])).toBeCloseTo(20 * Math.SQRT2, 2);
  });

  test('agrees with the spread of areas when corners are shifted at random', () => {
    const corners = [
      [0, 0],
      [3, 22],
      [18, 30],
      [31, 14],
      [20, -4],
    ] as const;
    const random = generator(11);
    const areas = Array.from({ length: 4000 }, () =>
      shoelace(corners.map(([x, y]) => [x + normal(random), y + normal(random)] as const)),
    );
    const mean = areas.reduce((sum, area) => sum + area, 0) / areas.length;
    const spread = Math.sqrt(areas.reduce((sum, area) => sum + (area - mean) ** 2, 0) / (areas.length - 1));
    const told = areaStandardError(
      corners.map(([x, y]) => at(x, y)),
      corners.map(() => 1),
    );
    // 4,000 draws give a standard deviation to about 1.1 %.
    expect(spread / told).toBeGreaterThan(0.95);
    expect(spread / told).toBeLessThan(1.05);
  });
});

test('turning or shifting a block changes no area: each corner by azimuth and distance from a centre somewhere else', () => {
  const corners = fc.array(
    fc.record({
      azimuth: fc.double({ min: 0, max: 360, noNaN: true }),
      metres: fc.double({ min: 3, max: 120, noNaN: true }),
    }),
    { minLength: 3, maxLength: 12 },
  );
  const place = fc.record({
    lon: fc.double({ min: -179, max: 179, noNaN: true }),
    lat: fc.double({ min: -65, max: 65, noNaN: true }),
  });
  fc.assert(
    fc.property(
      corners,
      place,
      place,
      fc.double({ min: 0, max: 360, noNaN: true }),
      (spokes, one, other, turned) => {
        const ringAt = (centre: LonLat, turn: number) =>
          spokes.map(({ azimuth, metres }) => destination(centre, (azimuth + turn) % 360, metres));
        const [before, after] = [
          Math.abs(geodesicArea(ringAt(one, 0))),
          Math.abs(geodesicArea(ringAt(other, turned))),
        ];
        // A thousandth of a percent, and a square centimetre for what has next to no area.
        expect(Math.abs(before - after)).toBeLessThanOrEqual(before * 1e-5 + 1e-4);
      },
    ),
    { numRuns: 500 },
  );
});

test('the area of a spoke polygon is the area by coordinates, whatever the spokes', () => {
  const spokes = fc
    .uniqueArray(fc.integer({ min: 0, max: 359 }), { minLength: 3, maxLength: 24 })
    .chain((azimuths) =>
      fc.tuple(
        ...azimuths.map((azimuthTrue) =>
          fc.record({ azimuthTrue: fc.constant(azimuthTrue), metres: fc.integer({ min: 1, max: 60 }) }),
        ),
      ),
    );
  fc.assert(
    fc.property(spokes, (each) => {
      expect(spokeArea(each)).toBeCloseTo(geodesicArea(spokeRing(here, each)), 1);
    }),
    { seed: 5, numRuns: 300 },
  );
});

describe('edge of the crowns', () => {
  const trees = box(-10, -10, 20, 20).map((place) => ({ at: place, crownRadius: Math.SQRT2 }));

  test('lies by the crown radius nearer to the middle', () => {
    // From corners 10√2 m off the middle to 9√2 m: a square of 18 m.
    expect(geodesicArea(crownEdge(trees))).toBeCloseTo(18 ** 2, 1);
  });

  test('never reaches past the middle', () => {
    const wide = crownEdge(trees.map((tree) => ({ ...tree, crownRadius: 500 })));
    const middle = middleOf(trees.map((tree) => tree.at)) ?? here;
    for (const corner of wide) expect(distanceAndAzimuth(corner, middle).metres).toBeLessThan(1e-3);
  });
});

describe('openings together', () => {
  const code = 'EPSG:32617';
  const one = box(0, 0, 20, 20);
  const other = box(15, 0, 20, 20);

  test('what two share counts once', () => {
    const overlap = planarArea(code, box(15, 0, 5, 20));
    expect(areaTogether(code, [one, other])).toBeCloseTo(
      planarArea(code, one) + planarArea(code, other) - overlap,
      1,
    );
    expect(areaBeyond(code, other, [one])).toBeCloseTo(planarArea(code, other) - overlap, 1);
  });

  test('only what lies in the block counts for the block', () => {
    expect(areaTogether(code, [one, other], box(-5, -5, 15, 50))).toBeCloseTo(
      planarArea(code, box(0, 0, 10, 20)),
      1,
    );
  });

  test('in a system of US survey feet areas come out in square metres', () => {
    expect(areaTogether('EPSG:2264', [one])).toBeCloseTo(planarArea('EPSG:2264', one), 6);
  });
});

describe('distance between things', () => {
  const ring = { is: 'ring', points: box(0, 0, 20, 20) } as const;

  it.each([
    ['two rings edge to edge', { is: 'ring', points: box(32, 0, 5, 5) } as const, 12],
    ['a ring that overlaps', { is: 'ring', points: box(15, 5, 50, 5) } as const, 0],
    ['a ring within', { is: 'ring', points: box(5, 5, 2, 2) } as const, 0],
    ['a line beside it', { is: 'line', points: [at(-30, -7), at(60, -7)] } as const, 7],
    ['a line through it', { is: 'line', points: [at(-30, 7), at(60, 8)] } as const, 0],
    ['a point off a corner', { is: 'point', points: [at(23, 24)] } as const, 5],
    ['a point within', { is: 'point', points: [at(10, 10)] } as const, 0],
  ])('%s', (_, other, metres) => {
    expect(apart(ring, other)).toBeCloseTo(metres, 2);
    expect(apart(other, ring)).toBeCloseTo(metres, 2);
  });
});

describe('a stem at a line', () => {
  it.each([
    // 12 in of radius are 0.305 m.
    [5, 0.3, [0.5, 0.5], 'inside'],
    [-5, 0.3, [0.5, 0.5], 'outside'],
    [1, 0.3, [0.5, 0.5], 'doubtful'],
    [0.1, 0.3, [0.05, 0.05], 'touched'],
    [0.1, undefined, [0.01, 0.01], 'inside'],
    [30, 0.3, [undefined, 0.5], 'doubtful'],
  ] as const)('%d m inside, radius %s m, errors %j: %s', (inside, radius, errors, answer) => {
    expect(lineTree(inside, radius, errors)).toBe(answer);
  });

  test('in, out and doubtful within a strip of 30 m', () => {
    expect(inBuffer(20, 30, [2, 1])).toBe('in');
    expect(inBuffer(27, 30, [2, 1])).toBe('doubtful');
    expect(inBuffer(40, 30, [2, 1])).toBe('out');
    expect(inBuffer(400, 30, [undefined])).toBe('doubtful');
  });
});

function shoelace(points: readonly (readonly [number, number])[]): number {
  return (
    Math.abs(
      points.reduce((sum, [x, y], index) => {
        const [nextX, nextY] = points[(index + 1) % points.length] ?? [x, y];
        return sum + x * nextY - nextX * y;
      }, 0),
    ) / 2
  );
}

/** Numbers from 0 to 1, the same in every run (Park and Miller 1988). */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

/** A standard normal number (Box and Muller 1958). */
function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
}
