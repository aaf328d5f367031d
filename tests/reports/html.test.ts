// The page as a file: nothing of what people wrote becomes markup, nothing is fetched, nothing is left blank.
import { describe, expect, test } from 'vitest';
import { cautions } from '../../src/felling/index.ts';
import { harvestReport, renderHtml } from '../../src/reports/index.ts';
import { fold } from '../../src/stand/index.ts';
import { asked, root } from './woods.ts';

const hostile = '<script>alert(1)</script><img src=x onerror=alert(2)>"\'&</style>{}';
const pageOf = async (...request: Parameters<typeof asked>): Promise<string> => {
  const { folded, options } = asked(...request);
  return renderHtml(harvestReport(folded, options));
};
const page = await pageOf();

describe('the page', () => {
  test('names, notes, tags and the property are printed as written and never become markup', async () => {
    const attacked = await pageOf({ property: hostile, note: hostile, tag: hostile, owner: hostile });
    expect(attacked).not.toContain('<script');
    expect(attacked).not.toContain('<img');
    expect(attacked.match(/<\/style>/g)).toHaveLength(1);
    expect(attacked.match(/&lt;script&gt;alert\(1\)&lt;\/script&gt;/g)?.length).toBeGreaterThan(5);
  });

  test('the file asks nothing of anybody: no script, no address outside itself', () => {
    expect(page).not.toMatch(/<script|<link|<img|<iframe|@import|url\((?!#)|https?:/i);
    expect(page.match(/href="([^"]*)"/g)?.every((link) => link === 'href="#cautions"')).toBe(true);
  });

  test('it has a language and a title', () => {
    expect(page).toMatch(/^<!doctype html>\s*<html lang="en">/);
    expect(page).toContain('<title>Harvest report: Laurel Run woods</title>');
  });

  test('all cautions stand before the first stem that was felled', () => {
    const felled = page.indexOf('felled 2026-03-02');
    expect(felled).toBeGreaterThan(0);
    for (const { text } of cautions.points) {
      const at = page.indexOf(text);
      expect(at).toBeGreaterThan(0);
      expect(at).toBeLessThan(felled);
    }
  });

  test('no cell and no description is blank', () => {
    expect(page).not.toMatch(/<td[^>]*><div>\s*<\/div>/);
    expect(page).not.toMatch(/<dd>\s*<\/dd>/);
    expect(page).not.toMatch(/undefined|NaN|\[object/);
  });

  test('three and more entries in a row are written as a range', () => {
    expect(page).toContain('entries\u00a09–11, 18, 20, 21, 27');
  });

  test('how to check it is said with the head as verify takes it', () => {
    expect(page).toContain(`gapledger verify --since 34:${root}`);
  });

  test('a log of nothing gives a page that says so', async () => {
    const { options } = asked();
    const empty = await renderHtml(
      harvestReport(fold([]), { ...options, positions: new Map(), head: { size: 0, root } }),
    );
    expect(empty).toContain('No group is recorded.');
    expect(empty).toContain('no entry &quot;logbook opened&quot;');
    expect(empty).not.toMatch(/<dd>\s*<\/dd>|undefined/);
  });
});
