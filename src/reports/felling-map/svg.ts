// The whole page as SVG: words, drawing, key, scale and table, set for the smallest paper that holds them.
import { type Piece, html as xml } from '../html/markup.ts';
import { drawing } from './drawing.ts';
import { textWidth, wrapped } from './labels.ts';
import { type FellingMap, MARK_KINDS, ROW_HEADS } from './model.ts';
import { barLength, LARGE, type Laid, LINE, lay, MARGIN, paperFor, SMALL } from './page.ts';
import { mm, SIGN_WORDS, sign } from './signs.ts';

/** Room for the title, and for the scale and north below the drawing. */
const TITLE = 6;
const STRIP = 8;
const GAP = 1.5;

/**
 * The map as an SVG file (SVG 1.1), sized in millimetres or inches for a printer, in black, white and one light tone.
 * Nothing in it is loaded or run.
 */
export function renderFellingMap(map: FellingMap): string {
  const paper = paperFor(map.system, (inside) => {
    const { before, key, rows, after } = words(map, inside);
    return TITLE + (before.length + key.lines + rows.lines + after.length) * LINE + STRIP + 4 * GAP;
  });
  const { width, height } = paper;
  const inside = width - 2 * MARGIN;
  const { before, key, rows, after } = words(map, inside);
  const top = MARGIN + TITLE + before.length * LINE + GAP;
  const box = { left: MARGIN, top, right: width - MARGIN, bottom: top + paper.drawing };
  const laid = lay(map, { x: box.left, y: box.top, width: inside, height: paper.drawing });
  const { piece, beyond } = drawing(map, laid, box);
  const strip = box.bottom + GAP;
  const keyTop = strip + STRIP;
  const tableTop = keyTop + key.lines * LINE + GAP;
  const end = tableTop + rows.lines * LINE + GAP;
  const size = (value: number) => (map.system === 'metric' ? `${mm(value)}mm` : `${value / 25.4}in`);
  return xml`<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${size(width)}" height="${size(height)}" viewBox="0 0 ${mm(width)} ${mm(height)}" role="img" aria-labelledby="map-title map-description" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif" font-size="${mm(SMALL)}">
<title id="map-title">${map.title}</title>
<desc id="map-description">${map.description}</desc>
<style>@page { size: ${size(width)} ${size(height)}; margin: 0 }</style>
<defs><clipPath id="drawing"><rect x="${mm(box.left)}" y="${mm(box.top)}" width="${mm(inside)}" height="${mm(paper.drawing)}"/></clipPath>
<pattern id="hatch" width="1.4" height="1.4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V1.4" stroke="#000" stroke-width="0.2"/></pattern></defs>
<rect width="${mm(width)}" height="${mm(height)}" fill="#fff"/>
<text x="${MARGIN}" y="${MARGIN + LARGE}" font-size="${mm(LARGE)}" font-weight="bold">${map.title}</text>
${lines(before, MARGIN + TITLE)}
${piece}
${northAndScale(map, laid, strip, inside, beyond.length)}
${drawnKey(key.items, keyTop)}
${drawnTable(rows.cells, tableTop, inside)}
${lines(after, end)}
</svg>
`.toString();
}

type KeyItem = Readonly<{ words: string; sign: (x: number, y: number) => Piece }>;
type Seated = KeyItem & Readonly<{ x: number; line: number }>;

/** Everything but the drawing, broken into lines for a width. */
function words(map: FellingMap, inside: number) {
  const broken = (texts: readonly string[]) => texts.flatMap((text) => wrapped(text, inside));
  const items = seated(keyItems(map), inside);
  const columns = columnsFor(inside);
  const cells = [ROW_HEADS, ...map.falls.map(({ row }) => row)].map((row) =>
    row.map((cell, at) => wrapped(cell, (columns[at]?.width ?? 20) - 1)),
  );
  return {
    before: broken(map.before),
    key: { items, lines: (items.at(-1)?.line ?? 0) + 1 },
    rows: {
      cells: map.falls.length === 0 ? [] : cells,
      lines: map.falls.length === 0 ? 0 : cells.reduce((sum, row) => sum + highest(row), 0),
    },
    after: broken(map.after),
  };
}

function highest(row: readonly (readonly string[])[]): number {
  return Math.max(1, ...row.map((cell) => cell.length));
}

/** Left edges and widths: what is left over goes to the words. */
function columnsFor(inside: number): Readonly<{ x: number; width: number }>[] {
  const fixed = [8, 28, 15, 14, 18];
  const widths = [...fixed, inside - fixed.reduce((sum, one) => sum + one, 0)];
  return widths.map((width, at) => ({
    width,
    x: MARGIN + widths.slice(0, at).reduce((sum, one) => sum + one, 0),
  }));
}

