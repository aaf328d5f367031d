/** What the layers hold, what they leave out and why. */
import GeoJsonValidation from 'geojson-validation';
import { describe, expect, test } from 'vitest';
import {
  type Column,
  fileName,
  geoJsonText,
  layerNamed,
  layers,
  problemsOf,
  toGeoJson,
  type Value,
  viewOf,
} from '../../src/layers/index.ts';
import { distanceAndAzimuth } from '../../src/place/index.ts';
import { fold } from '../../src/stand/index.ts';
import { device, pen } from '../stand/entries.ts';
import { emptyFold, featureOf, layer, lines, pointOf } from './reading.ts';
import { grid, id, quantity, woodlot } from './woodlot.ts';

const view = viewOf(woodlot());

const inJson = { text: 'string', time: 'string', number: 'number', integer: 'number', 'yes-no': 'boolean' };

/** A value has the type of its column, a time is UTC, and a unit is in the column's name. */
function expectFits({ name, type, unit }: Column, value: Value): void {
  expect(value === null ? inJson[type] : typeof value, name).toBe(inJson[type]);
  if (type === 'time' && value !== null) {
    expect(value, name).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}Z$/);
  }
  if (unit !== undefined) expect(name).toContain(unit === '%' ? 'percent' : unit);
}

/** Features and things left out that the invented logbook must yield, counted by hand. */
const expected: Readonly<Record<string, readonly [features: number, leftOut: readonly string[]]>> = {
  stems: [1, ['N1']],
  stumps: [5, []],
  lays: [2, ['H1', 'C3', 'C4']],
  saplings: [1, ['s2']],
  patches: [1, ['p2']],
  openings: [2, []],
  damage: [1, ['damage to soil']],
  hazards: [1, ['footing']],
  stakes: [1, ['B']],
  blocks: [1, ['South slope']],
  'feature-points': [1, []],
  'feature-lines': [1, []],
  'feature-areas': [1, []],
};

test('the layers are those that are counted here', () => {
  expect(layers.map(({ name }) => name)).toEqual(Object.keys(expected));
});

describe.each(layers.map((layer) => [layer.name, layer] as const))('layer %s', (name, layer) => {
  const [count, leftOut] = expected[name] ?? [0, []];

  test.each([undefined, 'EPSG:2264', 'EPSG:32617'])(
    'is valid GeoJSON in %s and holds what it should',
    (crs) => {
      const made = toGeoJson(layer, view, crs === undefined ? {} : { crs });
      const read: unknown = JSON.parse(geoJsonText(made.collection, layer));
      expect(read).toEqual(made.collection);
      expect(GeoJsonValidation.valid(read as object, true)).toEqual([]);
      expect(problemsOf(made.collection)).toEqual([]);
      expect(made.collection.features).toHaveLength(count);
      expect(made.leftOut.map(({ label }) => label)).toEqual(leftOut);
      for (const { why } of made.leftOut) expect(why).toMatch(/^[A-Z].*\.$/s);
      expect(made.collection.leftOut).toEqual(made.leftOut);
      expect(made.collection.crs === undefined).toBe(crs === undefined);
    },
  );

  test('has flat values, one for each column, and no column that desktop GIS owns', () => {
    const names = layer.columns.map((column) => column.name);
    expect(new Set(names).size).toBe(names.length);
    for (const column of names) expect(column).toMatch(/^(?!(?:ogc_)?fid$|id$)[a-z][a-z0-9_]*$/);
    for (const { properties } of toGeoJson(layer, view).collection.features) {
      expect(Object.keys(properties)).toEqual(names);
      for (const column of layer.columns) expectFits(column, properties[column.name] ?? null);
    }
  });

  test('of an empty logbook is an empty collection that still names its geometry type', () => {
    const { collection, leftOut: nothing } = toGeoJson(layer, viewOf(emptyFold()));
    expect(collection.features).toEqual([]);
    expect(nothing).toEqual([]);
    expect(collection.geometryType).toBe(layer.geometry);
    expect(GeoJsonValidation.valid(JSON.parse(geoJsonText(collection, layer)))).toBe(true);
  });
});

