// The whole page: words, drawing, key, scale and table, set for the smallest paper that holds them. Millimetres.
import { drawing } from './drawing.ts';
import { keyLines, keyOf, type Seated, seated } from './key.ts';
import type { Box } from './labels.ts';
import { cutTo, textWidth, wrapped } from './letters.ts';
import { type FellingMap, ROW_HEADS } from './model.ts';
import { barLength, type Laid, LINE, lay, MARGIN, paperFor } from './page.ts';
import { group, LARGE, type Page, path, type Shape, SMALL, text, through } from './shapes.ts';

/** Room for the title, and for the scale and north below the drawing. */
const TITLE = 6;
const STRIP = 8;
const GAP = 1.5;

/** The map on paper, to print at its own size. */
export function sheetOf(map: FellingMap): Page {
  const paper = paperFor(map.system, (inside) => {
    const { before, rows, after } = words(map, inside);
    const key = keyLines(seated(keyOf(map), inside));
    return TITLE + (before.length + key + rows.lines + after.length) * LINE + STRIP + 4 * GAP;
  });
  const { width, height } = paper;
  const inside = width - 2 * MARGIN;
  const { before, rows, after } = words(map, inside);
  const top = MARGIN + TITLE + before.length * LINE + GAP;
  const box = { left: MARGIN, top, right: width - MARGIN, bottom: top + paper.drawing };
  const { shapes, end } = picture(map, box);
  const below = end + rows.lines * LINE + GAP;
  return {
    ...about(map),
    width,
    height,
    shapes: [
      group(
        [
          text(
            cutTo(map.title, inside, LARGE, 'bold'),
            { x: MARGIN, y: MARGIN + LARGE },
            { size: LARGE, weight: 'bold' },
          ),
        ],
        {
          part: 'heading',
        },
      ),
      paragraphs(before, MARGIN + TITLE),
      ...shapes,
      drawnTable(rows.cells, end, inside),
      paragraphs(after, below),
    ],
  };
}

/** How large a drawing is on a screen, mm: larger, and so with smaller letters, where many stems would cover each other. */
const ON_SCREEN = { width: 150, height: 110, manyStems: 12, larger: 1.4 };

/** Drawing, scale and key alone, for a page that says all else in its own words. */
export function pictureOf(map: FellingMap): Page {
  const times = map.falls.length > ON_SCREEN.manyStems ? ON_SCREEN.larger : 1;
  const width = ON_SCREEN.width * times;
  const box = { left: 1, top: 1, right: width - 1, bottom: ON_SCREEN.height * times };
  const { shapes, end } = picture(map, box);
  return { ...about(map), width, height: end, shapes };
}

function about({ title, description, when, system }: FellingMap) {
  return { title, description, when, paper: system === 'metric' ? 'mm' : 'in' } as const;
}

/** The drawing in its box, what stands right below it, and where that ends. */
function picture(map: FellingMap, box: Box): Readonly<{ shapes: readonly Shape[]; end: number }> {
  const inside = box.right - box.left;
  const laid = lay(map, { x: box.left, y: box.top, width: inside, height: box.bottom - box.top });
  const { shapes, beyond, kinds } = drawing(map, laid, box);
  const strip = box.bottom + GAP;
  const key = seated(keyOf(map, kinds), inside);
  return {
    end: strip + STRIP + keyLines(key) * LINE + GAP,
    shapes: [
      group([...shapes, northAndScale(map, laid, { left: box.left, top: strip, inside }, beyond.length)], {
        part: 'figure',
      }),
      group(drawnKey(key, box.left, strip + STRIP), { part: 'words' }),
    ],
  };
}

/** Everything but the drawing and its key, broken into lines for a width. */
function words(map: FellingMap, inside: number) {
  const broken = (texts: readonly string[]) =>
    texts.flatMap((said) => wrapped(said, inside, SMALL).map((line, at) => ({ line, first: at === 0 })));
  const columns = columnsFor(inside);
  const cells = [ROW_HEADS, ...map.falls.map(({ row }) => row)].map((row, index) =>
    row.map((cell, at) =>
      wrapped(cell, (columns[at]?.width ?? 20) - 1, SMALL, index === 0 ? 'bold' : 'regular'),
    ),
  );
  return {
    before: broken(map.before),
    rows: {
      cells: map.falls.length === 0 ? [] : cells,
      lines: map.falls.length === 0 ? 0 : cells.reduce((sum, row) => sum + highest(row), 0),
    },
    after: broken(map.after),
  };
}

