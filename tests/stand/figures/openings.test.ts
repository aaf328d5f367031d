/**
 * Openings in six ways side by side, against each other and the block; strips along a stream; sun at a sapling.
 * Areas: octagon of 10 m 282.843 m², ellipse of 20 by 14 m 219.911 m² (geometry). Strip: 27 % -> 84 ft on the slope
 * (Minnesota filter strip guide, seen at docsbay.net/filter-strip-width-guide).
 */
import { describe, expect, test } from 'vitest';
import type { EventType, JsonObject } from '../../../src/events/index.ts';
import { readFigures } from '../../../src/record/index.ts';
import { sheetOf } from '../../../src/reports/index.ts';
import {
  bufferFigures,
  figuresJson,
  fold,
  lineFigures,
  type OpeningMeasure,
  openingFigures,
  sunFigures,
} from '../../../src/stand/index.ts';
import { pen, uuid } from '../entries.ts';

const block = uuid(0xb1);
const [one, two, far] = [uuid(0x61), uuid(0x62), uuid(0x63)];
const metres = (value: string) => ({ text: `${value} m`, value, unit: 'm' });
const feet = (value: string) => ({ text: `${value} ft`, value, unit: 'ft' });
const azimuth = (value: number) => ({ text: `${value} true`, value: String(value), reference: 'true' });
/** Metres on the grid of UTM zone 17, on its central meridian where the scale is 0.9996. */
const grid = (east: number, north: number, accuracy = '1') => ({
  how: 'grid',
  crs: 'EPSG:32617',
  easting: String(500_000 + east),
  northing: String(3_950_000 + north),
  accuracy: metres(accuracy),
});
const box = (west: number, south: number, width: number, height: number) => [
  grid(west, south),
  grid(west, south + height),
  grid(west + width, south + height),
  grid(west + width, south),
];

type Line = readonly [EventType, JsonObject, { happenedAt: { at: string; precision: 'day' } }?];
const on = (day: string) => ({ happenedAt: { at: `${day}T12:00:00-05:00`, precision: 'day' as const } });
const woods: Line[] = [
  ['logbook-opened', { name: 'Test woods', zone: 'America/New_York', units: 'metric', crs: 'EPSG:32617' }],
  [
    'block-laid-out',
    { block, name: 'North cove', boundary: box(-50, -50, 200, 100), boundaryFrom: 'surveyed' },
  ],
  [
    'group-laid-out',
    {
      group: one,
      label: 'G1',
      block,
      center: grid(0, 0),
      plannedArea: { text: '250 m2', value: '250', unit: 'm2' },
    },
  ],
  ['group-laid-out', { group: two, label: 'G2', block }],
  ['group-laid-out', { group: far, label: 'G3', block }],
];
const cut = (group: string, number: number, day: string): Line[] => [
  ['stem-marked', { stem: uuid(number), mark: 'cut', group, position: grid(3, 3) }, on(day)],
  ['stem-felled', { stem: uuid(number), came: 'down' }, on(day)],
];
const spokes: Line = [
  'opening-measured',
  {
    group: one,
    method: 'spokes',
    // In no order: they go round the centre all the same.
    spokes: [0, 180, 45, 225, 90, 270, 135, 315].map((value) => ({
      azimuth: azimuth(value),
      distance: metres('10'),
    })),
    edgeHeight: metres('20'),
  },
];
const diameters: Line = [
  'opening-measured',
  {
    group: one,
    method: 'two-diameters',
    longest: metres('20'),
    longestAzimuth: azimuth(30),
    across: metres('14'),
  },
];
const edgeStems = [0, 1, 2, 3].map((number) => uuid(0x70 + number));
const edgeTrees: Line[] = [
  ...box(-10, -10, 20, 20).map(
    (position, number): Line => [
      'stem-marked',
      { stem: edgeStems[number] ?? '', mark: 'leave', tag: `E${number}`, position },
    ],
  ),
  ['opening-measured', { group: one, method: 'edge-trees', edgeTrees: edgeStems.map((stem) => ({ stem })) }],
  [
    'opening-measured',
    {
      group: one,
      method: 'crown-edge',
      edgeTrees: edgeStems.map((stem) => ({ stem, crown: metres('1.41421356') })),
    },
  ],
];
const walked = (group: string, edge: JsonObject[]): Line => [
  'opening-measured',
  { group, method: 'walked-edge', edge },
];

function foldOf(...lines: readonly Line[]) {
  const write = pen();
  return fold([...woods, ...lines].map(([type, body, when]) => write(type, body, when)));
}

const asked = { system: 'metric', period: 10 } as const;

