// The felling map as PDF and SVG, from one model that is written out here. What is in the PDF is read by poppler (pdftotext,
// pdfinfo, pdffonts, pdftoppm), what the SVG looks like is drawn by Chromium; neither knows this program.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type FellingMap,
  fellingMapPicture,
  renderFellingMap,
  renderFellingMapPdf,
} from '../../src/reports/index.ts';
import { needs, programOnPath } from '../needs.ts';

const map: FellingMap = {
  title: 'Felling map of Łąka ½ ″′',
  description: 'Two falls.',
  when: '2026-03-20T14:00:00.000Z',
  system: 'metric',
  before: ['Felling kills. 5 × 7 — a line for the test.', 'NOT planned: B1. It hangs.'],
  north: 'True north is up.',
  falls: [
    {
      x: 0,
      y: 0,
      number: 1,
      label: 'A1',
      aim: 40,
      length: 20,
      left: 12,
      right: 90,
      waysOut: [
        { azimuth: 175, length: 7.6, barred: true },
        { azimuth: 265, length: 7.6, barred: false },
      ],
      row: ['1', 'A1', '38.0°', '40.0°', '12°, 90°', 'Žluťoučký kůň, 12 m'],
    },
    {
      x: -6,
      y: 3,
      number: 2,
      label: 'A2',
      aim: 300,
      length: 18,
      left: 25,
      right: 4,
      waysOut: [{ azimuth: 75, length: 7.6, barred: false }],
      row: ['2', 'A2', '298.0°', '300.0°', '25°, 4°', '–'],
    },
  ],
  marks: [
    { kind: 'aside', x: 5, y: -4, label: 'NOT planned: B1', framed: true },
    { kind: 'sapling', x: 2, y: 9, label: 's1', framed: true },
    { kind: 'stump', x: 500, y: 500, label: 'far stump', framed: false },
  ],
  lines: [
    {
      kind: 'patch',
      label: 'p1',
      framed: true,
      points: [
        { x: -4, y: -9 },
        { x: 4, y: -9 },
        { x: 4, y: -4 },
        { x: -4, y: -4 },
        { x: -4, y: -9 },
      ],
    },
    {
      kind: 'line',
      label: 'road 1',
      framed: false,
      points: [
        { x: 400, y: 400 },
        { x: 420, y: 400 },
      ],
    },
  ],
  after: ['What nobody entered is not on it.'],
};

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gapledger-map-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function pdf(of: FellingMap = map): Promise<string> {
  const path = join(folder, 'map.pdf');
  writeFileSync(path, await renderFellingMapPdf(of, 'gapledger 9.9.9'));
  return path;
}

const said = (program: string, ...words: string[]): string =>
  execFileSync(programOnPath(program), words, { encoding: 'utf8' });

describe('the key of a felling map', () => {
  it('names what is drawn and nothing else: no line on the ground and no stump where both lie beyond the edge', () => {
    const drawn = renderFellingMap(map);
    for (const words of ['NOT planned, stands', 'sapling', 'regeneration', 'crossed: blocked or steep'])
      expect(drawn).toContain(words);
    expect(drawn).not.toContain('line on the ground');
    expect(drawn).not.toMatch(/>stump</);
    expect(drawn).toContain('Beyond the edge and not drawn: 1.');
  });

  it('says nothing of blocked ways out where none is', () => {
    const falls = map.falls.map((fall) => ({
      ...fall,
      waysOut: fall.waysOut.map((way) => ({ ...way, barred: false })),
    }));
    expect(renderFellingMap({ ...map, falls })).not.toContain('crossed');
  });
});

describe('a map with names that are too long or in letters that the face lacks', () => {
  it('keeps them on the paper, and is made all the same', async () => {
    const long = 'W'.repeat(200);
    const falls = map.falls.map((fall) => ({ ...fall, row: ['1', long, '1°', '1°', '1°', `木 ${long}`] }));
    const odd = { ...map, title: `Felling map of ${long} 木`, falls };
    const drawn = renderFellingMap(odd);
    const [, width = ''] = /viewBox="0 0 ([\d.]+)/.exec(drawn) ?? [];
    const texts = [...drawn.matchAll(/<text x="([\d.]+)"[^>]*textLength="([\d.]+)"([^>]*)/g)];
    expect(texts.length).toBeGreaterThan(20);
    for (const [, x, length, more = ''] of texts)
      if (!more.includes('text-anchor')) expect(Number(x) + Number(length)).toBeLessThan(Number(width));
    expect((await renderFellingMapPdf(odd, 'p')).length).toBeGreaterThan(1000);
  });
});

describe('the picture of the map in a page', () => {
  it('holds the drawing and no style of its own, which a strict page would refuse', () => {
    const drawn = fellingMapPicture(map).toString();
    expect(drawn).toContain('data-is="fall"');
    expect(drawn).not.toMatch(/<style|style=|<\?xml/);
  });
});