function keyItems(map: FellingMap): KeyItem[] {
  const kinds = MARK_KINDS.filter((kind) => map.marks.some((mark) => mark.kind === kind));
  const patch = map.lines.some(({ kind }) => kind === 'patch');
  const stroke = (dashes: string) => (x: number, y: number) =>
    xml`<path d="M${mm(x - 2)} ${mm(y)}H${mm(x + 2)}" stroke="#000" stroke-width="0.35" stroke-dasharray="${dashes}"/>`;
  const filled = (fill: string) => (x: number, y: number) =>
    xml`<rect x="${mm(x - 2)}" y="${mm(y - 1)}" width="4" height="2" fill="${fill}" stroke="#999" stroke-width="0.15"/>`;
  return [
    ...(map.falls.length === 0
      ? []
      : [
          {
            words: 'stem by its place in the order; arrow as long as the stem',
            sign: (x: number, y: number) => xml`<circle cx="${mm(x)}" cy="${mm(y)}" r="1.3" fill="#000"/>`,
          },
          { words: 'how far the aim may be off before another thing is reached', sign: filled('#ebebeb') },
          { words: 'way out; crossed: blocked or steep', sign: stroke('1.2 0.8') },
        ]),
    ...kinds.map((kind) => ({
      words: SIGN_WORDS[kind],
      sign: (x: number, y: number) =>
        xml`<g transform="translate(${mm(x)} ${mm(y)}) scale(0.65)">${sign(kind, { x: 0, y: 0 })}</g>`,
    })),
    ...(patch ? [{ words: 'regeneration', sign: filled('url(#hatch)') }] : []),
    ...(map.lines.some(({ kind }) => kind === 'line')
      ? [{ words: 'line on the ground', sign: stroke('4 0.8 0.6 0.8') }]
      : []),
  ];
}

function seated(items: readonly KeyItem[], inside: number): Seated[] {
  let [x, line] = [0, 0];
  return items.map((item) => {
    const wide = 5.5 + textWidth(item.words) + 1.5;
    if (x > 0 && x + wide > inside) [x, line] = [0, line + 1];
    const seat = { ...item, x: MARGIN + x, line };
    x += wide;
    return seat;
  });
}

function lines(texts: readonly string[], top: number): readonly Piece[] {
  return texts.map(
    (text, at) => xml`<text x="${MARGIN}" y="${mm(top + at * LINE + SMALL)}">${text}</text>
`,
  );
}

function drawnKey(items: readonly Seated[], top: number): readonly Piece[] {
  return items.map(({ words: text, sign: made, x, line }) => {
    const y = top + line * LINE;
    return xml`${made(x + 2.2, y + LINE / 2)}<text x="${mm(x + 5)}" y="${mm(y + SMALL)}">${text}</text>
`;
  });
}

function drawnTable(rows: readonly (readonly (readonly string[])[])[], top: number, inside: number): Piece {
  const columns = columnsFor(inside);
  let y = top;
  return xml`<g data-is="table">${rows.map((row, index) => {
    const from = y;
    y += highest(row) * LINE;
    return xml`<g${index === 0 && xml` font-weight="bold"`}>${row.flatMap((cell, at) =>
      cell.map(
        (text, line) =>
          xml`<text x="${mm(columns[at]?.x ?? 0)}" y="${mm(from + line * LINE + SMALL - 0.2)}">${text}</text>`,
      ),
    )}<path d="M${MARGIN} ${mm(y)}h${mm(inside)}" stroke="#000" stroke-width="${index === 0 ? 0.3 : 0.1}"/></g>
`;
  })}</g>`;
}

function northAndScale(map: FellingMap, laid: Laid, top: number, inside: number, beyond: number): Piece {
  const { metres, unit, value } = barLength(laid, map.system);
  const long = laid.long(metres);
  const [left, north] = [MARGIN + 5, MARGIN + 1.8];
  const bar = top + 4.4;
  const room = inside - (long + 22);
  const said = wrapped(
    `${map.north}${beyond === 0 ? '' : ` Beyond the edge and not drawn: ${beyond}.`}`,
    room,
  ).slice(0, 3);
  return xml`<g data-is="north"><title>True north</title><path d="M${north} ${mm(top)}l1.6 6l-1.6 -1.4l-1.6 1.4Z" fill="#000"/><text x="${mm(left)}" y="${mm(top + SMALL)}">N</text></g>
<g data-is="scale" data-scale="${laid.scale}"><title>Scale</title><path d="M${mm(left + 4)} ${mm(bar - 1)}v1h${mm(long)}v-1M${mm(left + 4 + long / 2)} ${mm(bar)}v-0.7" fill="none" stroke="#000" stroke-width="0.4"/>
<text x="${mm(left + 4)}" y="${mm(top + 2.6)}">0</text><text x="${mm(left + 4 + long)}" y="${mm(top + 2.6)}" text-anchor="middle">${value} ${unit}</text>
<text x="${mm(left + 4)}" y="${mm(bar + 3)}">1 : ${laid.scale}</text></g>
${said.map(
  (
    text,
    at,
  ) => xml`<text x="${mm(MARGIN + long + 22)}" y="${mm(top + at * LINE * 0.9 + SMALL - 0.3)}">${text}</text>
`,
)}`;
}