describe('what is told of things', () => {
  test('a diameter stands as it was entered, and in centimetres: 14.0 in are 35.56 cm', () => {
    // 1 in = 2.54 cm exactly (international yard and pound agreement, 1959).
    const { properties } = featureOf(view, 'stumps', 'C1');
    expect(properties).toMatchObject({
      dbh: '14.0 in',
      dbh_cm: 35.56,
      stump_height: '8 in',
      stump_height_m: 0.203,
    });
    expect(properties).toMatchObject({ decay: 'rot', decay_diameter_cm: 15.24, bore_cut: true, wedges: 2 });
  });

  test('a wound of 60 square inches has 387.1 cm²', () => {
    expect(featureOf(view, 'damage', 'damage to L1').properties).toMatchObject({ wound_area_cm2: 387.1 });
  });

  test('identity, tag and how the position came about are with every stem', () => {
    const feature = featureOf(view, 'stems', 'L1');
    expect(feature.id).toBe(id.leave);
    expect(feature.properties).toMatchObject({
      uid: id.leave,
      tag: 'L1',
      species: 'white oak',
      mark: 'leave',
    });
    expect(feature.properties.position_via).toMatch(/60 ft from stake A/);
    expect(feature.properties.position_error_m).toBeGreaterThan(2);
    expect(feature.properties.decay_signs).toBe('conks; dead top');
  });

  test('an error that nobody stated is 5 m, the upper end of what is typical for a handheld', () => {
    // 3–5 m typical under canopy: reference figures of GNSS under canopy, the phone's from memory.
    expect(featureOf(view, 'stumps', 'C1').properties.position_error_m).toBe(5);
  });

  test('times are in UTC: the first entry is of 09:01 five hours west', () => {
    const { properties } = featureOf(view, 'blocks', 'North cove');
    expect(properties).toMatchObject({
      first_entry_at: '2026-03-02T14:02:00Z',
      first_entry_known_to: 'instant',
    });
  });

  test('what is known to the day only says so, and a clock that ran ahead is allowed for', () => {
    const write = pen('2026-03-02T09:00:00-05:00');
    const day = { at: '2026-03-02T00:00:00-05:00', precision: 'day' } as const;
    const seen = viewOf(
      fold([
        write('stake-set', { stake: id.stakeA, label: 'A', position: grid(0, 0) }, { happenedAt: day }),
        write('stake-set', { stake: id.stakeB, label: 'B', position: grid(9, 9) }),
        write('clock-offset-noted', { device: device.a, ahead: quantity('30', 'min') }),
      ]),
    );
    expect(featureOf(seen, 'stakes', 'A').properties).toMatchObject({
      first_entry_at: '2026-03-02T05:00:00Z',
      first_entry_known_to: 'day',
    });
    expect(featureOf(seen, 'stakes', 'B').properties).toMatchObject({
      first_entry_at: '2026-03-02T13:32:00Z',
    });
  });

  test('a hung-up stem is among the stumps, named as hung up, and has no lay', () => {
    expect(featureOf(view, 'stumps', 'H1').properties).toMatchObject({ status: 'hung up', hung_on: 'L1' });
    const { leftOut } = toGeoJson(lines(), view);
    expect(leftOut.find(({ label }) => label === 'H1')?.why).toMatch(/hung up.*keep away/);
  });

  test('a hazard at a stem is shown where the stem stands', () => {
    const hazard = pointOf(featureOf(view, 'hazards', 'hung-up stem at H1'));
    expect(hazard).toEqual(pointOf(featureOf(view, 'stumps', 'H1')));
  });

  test('no name of a person is in any layer', () => {
    const columns = layers.flatMap((layer) => layer.columns.map(({ name }) => name));
    expect(columns.filter((name) => /person|recorded_by|feller/.test(name))).toEqual([]);
  });
});

describe('lays', () => {
  test.each([
    // 66 ft are one chain, 20.1168 m; 70 ft are 21.336 m. Both lie due east.
    ['C1', 20.1168, 'measured on the ground'],
    ['C2', 21.336, 'total height'],
  ])('%s lies %d m due east, by its length %s', (tag, length, from) => {
    const feature = featureOf(view, 'lays', tag);
    if (feature.geometry.type !== 'LineString') throw new Error('no line');
    const [start, end] = feature.geometry.coordinates.map(([lon, lat]) => ({ lon, lat }));
    if (start === undefined || end === undefined) throw new Error('no ends');
    const { metres, azimuthTrue } = distanceAndAzimuth(start, end);
    expect(Math.abs(metres - length)).toBeLessThan(0.02);
    expect(Math.abs(azimuthTrue - 90)).toBeLessThan(0.1);
    expect(feature.properties).toMatchObject({ length_from: from, lay_true_deg: 90 });
  });

  test('one whose length and height nobody measured is left out for that reason', () => {
    const { leftOut } = toGeoJson(lines(), view);
    expect(leftOut.find(({ label }) => label === 'C3')?.why).toMatch(/length .* height/);
    expect(leftOut.find(({ label }) => label === 'C4')?.why).toMatch(/lay was not measured/);
  });
});

describe('files', () => {
  test('the code of the reference system is in the name of a projected file and in no other', () => {
    expect(fileName({ name: 'stems' })).toBe('stems.geojson');
    expect(fileName({ name: 'stems' }, 'EPSG:2264')).toBe('stems.epsg2264.geojson');
    expect(fileName({ name: 'stems' }, '2264')).toBe('stems.epsg2264.geojson');
  });

  test('web Mercator is refused by name', () => {
    expect(() => toGeoJson(lines(), view, { crs: 'EPSG:3857' })).toThrow(/web Mercator/);
  });

  test('what lies so far off that a UTM zone does not lead back to it is left out, not drawn somewhere', () => {
    const write = pen();
    const stake = { stake: id.stakeA, label: 'far', position: { how: 'fix', lat: '7.1', lon: '-175.3' } };
    const made = toGeoJson(layer('stakes'), viewOf(fold([write('stake-set', stake)])), { crs: 'EPSG:32617' });
    expect(made.collection.features).toEqual([]);
    expect(made.leftOut).toMatchObject([
      { label: 'far', why: expect.stringMatching(/too far away for EPSG:32617/) as string },
    ]);
  });

  test('the tree head that was handed over is in the file', () => {
    expect(toGeoJson(lines(), view, { head: '41:ab12' }).collection.head).toBe('41:ab12');
  });

  test('a layer that does not exist is not found', () => {
    expect(layerNamed('trees')).toBeUndefined();
  });
});