describe('one opening', () => {
  const folded = foldOf(...cut(one, 0x51, '2026-03-01'), spokes, diameters, ...edgeTrees);
  const [row] = openingFigures(folded, asked).rows;
  const by = (method: string) => row?.measures.find((measure) => measure.method === method) as OpeningMeasure;

  test.each([
    ['spokes', 282.843],
    ['two diameters', 219.911],
    ['edge trees', 400 / 0.9996 ** 2],
    ['crown edge', 324 / 0.9996 ** 2],
  ])('by %s has %d m² of ground', (method, ground) => {
    // By coordinates on the grid areas are smaller by its scale, squared.
    expect(by(method).area.m2).toBeCloseTo(ground * 0.9996 ** 2, 1);
  });

  test('says why a way gave nothing', () => {
    expect(row?.measures.at(-1)).toMatchObject({
      method: 'hull of stumps',
      why: expect.stringMatching(/a hull needs at least 3 stumps/) as string,
    });
  });

  test('has an error for its area: 1 m at each corner of a square of 20 m makes 20 √2 m²', () => {
    expect(by('edge trees').standardError).toBeCloseTo(20 * Math.SQRT2, 1);
    // Compass and tape from the centre, whose own error moves the opening and changes no area.
    expect(by('spokes').standardError).toBeLessThan(10);
  });

  test('is held against its plan by the first way that has an area: 282.8 of 250 m²', () => {
    expect(row?.ofPlanned).toBeCloseTo(113.1, 0);
  });

  test('is about as wide as its edge trees are high', () => {
    expect(row?.form?.length).toBeCloseTo(20, 1);
    expect(row?.widthInHeights).toBeCloseTo(1, 1);
  });

  test('has an area without a place where nobody recorded its centre', () => {
    const nowhere = foldOf(...cut(two, 0x52, '2026-03-01'), [spokes[0], { ...spokes[1], group: two }]);
    const measure = openingFigures(nowhere, asked).rows[0]?.measures[0];
    expect(measure).toMatchObject({ method: 'spokes', unplaced: expect.stringMatching(/centre/) as string });
    expect((measure as OpeningMeasure).area.m2).toBeCloseTo(282.843, 1);
  });
});

describe('several openings', () => {
  const folded = foldOf(
    ...cut(one, 0x51, '2014-03-01'),
    walked(one, box(0, 0, 20, 20)),
    ...cut(two, 0x52, '2020-03-01'),
    walked(two, box(15, 0, 20, 20)),
    ...cut(far, 0x53, '2026-03-01'),
    walked(far, box(80, 0, 10, 10)),
  );
  const { rows, blocks } = openingFigures(folded, asked);

  test('that overlap count as one, and what they share counts once', () => {
    expect(rows[0]).toMatchObject({ label: 'G1', touches: ['G2'] });
    expect(rows[0]?.together?.m2).toBeCloseTo(700, 1);
    expect(rows[2]?.touches).toEqual([]);
  });

  test('know the nearest other one, edge to edge on the ground', () => {
    expect(rows[2]?.nearest?.label).toBe('G2');
    expect(rows[2]?.nearest?.metres).toBeCloseTo(45 / 0.9996, 1);
  });

  test('open so much of the block in each year, and over ten years', () => {
    // The block has 20,000 m²; 400, then 300 more, then 100.
    const [opened] = blocks;
    expect(opened?.opened).toBeCloseTo(4, 3);
    expect(opened?.years.map(({ year }) => year)).toEqual([2014, 2020, 2026]);
    expect(opened?.years.map(({ percent }) => Number(percent?.toFixed(3)))).toEqual([2, 1.5, 0.5]);
    // 2026 back to 2017 leaves 2014 out.
    expect(opened?.years.map(({ rolling }) => Number(rolling?.toFixed(3)))).toEqual([2, 3.5, 2]);
  });

  test('tell how far the stream is, from its bank', () => {
    const mapped = foldOf(...cut(far, 0x53, '2026-03-01'), walked(far, box(80, 0, 10, 10)), [
      'feature-mapped',
      {
        feature: uuid(0xf1),
        label: 'Laurel Run',
        what: 'stream',
        line: [grid(0, -20), grid(150, -20)],
        width: metres('2'),
      },
    ]);
    expect(openingFigures(mapped, asked).rows[0]?.features[0]).toMatchObject({
      label: 'Laurel Run',
      what: 'stream',
    });
    expect(openingFigures(mapped, asked).rows[0]?.features[0]?.metres).toBeCloseTo(20 / 0.9996 - 1, 2);
  });
});

