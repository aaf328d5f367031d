/** Published declinations, azimuth references and slope reductions. The source of every row stands beside it. */
import { describe, expect, test } from 'vitest';
import { horizontalDistance } from '../../src/measure/index.ts';
import { declinationAbove } from '../../src/place/declination.ts';
import type { Azimuth } from '../../src/place/index.ts';
import { declination, isUnresolved, toTrueAzimuth } from '../../src/place/index.ts';

/** The instant a decimal year of the model stands for: 365 days of noon to noon, as the published tables count them. */
function instant(year: number): string {
  const whole = Math.floor(year);
  return new Date(Date.UTC(whole) + (year - whole) * 365 * 86_400_000).toISOString();
}

describe('World Magnetic Model 2025', () => {
  // NOAA NCEI and BGS, WMM2025_TestValues (seen second-hand), 0 km; degrees, to 0.01.
  test.each([
    [2025, 80, 0, 1.28],
    [2025, 0, 120, -0.16],
    [2025, -80, -120, 68.78],
    [2027.5, 80, 0, 2.59],
    [2027.5, 0, 120, -0.24],
  ])('published: %d at %d, %d is %d°', (year, lat, lon, expected) => {
    expect(declinationOn(instant(year), lat, lon)).toBeCloseTo(expected, 2);
  });

  // The same publication, above ground.
  test.each([
    [2025, 100, 80, 0, 0.85],
    [2027.5, 100, -80, -120, 67.93],
    [2025, 28, 89, -121, -99.77],
    [2025, 48, 80, -96, -29.91],
    [2025.5, 6, -36, -137, 20.28],
    [2026.5, 12, 33, -145, 11.96],
    [2027, 44, -43, -111, 24.31],
    [2027.5, 8, 62, 53, 19.39],
    [2028.5, 28, 54, -120, 15.43],
    [2029.5, 31, 13, -132, 9.04],
  ])('published: %d at %d km, %d, %d is %d°', (year, kilometres, lat, lon, expected) => {
    expect(Math.abs(declinationOn(instant(year), lat, lon, kilometres) - expected)).toBeLessThan(0.0051);
  });

  // Computed by an independent synthesis from the published coefficients, which also gave the rows above.
  test.each([
    [44, -72, [-14.04, -13.92, -13.85, -13.69]],
    [45, -69, [-15.31, -15.15, -15.04, -14.83]],
    [46, -66, [-16.28, -16.09, -15.96, -15.7]],
    [43, -75, [-12.5, -12.42, -12.37, -12.27]],
    [46.5, -84, [-7.59, -7.55, -7.53, -7.49]],
  ])('woodlots at %d, %d', (lat, lon, expected) => {
    for (const [position, year] of [2025, 2026.5, 2027.5, 2029.5].entries()) {
      const difference = declinationOn(instant(year), lat, lon) - (expected[position] ?? Number.NaN);
      expect(Math.abs(difference), `${year}`).toBeLessThan(0.01);
    }
  });

  test('east and west are said in words', () => {
    expect(declination({ lat: 44, lon: -72 }, '2026-07-02')).toMatchObject({ words: '13.9° west' });
    expect(declination({ lat: 54, lon: -120 }, '2028-07-02')).toMatchObject({
      words: expect.stringMatching(/° east$/) as unknown,
    });
  });

  // Valid to 2030.0 (the model's own statement); the end itself still counts.
  test.each(['2014-12-31T23:59:59Z', '2030-01-01T00:00:01Z', '1998-05-05', '2031-06-01'])(
    'there is none for %s, and the reason asks for a value',
    (when) => {
      const why = `2015.0 to 2030.0 and do not cover ${when.slice(0, 10)}; give the logbook a declination`;
      expect(declination({ lat: 44, lon: -72 }, when)).toEqual({
        why: expect.stringContaining(why) as unknown,
      });
    },
  );

  test.each([
    ['2015-01-01', 'WMM-2015v2'],
    ['2019-12-31T23:59:59Z', 'WMM-2015v2'],
    ['2020-01-01', 'WMM-2020'],
    ['2024-12-31T23:59:59Z', 'WMM-2020'],
    ['2025-01-01', 'WMM-2025'],
    ['2029-12-31T23:59:59Z', 'WMM-2025'],
    ['2030-01-01', 'WMM-2025'],
  ])('%s is answered by %s, and by no other edition', (when, model) => {
    expect(declination({ lat: 44, lon: -72 }, when)).toMatchObject({ model });
  });

  function declinationOn(when: string, lat: number, lon: number, kilometres = 0): number {
    const answer = declinationAbove({ lat, lon }, kilometres, when);
    if (isUnresolved(answer)) throw new Error(answer.why);
    return answer.value;
  }
});

describe('azimuths', () => {
  test('magnetic 010 at 13.92° west is true 356.08', () => {
    // The rule: true is magnetic plus declination, east positive, brought to 0-360.
    const azimuth: Azimuth = { text: '010 mag', value: '010', reference: 'mag' };
    const answer = toTrueAzimuth(azimuth, { lat: 44, lon: -72 }, '2026-07-02T12:00:00Z', -13.92);
    expect(answer).toMatchObject({ ok: true, value: expect.closeTo(356.08, 9) as unknown });
    expect(answer).toHaveProperty('words', expect.stringContaining('13.9° west as the logbook gives it'));
  });
});

describe('horizontal distance', () => {
  // Trigonometry: distance / √(1 + (grade/100)²). Grades in percent with their angles in degrees.
  test.each([
    [100, 10, 99.504, 5.71],
    [100, 20, 98.058, 11.31],
    [100, 30, 95.783, 16.7],
    [100, 40, 92.848, 21.8],
    [100, 50, 89.443, 26.57],
    [66, 35, 62.295, 19.29],
  ])('%d along a slope of %d %% are %d level', (taped, grade, level, angle) => {
    expect(horizontalDistance(taped, { value: grade, unit: '%' })).toBeCloseTo(level, 3);
    // The angles are given to 0.01°, which is 0.008 in 100.
    expect(Math.abs(horizontalDistance(taped, { value: angle, unit: 'deg' }) - level)).toBeLessThan(0.008);
  });
});
