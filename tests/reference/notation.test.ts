/** Published places in several notations. The source of every row stands beside it. */
import { describe, expect, test } from 'vitest';
import { decimalDegrees, degreesMinutes, utmText } from '../../src/place/index.ts';

describe('published examples', () => {
  // A help page on converting decimal degrees, about a tower in Chicago: 41.878928 → N 41° 52.736, -87.636415 →
  // W 87° 38.185 (support.groundspeak.com, article 207, stored copy).
  test('decimal degrees to degrees and decimal minutes', () => {
    const tower = { lat: 41.878928, lon: -87.636415 };
    expect(degreesMinutes(tower)).toBe("41° 52.736' N, 87° 38.185' W");
    expect(decimalDegrees(tower)).toBe('41.87893° N, 87.63642° W');
  });

  // A guide for converting coordinates: 45° 22' 38" = 45° 22.6333 = 45.3772 (mikehotka.com, stored copy).
  test('the same place from degrees, minutes and seconds', () => {
    const at = { lat: 45 + 22 / 60 + 38 / 3600, lon: 0 };
    expect(degreesMinutes(at)).toMatch(/^45° 22\.633' N/);
    expect(decimalDegrees(at)).toMatch(/^45\.3772\d° N/);
  });

  // National SAR Committee, Georeferencing Matrix (13 November 2007, seen second-hand): three places of minutes, no
  // zeros in front. Its example of what to avoid is 09-00.300N 004-02.450W.
  test('degrees and minutes have no zeros in front', () => {
    expect(degreesMinutes({ lat: 9 + 0.3 / 60, lon: -(4 + 2.45 / 60) })).toBe("9° 0.300' N, 4° 2.450' W");
  });

  // An independent Krueger series to n^6 on WGS 84, checked against IOGP's published points; zone 32 over Norway.
  test.each([
    { lat: 44, lon: -72, utm: 'zone 19 north, 259474 m E, 4876249 m N' },
    { lat: 45, lon: -69, utm: 'zone 19 north, 500000 m E, 4982950 m N' },
    { lat: 60, lon: 4.5, utm: 'zone 32 north, 249130 m E, 6659950 m N' },
  ])('UTM of $lat, $lon', ({ utm, ...at }) => {
    expect(utmText(at)).toBe(utm);
  });
});
