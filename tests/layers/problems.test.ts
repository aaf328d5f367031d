/**
 * What the own checks catch. geojson-validation accepts each of these (shown in the same test), so that
 * nobody takes it for enough.
 */
import fc from 'fast-check';
import GeoJsonValidation from 'geojson-validation';
import { describe, expect, test } from 'vitest';
import {
  type Feature,
  type FeatureCollection,
  type Geometry,
  type Position,
  problemsOf,
  toGeoJson,
  viewOf,
} from '../../src/layers/index.ts';
import { isCounterclockwise } from '../../src/layers/winding.ts';
import { destination } from '../../src/place/index.ts';
import { layer } from './reading.ts';
import { grid, id, square, woodlot } from './woodlot.ts';

const ring: readonly Position[] = [
  [-81.68, 35.71],
  [-81.679, 35.71],
  [-81.679, 35.711],
  [-81.68, 35.711],
  [-81.68, 35.71],
];

function feature(geometry: Geometry, name = 'one', properties: Feature['properties'] = {}): Feature {
  return { type: 'Feature', id: name, geometry, properties };
}

function polygon(...rings: readonly (readonly Position[])[]): Feature {
  return feature({ type: 'Polygon', coordinates: rings });
}

function point(lon: number, lat: number): Feature {
  return feature({ type: 'Point', coordinates: [lon, lat] });
}

type Checked = FeatureCollection;

function collection(features: readonly Feature[], crs?: string): Checked {
  return {
    type: 'FeatureCollection',
    ...(crs === undefined ? {} : { crs: { type: 'name' as const, properties: { name: crs } } }),
    name: 'test',
    title: 'Test',
    description: '',
    geometryType: features[0]?.geometry.type ?? 'Point',
    datumNote: '',
    leftOut: [],
    features,
  };
}

function sentences(checked: Checked): string {
  return problemsOf(checked)
    .map(({ sentence }) => sentence)
    .join(' ');
}

/** It must be let through there, or the own check would not be needed. */
function expectAccepted(checked: Checked): void {
  expect(GeoJsonValidation.valid(checked, true)).toEqual([]);
}

test('a sound ring, line and point have no problems', () => {
  const line: Geometry = { type: 'LineString', coordinates: ring.slice(0, 2) };
  for (const sound of [polygon(ring), point(-81.68, 35.71), feature(line)]) {
    expect(problemsOf(collection([sound]))).toEqual([]);
  }
});

describe('caught here and let through by geojson-validation', () => {
  test.each<readonly [string, Feature, RegExp]>([
    [
      'a bow-tie',
      polygon([
        [-81.68, 35.71],
        [-81.679, 35.711],
        [-81.679, 35.71],
        [-81.68, 35.711],
        [-81.68, 35.71],
      ]),
      /crosses or touches itself/,
    ],
    ['NaN for a coordinate', point(Number.NaN, 35.71), /no number/],
    ['an infinite coordinate', point(-81.68, Number.POSITIVE_INFINITY), /no number/],
    ['longitude 500', point(500, 35.71), /no place on earth/],
    ['latitude -91', point(-81.68, -91), /no place on earth/],
    ['a ring that goes round clockwise', polygon([...ring].reverse()), /clockwise; by the right-hand rule/],
    [
      'a hole that goes round as its shell does',
      polygon(ring, shrunk(ring)),
      /hole goes round counterclockwise/,
    ],
    [
      'a ring without extent',
      polygon([ring[0], ring[1], ring[0], ring[0]].map(sure)),
      /three different points/,
    ],
    [
      'a line without length',
      feature({ type: 'LineString', coordinates: [ring[0], ring[0]].map(sure) }),
      /two different points/,
    ],
    [
      'a ring across the antimeridian',
      polygon([
        [179.99, -17],
        [-179.99, -17],
        [-179.99, -16.99],
        [179.99, -16.99],
        [179.99, -17],
      ]),
      /antimeridian/,
    ],
    [
      'a value that is no number',
      feature(point(-81.68, 35.71).geometry, 'one', { dbh_cm: Number.NaN }),
      /dbh_cm/,
    ],
  ])('%s', (_name, wrong, sentence) => {
    const checked = collection([wrong]);
    expectAccepted(checked);
    expect(sentences(checked)).toMatch(sentence);
  });

  test('mixed geometry types in one layer', () => {
    const checked = collection([point(-81.68, 35.71), { ...polygon(ring), id: 'two' }]);
    expectAccepted(checked);
    expect(problemsOf(checked)).toMatchObject([{ index: 1, id: 'two' }]);
    expect(sentences(checked)).toMatch(/Polygon does not belong/);
  });

  test('an identity given twice, named at the second', () => {
    const checked = collection([point(-81.68, 35.71), point(-81.67, 35.71)]);
    expectAccepted(checked);
    expect(problemsOf(checked)).toMatchObject([{ index: 1, id: 'one' }]);
  });

  test('easting and northing that are no place in their system', () => {
    const checked = collection([point(1e12, 1e12)], 'urn:ogc:def:crs:EPSG::32617');
    expectAccepted(checked);
    expect(sentences(checked)).toMatch(/outside/);
  });
});