describe.skipIf(!needs('pdftotext', 'pdfinfo', 'pdffonts', 'pdftoppm'))('the map as PDF', () => {
  it('can be searched for every name on it, in the letters of many languages', async () => {
    const words = said('pdftotext', '-layout', await pdf(), '-');
    for (const word of [
      'Łąka ½ ″′',
      '5 × 7 — a line',
      'Žluťoučký kůň, 12 m',
      '38.0°',
      'NOT planned: B1',
      's1',
      'p1',
      'A1',
      'A2',
    ])
      expect(words).toContain(word);
  });

  it.each([
    // ISO 216 gives A5 as 148 mm by 210 mm; half a sheet of letter is 5.5 in by 8.5 in. A point is 1/72 in.
    ['metric', (148 / 25.4) * 72, (210 / 25.4) * 72],
    ['inch', 5.5 * 72, 8.5 * 72],
  ] as const)('is on real paper in %s units', async (system, width, height) => {
    const facts = said('pdfinfo', await pdf({ ...map, system }));
    const [, wide, high] = /Page size: +([\d.]+) x ([\d.]+) pts/.exec(facts) ?? [];
    expect(Number(wide)).toBeCloseTo(width, 1);
    expect(Number(high)).toBeCloseTo(height, 1);
    expect(facts).toMatch(/Pages: +1\n/);
  });

  it('tells its title, the time of the plan and nothing of this machine', async () => {
    const path = await pdf();
    const facts = said('pdfinfo', '-isodates', path);
    expect(facts).toContain('Felling map of Łąka');
    expect(facts).toMatch(/CreationDate: +2026-03-20T14:00:00Z/);
    expect(facts).toMatch(/Tagged: +yes/);
    expect(facts).not.toContain(folder);
    expect(facts).not.toMatch(/Author/);
  });

  it('holds every letter that it uses', async () => {
    const rows = said('pdffonts', await pdf())
      .trim()
      .split('\n')
      .slice(2);
    expect(rows.length).toBeGreaterThanOrEqual(2);
    for (const row of rows) expect(row).toMatch(/yes yes yes/);
  });

  it('is read aloud as a heading, words, a picture with its description and a table with heads', async () => {
    const path = await pdf();
    const parts = said('pdfinfo', '-struct-text', path);
    for (const part of ['H1', 'Figure', 'Table', 'TH', 'TD'])
      expect(parts).toMatch(new RegExp(`^ *${part}`, 'm'));
    expect(readFileSync(path, 'latin1')).toContain('/Alt (Two falls.)');
  });

  it('has the same bytes for the same plan, and others for another time', async () => {
    const [one, same, later] = await Promise.all([
      renderFellingMapPdf(map, 'p'),
      renderFellingMapPdf(map, 'p'),
      renderFellingMapPdf({ ...map, when: '2026-03-21T14:00:00.000Z' }, 'p'),
    ]);
    expect(Buffer.from(same).equals(Buffer.from(one))).toBe(true);
    expect(Buffer.from(later).equals(Buffer.from(one))).toBe(false);
  });

  describe.skipIf(!needs('chromium'))('beside the SVG as Chromium draws it', () => {
    it('is the same picture in grey, cell by cell of 2 mm', async () => {
      const [width, height] = [148 / 2, 210 / 2];
      const dots = 5;
      const path = await pdf();
      // 5 dots on 2 mm are 63.5 dots an inch.
      said('pdftoppm', '-gray', '-r', '63.5', '-singlefile', path, join(folder, 'map'));
      const paper = cells(fromPgm(readFileSync(join(folder, 'map.pgm'))), width, height, dots);
      const screen = cells(await drawnByChromium(renderFellingMap(map), width * dots), width, height, dots);
      expect(likeness(paper, screen)).toBeGreaterThan(0.93);
      // Such a measure can fail: the same picture upside down is not like it.
      expect(likeness(paper, [...screen].reverse())).toBeLessThan(0.5);
    }, 60_000);
  });
});

type Grey = Readonly<{ width: number; height: number; at: (x: number, y: number) => number }>;

/** The binary PGM of Netpbm: P5, width, height, 255, then bytes. */
function fromPgm(file: Buffer): Grey {
  const [head = '', wide = '', high = ''] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(file.toString('latin1')) ?? [];
  const [width, height] = [Number(wide), Number(high)];
  return { width, height, at: (x, y) => file[head.length + y * width + x] ?? 255 };
}

async function drawnByChromium(svg: string, width: number): Promise<Grey> {
  const browser = await chromium.launch({
    executablePath: programOnPath('chromium'),
    args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
  });
  try {
    const page = await browser.newPage();
    const drawn = await page.evaluate<{ height: number; grey: number[] }>(`(async () => {
      const image = new Image();
      image.src = 'data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}';
      await image.decode();
      const canvas = document.createElement('canvas');
      canvas.width = ${width};
      canvas.height = Math.round(${width} * image.height / image.width);
      const context = canvas.getContext('2d');
      context.drawImage(image, 0, 0, canvas.width, canvas.height);
      const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
      return { height: canvas.height, grey: Array.from({ length: data.length / 4 }, (_, at) => data[4 * at]) };
    })()`);
    return { width, height: drawn.height, at: (x, y) => drawn.grey[y * width + x] ?? 255 };
  } finally {
    await browser.close();
  }
}

/** Mean grey of each cell of so many dots. */
function cells(grey: Grey, width: number, height: number, dots: number): number[] {
  return Array.from({ length: width * height }, (_, cell) => {
    const [left, top] = [(cell % width) * dots, Math.floor(cell / width) * dots];
    let sum = 0;
    for (let y = top; y < top + dots; y += 1)
      for (let x = left; x < left + dots; x += 1)
        sum += x < grey.width && y < grey.height ? grey.at(x, y) : 255;
    return sum / dots ** 2;
  });
}

/** Pearson's correlation of two pictures. */
function likeness(one: readonly number[], other: readonly number[]): number {
  const mean = (of: readonly number[]) => of.reduce((sum, value) => sum + value, 0) / of.length;
  const [a, b] = [mean(one), mean(other)];
  let [both, first, second] = [0, 0, 0];
  for (const [at, value] of one.entries()) {
    const [x, y] = [value - a, (other[at] ?? 0) - b];
    both += x * y;
    first += x * x;
    second += y * y;
  }
  return both / Math.sqrt(first * second);
}
