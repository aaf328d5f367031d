/**
 * PROJ as the outside judge of projecting: 1,000 points for each family of shipped systems, in up to six of its systems; with
 * EVERY_SYSTEM=yes in all 648, which takes two minutes.
 *
 * PROJ is asked for the step from longitude and latitude on a system's own datum, so that it does nothing but project, as
 * we do. Asked from WGS 84 it does the same on this machine for all these datums, for their shift is null or it has none
 * (`ignores the shift` below): both agree to the millimetre there because both leave the same one or two metres out, which
 * `CrsInfo.note` says and the standard error carries (`tests/place/resolve.test.ts`).
 */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import {
  type CrsInfo,
  crs,
  distanceAndAzimuth,
  gridConvergence,
  type LonLat,
  listCrs,
  project,
  unproject,
  whyNotCrs,
} from '../../src/place/index.ts';
import { needs } from '../needs.ts';

/** The geographic system on the same datum, so that PROJ too does nothing but project. */
const GEOGRAPHIC: Readonly<Record<string, number>> = {
  'WGS 84': 4326,
  NAD83: 4269,
  'NAD83(2011)': 6318,
  ETRS89: 4258,
  'RGF93 v1': 4171,
  SWEREF99: 4619,
  GDA2020: 7844,
  NZGD2000: 4167,
};

const UNITS = { m: 'metres', ft: 'international feet', 'us-ft': 'US survey feet' } as const;

/** The shipped systems by kind, datum and unit. */
const FAMILIES = new Map<string, CrsInfo[]>();
for (const info of listCrs()) {
  const family = `${info.kind === 'national' ? info.code : info.kind}, ${info.datum}, ${UNITS[info.unit]}`;
  FAMILIES.set(family, [...(FAMILIES.get(family) ?? []), info]);
}

/** Points of each family, shared out among so many of its systems: PROJ takes a tenth of a second to start. */
const POINTS = 1000;
const SYSTEMS = process.env.EVERY_SYSTEM === 'yes' ? 1000 : 6;
const TOLERANCE = { m: 0.001, ft: 0.003, 'us-ft': 0.003 } as const;

describe.skipIf(!needs('cs2cs', 'proj'))('PROJ agrees', () => {
  test.each([...FAMILIES])('on %s: 1,000 points there and back', (_family, systems) => {
    const chosen = spread(systems);
    const share = Math.ceil(POINTS / chosen.length);
    const asked = chosen.map((info) => ({ info, points: randomPoints(info, share) }));
    const answers = cs2cs(asked.map(({ info, points }) => ({ ...onItsDatum(info), points })));
    for (const [position, { info, points }] of asked.entries()) judge(info, points, answers[position] ?? []);
    expect(share * chosen.length).toBeGreaterThanOrEqual(POINTS);
  });

  test('PROJ ignores the shift from WGS 84 too, and to OSGB36 it does not: that grid is refused here', () => {
    const first = [...new Map(listCrs().map((info) => [info.datum, info])).values()];
    const asked = first.map((info) => ({ ...onItsDatum(info), points: randomPoints(info, 5) }));
    const own = cs2cs(asked);
    const shifted = cs2cs(asked.map((one) => ({ ...one, from: 4326 })));
    for (const [position, { to }] of asked.entries()) {
      for (const [index, point] of (own[position] ?? []).entries())
        expect(between(point, shifted[position]?.[index]), `EPSG:${to}`).toBeLessThan(0.001);
    }
    const points = [{ lat: 51.5, lon: -0.1 }];
    const [british, british84] = cs2cs([4277, 4326].map((from) => ({ from, to: 27700, points })));
    expect(between(british?.[0], british84?.[0])).toBeGreaterThan(50);
    expect(crs('EPSG:27700')).toBeUndefined();
    expect(whyNotCrs('EPSG:27700')).toContain('OSGB36');
  });

  // proj -V prints the convergence of a plain definition; these are EPSG's parameters of three shipped systems.
  test.each([
    [2264, '+proj=lcc +lat_0=33.75 +lon_0=-79 +lat_1=36.1666666666667 +lat_2=34.3333333333333 +ellps=GRS80'],
    [26919, '+proj=utm +zone=19 +ellps=GRS80'],
    [2193, '+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +ellps=GRS80'],
  ])('the grid convergence of EPSG:%d', (number, definition) => {
    for (const at of randomPoints(shipped(number), 8)) {
      const printed = run('proj', ['-V', ...definition.split(' ')], `${at.lon} ${at.lat}\n`);
      const judged = Number(/Convergence : .*\[ (\S+) \]/.exec(printed)?.[1]);
      expect(Math.abs(gridConvergence(`EPSG:${number}`, at) - judged), `${at.lat}, ${at.lon}`).toBeLessThan(
        1e-6,
      );
    }
  });
});

