/** Places as they are read out: carrying over, signs, poles; PROJ as the outside judge over random places. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { decimalDegrees, degreesMinutes, PlaceError, utmText } from '../../src/place/index.ts';
import { needs } from '../needs.ts';

describe('rounding carries over', () => {
  test.each([
    [{ lat: 44 + 59.9996 / 60, lon: -(71 + 59.9996 / 60) }, "45° 0.000' N, 72° 0.000' W"],
    [{ lat: 44 + 59.9994 / 60, lon: -(71 + 59.9994 / 60) }, "44° 59.999' N, 71° 59.999' W"],
    [{ lat: 89.9999999, lon: 179.9999999 }, "90° 0.000' N, 180° 0.000' E"],
    [{ lat: 10 + 9.9996 / 60, lon: 0 }, "10° 10.000' N, 0° 0.000' E"],
  ])('%o in minutes', (at, text) => {
    expect(degreesMinutes(at)).toBe(text);
  });

  test('in decimal degrees too', () => {
    expect(decimalDegrees({ lat: 44.9999996, lon: -9.9999996 })).toBe('45.00000° N, 10.00000° W');
    expect(decimalDegrees({ lat: 0.00009, lon: 5 })).toBe('0.00009° N, 5.00000° E');
  });
});

describe('hemispheres', () => {
  test('south and west are letters, never a minus', () => {
    expect(decimalDegrees({ lat: -33.86882, lon: 151.20929 })).toBe('33.86882° S, 151.20929° E');
    expect(degreesMinutes({ lat: -33.5, lon: -70.25 })).toBe("33° 30.000' S, 70° 15.000' W");
    // PROJ 9, cs2cs to +proj=utm +zone=19 +south: 383889.65 6292581.65
    expect(utmText({ lat: -33.5, lon: -70.25 })).toBe('zone 19 south, 383890 m E, 6292582 m N');
  });

  test('what rounds to zero has no side: north and east', () => {
    expect(decimalDegrees({ lat: -0.0000001, lon: -0 })).toBe('0.00000° N, 0.00000° E');
    expect(degreesMinutes({ lat: -0.0000001, lon: -0.0000001 })).toBe("0° 0.000' N, 0° 0.000' E");
  });

  test('the poles have no UTM, and are written in degrees', () => {
    expect(decimalDegrees({ lat: -90, lon: 0 })).toBe('90.00000° S, 0.00000° E');
    expect(degreesMinutes({ lat: 90, lon: -180 })).toBe("90° 0.000' N, 180° 0.000' W");
    expect(utmText({ lat: 90, lon: 0 })).toBeUndefined();
    expect(utmText({ lat: -80.1, lon: 0 })).toBeUndefined();
  });
});

test.each([
  { lat: 90.1, lon: 0 },
  { lat: 0, lon: -180.1 },
  { lat: Number.NaN, lon: 0 },
])('%o is refused by field, value and remedy', (at) => {
  for (const write of [decimalDegrees, degreesMinutes, utmText]) expect(() => write(at)).toThrow(PlaceError);
});

/** Spread evenly over the earth by two irrational steps, as far as UTM goes. */
const places = Array.from({ length: 200 }, (_, index) => ({
  lat: -79.9 + ((index * 0.618_033_988_75) % 1) * 163.8,
  lon: -179.99 + ((index * 0.754_877_666_25) % 1) * 359.98,
}));

/** Half of the last place, and a hair for the figures that PROJ rounds. */
const half = { degrees: 0.000_005_01, minutes: 0.000_51, metres: 0.51 };

describe.skipIf(!needs('cs2cs'))('PROJ agrees', () => {
  test('on degrees, minutes and hemispheres of 200 places', () => {
    const judged = cs2cs('EPSG:4326', 'EPSG:4326', ['-w6']);
    expect(judged).toHaveLength(places.length);
    for (const [index, line] of judged.entries()) {
      const at = places[index] ?? { lat: 0, lon: 0 };
      const theirs = [...line.matchAll(/(\d+)d(?:(\d+)'(?:([\d.]+)")?)?([NSEW])/g)].slice(0, 2);
      const minutes = [...degreesMinutes(at).matchAll(/(\d+)° ([\d.]+)' ([NSEW])/g)];
      const decimals = [...decimalDegrees(at).matchAll(/([\d.]+)° ([NSEW])/g)];
      expect([theirs.length, minutes.length, decimals.length]).toEqual([2, 2, 2]);
      for (const [axis, [, d, m = '0', s = '0', letter]] of theirs.entries()) {
        const total = Number(d) * 60 + Number(m) + Number(s) / 60;
        const [, ourDegrees, ourMinutes, ourLetter] = minutes[axis] ?? [];
        expect(ourLetter).toBe(letter);
        expect(Number(ourMinutes)).toBeLessThan(60);
        expect(Math.abs(Number(ourDegrees) * 60 + Number(ourMinutes) - total)).toBeLessThan(half.minutes);
        expect(decimals[axis]?.[2]).toBe(letter);
        expect(Math.abs(Number(decimals[axis]?.[1]) - total / 60)).toBeLessThan(half.degrees);
      }
    }
  });

  test('on UTM of 200 places', () => {
    const zones = new Map<string, { lat: number; lon: number }[]>();
    for (const at of places) {
      const [, zone = '', hemisphere] = /^zone (\d+) (\w+)/.exec(utmText(at) ?? '') ?? [];
      const code = `EPSG:32${hemisphere === 'north' ? 6 : 7}${zone.padStart(2, '0')}`;
      zones.set(code, [...(zones.get(code) ?? []), at]);
    }
    expect(zones.size).toBeGreaterThan(40);
    for (const [code, group] of zones) {
      for (const [index, line] of cs2cs('EPSG:4326', code, ['-f', '%.3f'], group).entries()) {
        const [x, y] = line.split(/\s+/).map(Number);
        const [, east, north] =
          /, (\d+) m E, (\d+) m N$/.exec(utmText(group[index] ?? { lat: 0, lon: 0 }) ?? '') ?? [];
        expect(Math.abs(Number(east) - (x ?? Number.NaN)), code).toBeLessThan(half.metres);
        expect(Math.abs(Number(north) - (y ?? Number.NaN)), code).toBeLessThan(half.metres);
      }
    }
  });
});

function cs2cs(from: string, to: string, flags: readonly string[], group: typeof places = places): string[] {
  const input = group.map(({ lat, lon }) => `${lat} ${lon}`).join('\n');
  const { stdout, status } = spawnSync('cs2cs', [...flags, from, to], { input, encoding: 'utf8' });
  expect(status).toBe(0);
  return stdout.trim().split('\n');
}
