/**
 * Solar position against the worked example of NREL's SPA (Reda and Andreas 2004, NREL/TP-560-34302), as quoted in the tests
 * of pvlib: 17 October 2003, 12:30:30, UTC-7, 39.742476 N, 105.1786 W: elevation without refraction 39.872046°, azimuth
 * 194.340241°. Its topocentric elevation has the sun's parallax in it (0.0024° × cos elevation), which the Almanac's
 * low-precision formulas leave out; these are good to 0.01°. Sunrise and transit of Golden, Colorado, from the same tests.
 *
 * What is published as the sunset of a day there is the one that falls into the same UT day. West of Greenwich in summer that is
 * the evening before: 19:13:58 MST, listed with 2 August 2015, is the sunset of 1 August, a minute later than that of the 2nd
 * would be. The report's own example does the same (sunset 17:20:19.19 with 17 October 2003, that is 00:20:19 UT of the 17th,
 * the evening of the 16th). Its seconds are partly from memory, and one text that quotes it calls that evening the next day's, so
 * that reading is doubtful. Both hold here for those evenings, to a second, and not for the days they are listed with.
 * Noon shadows of a 20 m tree at 44° N: computed from declination, no refraction.
 */
import { describe, expect, test } from 'vitest';
import { destination, horizonOf, hoursOfSun, sunPosition } from '../../src/place/index.ts';

const golden = { lon: -105.1786, lat: 39.742476 };

describe('where the sun stands', () => {
  test('in the worked example of the SPA, to 0.01°', () => {
    const { elevation, azimuth } = sunPosition(Date.parse('2003-10-17T12:30:30-07:00'), golden);
    expect(Math.abs(elevation - 39.872046)).toBeLessThan(0.01);
    expect(Math.abs(azimuth - 194.340241)).toBeLessThan(0.01);
  });

  test('a day later: azimuth 194.311132°, zenith with refraction 50.478260°', () => {
    const { elevation, azimuth } = sunPosition(Date.parse('2003-10-18T12:30:30-07:00'), golden);
    expect(Math.abs(azimuth - 194.311132)).toBeLessThan(0.01);
    // Refraction at that height is 0.0163° in the example of the day before (39.888378 - 39.872046).
    expect(Math.abs(elevation + 0.0163 - (90 - 50.47826))).toBeLessThan(0.01);
  });

  test.each([['2015-01-02T12:04:45-07:00'], ['2015-08-02T12:06:58-07:00']])(
    'at transit in Golden, %s, due south to 0.05°',
    (time) => {
      expect(Math.abs(sunPosition(Date.parse(time), golden).azimuth - 180)).toBeLessThan(0.05);
    },
  );

  const onHorizon = (time: string) => sunPosition(Date.parse(time), golden).elevation + 0.8333;

  test.each([
    ['2015-01-02T07:21:55-07:00'],
    ['2015-01-02T16:47:43-07:00'],
    ['2015-08-02T05:00:27-07:00'],
    // Listed with the day after: see above.
    ['2015-08-01T19:13:58-07:00'],
    ['2003-10-17T06:12:43-07:00'],
    ['2003-10-16T17:20:19-07:00'],
  ])(
    'at sunrise and sunset, %s, 0.8333° under the horizon (0.5667° refraction and the radius of the disc)',
    (time) => {
      // The sun sinks by 0.003° a second here; 0.01° is what the formulas are good to.
      expect(Math.abs(onHorizon(time))).toBeLessThan(0.01);
    },
  );

  test.each([['2015-08-02T19:13:58-07:00'], ['2003-10-17T17:20:19-07:00']])(
    'at %s it has set more than half a minute before',
    (time) => {
      expect(onHorizon(time)).toBeLessThan(-0.1);
    },
  );
});

describe('the noon shadow of a tree of 20 m at 44° N', () => {
  const at = { lon: 0, lat: 44 };
  const highest = (day: string) => {
    const noon = Date.parse(`${day}T12:00:00Z`);
    const minutes = Array.from({ length: 121 }, (_, index) => noon + (index - 60) * 30_000);
    return Math.max(...minutes.map((instant) => sunPosition(instant, at).elevation));
  };

  test.each([
    ['2026-06-21', 69.44, 7.5],
    ['2026-12-21', 22.56, 48.14],
  ])('on %s: sun at %d°, shadow %d m', (day, altitude, shadow) => {
    expect(highest(day)).toBeCloseTo(altitude, 1);
    expect(20 / Math.tan((highest(day) * Math.PI) / 180)).toBeCloseTo(shadow, 1);
  });

  test('near the equinox 19.31 m, to the 0.4 degrees a day that the sun climbs then', () => {
    expect(Math.abs(20 / Math.tan((highest('2026-03-20') * Math.PI) / 180) - 19.31)).toBeLessThan(0.15);
  });
});

describe('hours of direct sun', () => {
  const centre = { lon: 0, lat: 44 };
  const round = (metres: number) =>
    Array.from({ length: 72 }, (_, index) => destination(centre, index * 5, metres));
  const june = Date.parse('2026-06-21T12:00:00Z');

  test('at the equator near the equinox twelve, at 44° N in June between 15 and 15.5', () => {
    // Geometric sunrise at latitude φ and declination δ: cos H = -tan φ tan δ; φ = 44°, δ = 23.44° give 15.27 h.
    expect(Math.abs(hoursOfSun(Date.parse('2026-03-20T12:00:00Z'), { lon: 0, lat: 0 }) - 12)).toBeLessThan(
      0.07,
    );
    expect(Math.abs(hoursOfSun(june, centre) - 15.27)).toBeLessThan(0.1);
  });

  test('trees as high as the opening is wide to either side: sun above 45° only', () => {
    // cos H = (sin 45° - sin φ sin δ) / (cos φ cos δ): H = 49.9°, so 6.65 hours.
    const horizon = horizonOf(centre, { ring: round(20), height: 20 });
    expect(horizon(123)).toBeCloseTo(45, 1);
    const [latitude, tilt] = [(44 * Math.PI) / 180, (23.44 * Math.PI) / 180];
    const cosine =
      (Math.SQRT1_2 - Math.sin(latitude) * Math.sin(tilt)) / (Math.cos(latitude) * Math.cos(tilt));
    const hours = (2 * Math.acos(cosine) * 180) / Math.PI / 15;
    expect(Math.abs(hoursOfSun(june, centre, horizon) - hours)).toBeLessThan(0.1);
  });

  test('a gap of 1,000 m² gets less than four hours (Canham et al. 1990, Can. J. For. Res. 20, abstract)', () => {
    // Their gaps lie under old canopies; here one of 25 m of height at 44° N, a circle of 1,000 m².
    const horizon = horizonOf(centre, { ring: round(Math.sqrt(1000 / Math.PI)), height: 25 });
    expect(hoursOfSun(june, centre, horizon)).toBeLessThan(5);
    expect(hoursOfSun(Date.parse('2026-08-21T12:00:00Z'), centre, horizon)).toBeLessThan(4);
  });

  test('the north side of an opening gets more than the south side, and outside of it there is none', () => {
    const surround = { ring: round(20), height: 20 };
    const [north, south] = [destination(centre, 0, 15), destination(centre, 180, 15)];
    const sun = (at: typeof centre) => hoursOfSun(june, at, horizonOf(at, surround));
    expect(sun(north)).toBeGreaterThan(sun(south));
    const outside = destination(centre, 180, 40);
    expect(sun(outside)).toBe(0);
  });
});
