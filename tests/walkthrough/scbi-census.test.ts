/**
 * The census file that the walk through a real stand begins with: what it holds, and that its positions are right.
 * Data: Smithsonian Conservation Biology Institute / ForestGEO, CC BY 4.0; credit in fixtures/scbi/LICENCE.txt.
 */
import { describe, expect, test } from 'vitest';
import { liveStems, tagOf, utmAt } from '../../fixtures/scbi/census.ts';
import { basalArea } from '../../src/measure/index.ts';

describe('the census file', () => {
  test('has 407 live stems with 38.25 m² of basal area per hectare in its 0.48 ha', () => {
    // Counted in the file by another program before this one existed; with π/4 · d² from millimetres.
    const total = liveStems().reduce((sum, { dbh_mm }) => sum + basalArea(Number(dbh_mm), 'mm', 'm2'), 0);
    expect(liveStems()).toHaveLength(407);
    expect(total / 0.48).toBeCloseTo(38.25, 2);
  });

  test('has a tag of its own for each stem, also where several grow from one root', () => {
    expect(new Set(liveStems().map(tagOf)).size).toBe(407);
    expect(new Set(liveStems().map(({ tag }) => tag)).size).toBe(347);
  });

  test('gives one diameter that was not taken at breast height, 1.30 m', () => {
    const [row, ...more] = liveStems().filter(({ hom }) => Number(hom) !== 1.3);
    expect([row?.hom, more.length]).toEqual(['1.10', 0]);
  });

  test('gives positions that its plot coordinates lead to by the surveyed corners, within 1 cm', () => {
    for (const { gx, gy, utm_e, utm_n } of liveStems()) {
      const { easting, northing } = utmAt(Number(gx), Number(gy));
      expect(Math.abs(easting - Number(utm_e))).toBeLessThan(0.01);
      expect(Math.abs(northing - Number(utm_n))).toBeLessThan(0.01);
    }
  });
});