/** The first, the last and what lies evenly between them. */
function spread(systems: readonly CrsInfo[]): readonly CrsInfo[] {
  const count = Math.min(SYSTEMS, systems.length);
  const step = count === 1 ? 0 : (systems.length - 1) / (count - 1);
  return Array.from({ length: count }, (_, index) => systems[Math.round(index * step)]).flatMap(
    (info) => info ?? [],
  );
}

type Point = readonly number[];

/** Our coordinates against PROJ's, and its coordinates taken back by us. */
function judge(info: CrsInfo, points: readonly LonLat[], judged: readonly Point[]): void {
  expect(judged, info.code).toHaveLength(points.length);
  for (const [position, at] of points.entries()) {
    const [x = Number.NaN, y = Number.NaN] = judged[position] ?? [];
    const ours = project(info.code, at);
    const off = between([ours.x, ours.y], [x, y]);
    const back = distanceAndAzimuth(unproject(info.code, { x, y }), at).metres;
    if (!(off <= TOLERANCE[info.unit] && back <= 0.001)) {
      expect.fail(
        `${info.code} at ${at.lat}, ${at.lon}: ${ours.x}, ${ours.y} against ${x}, ${y}; back ${back} m off`,
      );
    }
  }
}

function between(
  [x = Number.NaN, y = Number.NaN]: Point = [],
  [east = Number.NaN, north = Number.NaN]: Point = [],
) {
  return Math.hypot(east - x, north - y);
}

function onItsDatum({ datum, code }: CrsInfo): { from: number; to: number } {
  return { from: GEOGRAPHIC[datum] ?? Number.NaN, to: Number(code.slice(5)) };
}

function shipped(number: number): CrsInfo {
  const info = crs(`EPSG:${number}`);
  if (info === undefined) throw new Error(`EPSG:${number} is not shipped.`);
  return info;
}

/** Points spread over a system's area of use, the same in every run. */
function randomPoints({ code, bounds }: CrsInfo, count: number): readonly LonLat[] {
  const { west, south, east, north } = bounds;
  const width = (east - west + 360) % 360;
  const random = seeded(Number(code.slice(5)));
  return Array.from({ length: count }, () => {
    const lon = west + random() * width;
    return {
      lon: Number((lon > 180 ? lon - 360 : lon).toFixed(9)),
      lat: Number((south + random() * (north - south)).toFixed(9)),
    };
  });
}

/** A linear congruential generator (constants of Numerical Recipes, from memory): enough to scatter points. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

type Asked = Readonly<{ from: number; to: number; points: readonly LonLat[] }>;

/**
 * PROJ's coordinates for each that was asked, all by one shell: starting hundreds of programs from here takes minutes.
 * `+init` asks PROJ for longitude before latitude and easting before northing, whatever the authority's order.
 */
function cs2cs(asked: readonly Asked[]): readonly (readonly Point[])[] {
  const script = asked.map(({ from, to, points }) => {
    const input = points.map(({ lon, lat }) => `${lon} ${lat}\n`).join('');
    return `cs2cs -f %.6f +init=epsg:${from} +to +init=epsg:${to} <<END || exit 1\n${input}END\necho\n`;
  });
  const output = run('sh', [], script.join(''));
  return output
    .split('\n\n')
    .slice(0, asked.length)
    .map((lines) => lines.split('\n').map((line) => line.split(/\s+/).map(Number)));
}

function run(command: string, parameters: readonly string[], input: string): string {
  const { stdout, stderr, status } = spawnSync(command, parameters, { input, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${command} ${parameters.join(' ')}: ${stderr}`);
  return stdout;
}