type Line = Readonly<{ line: string; first: boolean }>;

function paragraphs(lines: readonly Line[], top: number): Shape {
  const drawn = lines.map(({ line, first }, at) => ({
    first,
    shape: text(line, { x: MARGIN, y: top + at * LINE + SMALL }),
  }));
  const starts = drawn.flatMap(({ first }, at) => (first ? [at] : []));
  return group(
    starts.map((start, at) =>
      group(
        drawn.slice(start, starts[at + 1]).map(({ shape }) => shape),
        { part: 'words' },
      ),
    ),
  );
}

function highest(row: readonly (readonly string[])[]): number {
  return Math.max(1, ...row.map((cell) => cell.length));
}

/** Left edges and widths: what is left over goes to the words. */
function columnsFor(inside: number): Readonly<{ x: number; width: number }>[] {
  const fixed = [7, 20, 15, 13, 17];
  const widths = [...fixed, inside - fixed.reduce((sum, one) => sum + one, 0)];
  return widths.map((width, at) => ({
    width,
    x: MARGIN + widths.slice(0, at).reduce((sum, one) => sum + one, 0),
  }));
}

function drawnKey(items: readonly Seated[], left: number, top: number): readonly Shape[] {
  return items.flatMap(({ words: said, sign, x, line }) => {
    const y = top + line * LINE;
    return [...sign({ x: left + x + 2.2, y: y + LINE / 2 }), text(said, { x: left + x + 5.3, y: y + SMALL })];
  });
}

function drawnTable(rows: readonly (readonly (readonly string[])[])[], top: number, inside: number): Shape {
  const columns = columnsFor(inside);
  let y = top;
  const drawn = rows.map((row, index) => {
    const from = y;
    y += highest(row) * LINE;
    const isHead = index === 0;
    const cells = row.map((cell, at) =>
      group(
        cell.map((line, down) =>
          text(
            line,
            { x: columns[at]?.x ?? 0, y: from + down * LINE + SMALL - 0.2 },
            { weight: isHead ? 'bold' : 'regular' },
          ),
        ),
        { part: isHead ? 'head' : 'cell' },
      ),
    );
    return group(cells, { part: 'row' });
  });
  y = top;
  const rules = rows.map((row, index) => {
    y += highest(row) * LINE;
    return path(
      through([
        { x: MARGIN, y },
        { x: MARGIN + inside, y },
      ]),
      {
        stroke: 0,
        width: index === 0 ? 0.3 : 0.1,
      },
    );
  });
  return group(rows.length === 0 ? [] : [group(drawn, { shows: 'table', part: 'table' }), group(rules)]);
}

type Strip = Readonly<{ left: number; top: number; inside: number }>;

function northAndScale(map: FellingMap, laid: Laid, { left, top, inside }: Strip, beyond: number): Shape {
  const { metres, unit, value } = barLength(laid, map.system);
  const long = laid.long(metres);
  const zero = left + 9;
  const bar = top + 4.4;
  const start = zero + long + textWidth(`${value} ${unit}`, SMALL) / 2 + 3;
  const said = wrapped(
    `${map.north}${beyond === 0 ? '' : ` Beyond the edge and not drawn: ${beyond}.`}`,
    left + inside - start,
    SMALL,
  ).slice(0, 3);
  const north = left + 1.8;
  return group([
    group(
      [
        path(`M${north} ${top}l1.6 6l-1.6 -1.4l-1.6 1.4Z`, { fill: 0 }),
        text('N', { x: left + 4.6, y: top + SMALL }),
      ],
      { shows: 'north', title: 'True north' },
    ),
    group(
      [
        path(`M${zero} ${bar - 1}v1h${long}v-1M${zero + long / 2} ${bar}v-0.7`, { stroke: 0, width: 0.4 }),
        text('0', { x: zero, y: top + 2.6 }),
        text(`${value} ${unit}`, { x: zero + long, y: top + 2.6 }, { anchor: 'middle' }),
        text(`1 : ${laid.scale}`, { x: zero, y: bar + 3 }),
      ],
      { shows: 'scale', title: 'Scale', scale: laid.scale },
    ),
    ...said.map((line, at) => text(line, { x: start, y: top + at * LINE * 0.9 + SMALL - 0.3 })),
  ]);
}