test('a ring that is not closed is caught here as well as there', () => {
  const checked = collection([polygon(ring.slice(0, -1))]);
  expect(GeoJsonValidation.valid(checked)).toBe(false);
  expect(sentences(checked)).toMatch(/not closed/);
});

test('a patch whose edge crosses itself is left out of the layer with the reason', () => {
  const bowTie = [grid(0, 0), grid(100, 100), grid(100, 0), grid(0, 100)];
  const patch = { patch: id.sapling, label: 'twisted', edge: bowTie };
  const view = viewOf(woodlot([['patch-protected', patch]]));
  for (const crs of [{}, { crs: 'EPSG:2264' }]) {
    const { collection: made, leftOut } = toGeoJson(layer('patches'), view, crs);
    expect(made.features.map(({ properties }) => properties.label)).toEqual(['p1']);
    expect(leftOut.find(({ label }) => label === 'twisted')?.why).toMatch(/crosses or touches itself/);
  }
});

describe('winding and closure', () => {
  test('a square with x to the right and y up, given right, up, left, down, is counterclockwise', () => {
    const unit: Position[] = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ];
    expect(isCounterclockwise(unit)).toBe(true);
    expect(isCounterclockwise(unit.toReversed())).toBe(false);
  });

  /** A star-shaped ring round a place: its corners in order of azimuth, so that it never crosses itself. */
  const star = fc.record({
    spokes: fc.array(fc.double({ min: 5, max: 120, noNaN: true }), { minLength: 3, maxLength: 30 }),
    clockwise: fc.boolean(),
    closed: fc.boolean(),
    lat: fc.double({ min: 33.9, max: 36.5, noNaN: true }),
    lon: fc.double({ min: -84, max: -76, noNaN: true }),
  });

  test.each([undefined, 'EPSG:2264'])('any ring comes out closed and by the right-hand rule in %s', (crs) => {
    const cameUp = { clockwise: 0, counterclockwise: 0, closed: 0, open: 0 };
    fc.assert(
      fc.property(star, ({ spokes, clockwise, closed, lat, lon }) => {
        const corners = spokes.map((metres, index) => {
          const at = destination({ lon, lat }, (360 * index) / spokes.length, metres);
          return { how: 'fix', lat: at.lat.toFixed(9), lon: at.lon.toFixed(9) };
        });
        const turned = clockwise ? corners : corners.toReversed();
        const edge = closed ? [...turned, ...turned.slice(0, 1)] : turned;
        cameUp[clockwise ? 'clockwise' : 'counterclockwise'] += 1;
        cameUp[closed ? 'closed' : 'open'] += 1;
        const view = viewOf(woodlot([['patch-protected', { patch: id.patch, label: 'p1', edge }]]));
        const made = toGeoJson(layer('patches'), view, crs === undefined ? {} : { crs }).collection;
        const geometry = made.features[0]?.geometry;
        if (geometry?.type !== 'Polygon') throw new Error('no polygon');
        const [shell = []] = geometry.coordinates;
        expect(shell).toHaveLength(spokes.length + 1);
        expect(shell.at(-1)).toEqual(shell[0]);
        expect(turns(shell)).toBeCloseTo(1, 6);
      }),
      { numRuns: 60 },
    );
    expect(Math.min(...Object.values(cameUp))).toBeGreaterThan(0);
  });
});

test('the square that was entered clockwise comes out as the square it was', () => {
  const view = viewOf(
    woodlot([['patch-protected', { patch: id.patch, label: 'p1', edge: square(0, 0, 20) }]]),
  );
  const [made] = toGeoJson(layer('patches'), view, { crs: 'EPSG:2264' }).collection.features;
  expect(made?.geometry).toEqual({
    type: 'Polygon',
    coordinates: [
      [
        [1_209_020, 741_000],
        [1_209_020, 741_020],
        [1_209_000, 741_020],
        [1_209_000, 741_000],
        [1_209_020, 741_000],
      ],
    ],
  });
});

/** How often a ring turns round on the way, counterclockwise positive: the sum of its outer angles over 360°. */
function turns(shell: readonly Position[]): number {
  const sides = shell.slice(1).map((to, index) => {
    const from = shell[index] ?? to;
    return Math.atan2(to[1] - from[1], to[0] - from[0]);
  });
  const bends = sides.map((side, index) => {
    const before = sides.at(index - 1) ?? side;
    const bend = side - before;
    return Math.atan2(Math.sin(bend), Math.cos(bend));
  });
  return bends.reduce((sum, bend) => sum + bend, 0) / (2 * Math.PI);
}

/** A ring of half the size round the same middle. */
function shrunk(outer: readonly Position[]): Position[] {
  return outer.map(([x, y]) => [-81.6795 + (x + 81.6795) / 2, 35.7105 + (y - 35.7105) / 2]);
}

function sure(position: Position | undefined): Position {
  if (position === undefined) throw new Error('no position');
  return position;
}
