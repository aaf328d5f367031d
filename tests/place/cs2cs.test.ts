/** PROJ as the outside judge of projecting, over a spread of codes of every shipped family and unit. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { crs, gridConvergence, type LonLat, project, unproject } from '../../src/place/index.ts';
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

const FAMILIES: Readonly<Record<string, readonly number[]>> = {
  'UTM, WGS 84': [32601, 32617, 32619, 32633, 32660, 32718, 32755],
  'UTM, NAD83 and NAD83(2011)': [26910, 26917, 26919, 6339, 6346],
  'State Plane in metres, Lambert and Mercator': [26985, 32119, 26983, 32110, 26931, 6542],
  'State Plane in US survey feet': [2264, 2248, 2225, 2260, 3437, 5646, 26847, 6543, 6538],
  'State Plane in international feet': [2251, 2273, 2256, 2269, 2222, 6495],
  'ETRS89 / UTM': [25828, 25832, 25837],
  'national grids': [3035, 2154, 3006, 2193],
  MGA2020: [7850, 7855],
};

const POINTS = 25;
const TOLERANCE = { m: 0.001, ft: 0.003, 'us-ft': 0.003 } as const;

describe.skipIf(!needs('cs2cs', 'proj'))('PROJ agrees', () => {
  describe.each(Object.entries(FAMILIES))('%s', (_family, codes) => {
    test.each(codes)('EPSG:%d, there and back', (number) => {
      const info = shipped(number);
      const points = randomPoints(number);
      const judged = cs2cs(GEOGRAPHIC[info.datum] ?? Number.NaN, number, points);
      expect(judged).toHaveLength(points.length);
      for (const [position, at] of points.entries()) {
        const [x = Number.NaN, y = Number.NaN] = judged[position] ?? [];
        const ours = project(info.code, at);
        const where = `${at.lat}, ${at.lon}: ${ours.x}, ${ours.y} against ${x}, ${y}`;
        expect(Math.hypot(ours.x - x, ours.y - y), where).toBeLessThanOrEqual(TOLERANCE[info.unit]);
        const back = unproject(info.code, { x, y });
        expect(Math.abs(back.lat - at.lat), where).toBeLessThan(1e-8);
        expect(Math.abs(((back.lon - at.lon + 540) % 360) - 180), where).toBeLessThan(2e-8);
      }
    });
  });

  // proj -V prints the convergence of a plain definition; these are EPSG's parameters of three shipped systems.
  test.each([
    [2264, '+proj=lcc +lat_0=33.75 +lon_0=-79 +lat_1=36.1666666666667 +lat_2=34.3333333333333 +ellps=GRS80'],
    [26919, '+proj=utm +zone=19 +ellps=GRS80'],
    [2193, '+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +ellps=GRS80'],
  ])('the grid convergence of EPSG:%d', (number, definition) => {
    for (const at of randomPoints(number).slice(0, 8)) {
      const printed = run('proj', ['-V', ...definition.split(' ')], `${at.lon} ${at.lat}\n`);
      const judged = Number(/Convergence : .*\[ (\S+) \]/.exec(printed)?.[1]);
      expect(Math.abs(gridConvergence(`EPSG:${number}`, at) - judged), `${at.lat}, ${at.lon}`).toBeLessThan(
        1e-6,
      );
    }
  });
});

function shipped(number: number) {
  const info = crs(`EPSG:${number}`);
  if (info === undefined) throw new Error(`EPSG:${number} is not shipped.`);
  return info;
}

/** Points spread over a system's bounds, the same in every run. */
function randomPoints(number: number): readonly LonLat[] {
  const { west, south, east, north } = shipped(number).bounds;
  const width = (east - west + 360) % 360;
  const random = seeded(number);
  return Array.from({ length: POINTS }, () => {
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

/** `+init` asks PROJ for longitude before latitude and easting before northing, whatever the authority's order. */
function cs2cs(from: number, to: number, points: readonly LonLat[]): readonly (readonly number[])[] {
  const input = points.map(({ lon, lat }) => `${lon} ${lat}\n`).join('');
  const output = run('cs2cs', ['-f', '%.6f', `+init=epsg:${from}`, '+to', `+init=epsg:${to}`], input);
  return output
    .trim()
    .split('\n')
    .map((line) => line.split(/\s+/).map(Number));
}

function run(command: string, parameters: readonly string[], input: string): string {
  const { stdout, stderr, status } = spawnSync(command, parameters, { input, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${command} ${parameters.join(' ')}: ${stderr}`);
  return stdout;
}