describe('strips along a stream', () => {
  const stream = (more: JsonObject): Line => [
    'feature-mapped',
    { feature: uuid(0xf1), label: 'Laurel Run', what: 'stream', line: [grid(0, 0), grid(200, 0)], ...more },
  ];
  const percent = (value: string) => ({ text: `${value} %`, value, unit: '%' });
  const at = (number: number, north: number): Line => [
    'stem-marked',
    { stem: uuid(number), mark: 'cut', tag: `S${number}`, position: grid(50, north) },
  ];
  const foot = 0.3048;
  const rule = { base: 50 * foot, perPercent: 2 * foot, above: 10 };

  test('are by the steepest slope that was read, 84 ft along 27 %', () => {
    const folded = foldOf(
      stream({ sideSlopes: [percent('12'), percent('27')] }),
      at(1, 10),
      at(2, 25),
      at(3, 60),
    );
    const [row] = bufferFigures(folded, { rule, along: 'slope' }).rows;
    expect(row?.slope).toBe(27);
    expect((row?.width ?? 0) / foot).toBeCloseTo(84 / Math.hypot(1, 0.27), 6);
    expect(row?.stems.map(({ label, answer }) => [label, answer])).toEqual([
      ['S1', 'in'],
      ['S2', 'doubtful'],
    ]);
    expect(row?.out).toBe(1);
  });

  test('are not told where the slope is needed and was not read', () => {
    const [row] = bufferFigures(foldOf(stream({})), { rule, along: 'slope' }).rows;
    expect(row).toMatchObject({
      width: null,
      missing: expect.stringMatching(/no slope was entered/) as string,
    });
    expect(bufferFigures(foldOf(stream({})), { rule: { base: 30 }, along: 'level' }).rows[0]?.width).toBe(30);
  });

  test('can be asked for by what the feature is, or by its name', () => {
    const folded = foldOf(stream({}));
    const told = (feature: string) =>
      bufferFigures(folded, { rule: { base: 30 }, along: 'level', feature }).rows.length;
    expect([told('stream'), told('laurel run'), told('road')]).toEqual([1, 1, 0]);
  });
});

describe('sun', () => {
  const sapling: Line = [
    'sapling-protected',
    { sapling: uuid(0x71), label: 's1', group: one, position: grid(0, 8) },
  ];
  const outside: Line = [
    'sapling-protected',
    { sapling: uuid(0x72), label: 's2', group: one, position: grid(0, 40) },
  ];
  const folded = foldOf(...cut(one, 0x51, '2026-03-01'), spokes, sapling, outside);
  const group = folded.stand.groups.get(one);
  if (group === undefined) throw new Error('no group');
  const figures = sunFigures(folded, group, 2026);

  test('reaches the north side longer than the centre, none before the cut, and nothing is told of what lies outside', () => {
    const [centre, north, away] = figures.rows;
    expect(centre?.before).toEqual(Array.from({ length: 12 }, () => 0));
    // At the equinox the sun stands at 54° at noon: over trees of 20 m that are 18 m away, not over those at 10 m.
    expect(north?.after[8] ?? 0).toBeGreaterThan(0);
    expect(centre?.after[8]).toBe(0);
    expect(centre?.after[5] ?? 0).toBeGreaterThan(2);
    expect(centre?.after[11]).toBe(0);
    expect(away?.missing).toMatch(/does not lie in the opening/);
  });

  test('needs to know how high the trees are', () => {
    const without = foldOf(...cut(two, 0x52, '2026-03-01'), walked(two, box(0, 0, 20, 20)));
    const bare = without.stand.groups.get(two);
    expect(bare && sunFigures(without, bare, 2026).missing).toMatch(
      /how high the trees round the opening are/,
    );
  });
});

describe('asked for in words', () => {
  const folded = foldOf(...cut(one, 0x51, '2026-03-01'), spokes, diameters, [
    'feature-mapped',
    {
      feature: uuid(0xf1),
      label: 'Laurel Run',
      what: 'stream',
      line: [grid(0, 20), grid(200, 20)],
      width: feet('6'),
    },
  ]);
  const now = '2026-11-25T12:00:00Z';

  test.each([
    ['openings', { period: '5 years' }, /two diameters/],
    ['lines', {}, /surely inside/],
    // 1 ft is 0.3048 m (NIST SP 811, appendix B.8): 50 ft are 15.24 m, 20 m are 65.6 ft.
    ['buffers', { width: '50 ft', feature: 'stream' }, /Strips of 15\.2 m, .*Width, level, m/],
    ['buffers', { width: '50 ft', units: 'us' }, /Strips of 50\.0 ft, .*Width, level, ft/],
    ['sun', { group: 'G1' }, /trees of 20\.0 m round it.*open sky/],
    ['sun', { group: 'G1', units: 'us' }, /trees of 66 ft round it/],
    ['moved', { sinceSize: '0' }, /Nothing moved/],
  ] as const)('%s give a sheet and JSON', (what, typed, words) => {
    const read = readFigures(what, folded, typed, now);
    if (!read.ok) throw new Error(read.remedy);
    expect(JSON.stringify(sheetOf(read.value))).toMatch(words);
    expect(figuresJson(read.value, folded)).toMatchObject({ what });
  });

  test.each([
    ['buffers', {}, 'width', /how wide/],
    ['buffers', { width: '50' }, 'width', /unit/],
    ['buffers', { width: '50 ft', above: '10 %' }, 'above', /per percent/],
    ['buffers', { width: '50 ft', along: 'uphill' }, 'along', /level or slope/],
    ['openings', { period: 'ten' }, 'period', /number of years/],
    ['sun', {}, 'group', /opening/],
  ] as const)('%s %j: %s is refused with a remedy', (what, typed, field, remedy) => {
    expect(readFigures(what, folded, typed, now)).toMatchObject({
      ok: false,
      field,
      remedy: expect.stringMatching(remedy) as string,
    });
  });

  test('trees at lines are told of all blocks, or of one', () => {
    expect(lineFigures(folded).rows).toEqual([]);
    expect(lineFigures(folded, block).inside).toBe(1);
  });
});
