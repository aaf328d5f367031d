// The felling map as a file, read by a strict XML reader (saxes). What it shows is held against distances that were put into the
// log, and against the millimetres of its own scale; nothing here calls the program's geometry.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { needs } from '../needs.ts';
import { demo, type Place, started } from './gapledger.ts';

type Element = { name: string; is: Record<string, string>; within: Record<string, string>[]; text: string };

/** All elements of a file; throws where it is not well-formed. */
function elements(xml: string): Element[] {
  const open: Element[] = [];
  const all: Element[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const element = { name, is: attributes, within: open.map(({ is }) => is), text: '' };
    all.push(element);
    open.push(element);
  });
  parser.on('text', (text) => {
    const last = open.at(-1);
    if (last !== undefined) last.text += text;
  });
  parser.on('closetag', () => open.pop());
  parser.write(xml).close();
  return all;
}

function mapOf(place: Place, words: readonly string[]): Element[] {
  const said = place.run(['plan', ...words, '--map', 'plan.svg']);
  expect(said.code, said.error).toBe(0);
  return elements(readFileSync(place.path('plan.svg'), 'utf8'));
}

/** What is labelled so, in the order of its letters. */
function labelled(all: readonly Element[], is: string): string[] {
  return all
    .flatMap((one) => (one.is['data-is'] === is ? [one.is['data-label'] ?? ''] : []))
    .sort((one, other) => (one < other ? -1 : 1));
}

/** Three stems round a stake, two of them in line with it: 40 ft east by the true north, 30 ft west. */
function invented(): Place {
  const place = started();
  const record = (...words: string[]) => place.done(['record', ...words]);
  record('stake-set', '--label', 'K', '--position', 'EPSG:2264 1187300, 813150 +-3 m');
  record('group-laid-out', '--label', 'H1');
  const alike = [
    '--mark',
    'cut',
    '--species',
    'red maple',
    '--dbh',
    '12 in',
    '--height',
    '60 ft',
    '--group',
    'H1',
  ];
  for (const [tag, position] of [
    ['H1', '90 true, 40 ft from stake K'],
    ['H2', '270 true, 30 ft from stake K'],
    ['<H&3>', '0 true, 35 ft from stake K'],
  ] as const)
    record('stem-marked', '--tag', tag, '--position', position, ...alike);
  for (const [label, position] of [
    ['s1', '20 true, 60 ft from stake K'],
    ['s2', '140 true, 50 ft from stake K'],
  ] as const)
    record('sapling-protected', '--label', label, '--group', 'H1', '--position', position);
  return place;
}

describe('gapledger plan --map', () => {
  it('shows every stem and every sapling, and each stem in the table with its aims', () => {
    const all = mapOf(invented(), ['H1', '--wedges']);
    expect(labelled(all, 'stem')).toEqual(['<H&3>', 'H1', 'H2']);
    expect(labelled(all, 'sapling')).toEqual(['s1', 's2']);
    const table = all.filter(({ within }) => within.some((one) => one['data-is'] === 'table'));
    for (const word of ['H1', 'H2', '<H&3>', 'Compass', 'True'])
      expect(table.map(({ text }) => text)).toContain(word);
  });

  it('draws two stems 70 ft apart as far apart as the scale says, and in line east and west', () => {
    const all = mapOf(invented(), ['H1', '--wedges']);
    const scale = Number(all.find((one) => one.is['data-is'] === 'scale')?.is['data-scale']);
    const disc = (label: string) => {
      const found = all.find(
        ({ name, within }) =>
          name === 'circle' && within.some((one) => one['data-label'] === label && one['data-is'] === 'stem'),
      );
      return { x: Number(found?.is.cx), y: Number(found?.is.cy) };
    };
    const [east, west] = [disc('H1'), disc('H2')];
    // 1 ft is 304.8 mm (international foot, NIST SP 811 appendix B); drawn to a hundredth of a millimetre, and the plane of a
    // group may differ from the ground by a few parts in a thousand.
    const expected = (70 * 304.8) / scale;
    expect(Math.abs(east.x - west.x - expected)).toBeLessThan(0.03 + 0.003 * expected);
    expect(Math.abs(east.y - west.y)).toBeLessThan(0.1);
    expect(disc('<H&3>').y).toBeLessThan(east.y);
  });

  it('is sized for half letter in feet, and has no type under 7 pt', () => {
    const all = mapOf(invented(), ['H1', '--wedges']);
    const [svg] = all;
    expect([svg?.is.width, svg?.is.height]).toEqual(['5.5in', '8.5in']);
    const sizes = all.flatMap(({ is }) => (is['font-size'] === undefined ? [] : [Number(is['font-size'])]));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual((7 * 25.4) / 72 - 0.005);
  });

  it('prints the cautions, when the plan ends, north with the declination in words, and never "safe"', () => {
    const place = demo();
    const all = mapOf(place, ['G3', '--wedges']);
    const words = all.map(({ text }) => text.trim()).join(' ');
    for (const said of ['Felling kills.', 'The plan ends when anything differs', 'Declination 7.', 'people.'])
      expect(words.replace(/\s+/g, ' ')).toContain(said);
    expect(readFileSync(place.path('plan.svg'), 'utf8')).not.toMatch(/\bsafe/i);
    expect(all.filter(({ name }) => name === 'title' || name === 'desc').length).toBeGreaterThan(1);
  });

  it('marks stems that were set aside as not planned, and draws no fall for them', () => {
    const all = mapOf(demo(), ['G2']);
    expect(labelled(all, 'aside')).toEqual(['NOT planned: B2', 'NOT planned: B3']);
    expect(labelled(all, 'fall')).toEqual([]);
    // Also a map without a fall tells which way a compass points here.
    expect(all.map(({ text }) => text).join(' ')).toContain('Declination 7.');
  });

  it.skipIf(!needs('pdftotext'))('writes the same page as PDF where the name ends so', () => {
    const place = demo();
    place.done(['plan', 'G3', '--wedges', '--map', 'plan.pdf']);
    const words = execFileSync('pdftotext', ['-layout', place.path('plan.pdf'), '-'], { encoding: 'utf8' });
    for (const said of ['Felling map of G3', 'Felling kills.', 'Declination 7.', 'C1', 'C2', 'C3', 's7'])
      expect(words).toContain(said);
  });

  it('refuses a name that is neither SVG nor PDF, and a place that cannot be written to', () => {
    const place = demo();
    const refused = place.run(['plan', 'G3', '--map', 'plan.png']);
    expect(refused.code).toBe(2);
    expect(refused.error).toContain('--map "plan.png"');
    expect(existsSync(place.path('plan.png'))).toBe(false);
    for (const name of ['demo.logbook/plan.svg', 'demo.logbook/plan.pdf']) {
      const unwritable = place.run(['plan', 'G3', '--map', name]);
      expect(unwritable.code).toBe(1);
      expect(unwritable.error).toContain(name);
    }
  });
});
