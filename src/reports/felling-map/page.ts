// The paper: how large it is, what scale the drawing has, and where places of the ground come to lie on it. Millimetres.
import type { Point } from '../../felling/index.ts';
import { lengthIn, type System } from '../../measure/index.ts';
import type { FellingMap } from './model.ts';

/** From one line of small type to the next. */
export const LINE = 3;
export const MARGIN = 7;

/** Widths and heights: A5, A4, A3 (ISO 216); half letter, letter, tabloid. */
const PAPERS: Readonly<Record<System, readonly (readonly [number, number])[]>> = {
  metric: [
    [148, 210],
    [210, 297],
    [297, 420],
  ],
  inch: [
    [5.5 * 25.4, 8.5 * 25.4],
    [8.5 * 25.4, 11 * 25.4],
    [11 * 25.4, 17 * 25.4],
  ],
};

/** A drawing lower than this share of its width says too little. Common practice, no source. */
const LOWEST = 0.55;

export type Paper = Readonly<{ width: number; height: number; drawing: number }>;

/**
 * The smallest paper that holds the words and a drawing; a page longer than the largest where even that is too small.
 * @param words height of everything but the drawing for a width between the margins, mm
 */
export function paperFor(system: System, words: (inside: number) => number): Paper {
  const papers = PAPERS[system].map(([width, height]) => ({
    width,
    height,
    drawing: height - 2 * MARGIN - words(width - 2 * MARGIN),
  }));
  const enough = ({ width, drawing }: Paper) => drawing >= LOWEST * (width - 2 * MARGIN);
  const fitting = papers.find(enough);
  if (fitting !== undefined) return fitting;
  const [width = 297] = PAPERS[system].at(-1) ?? [];
  const drawing = LOWEST * (width - 2 * MARGIN);
  return { width, drawing, height: drawing + 2 * MARGIN + words(width - 2 * MARGIN) };
}

/** How the ground is laid on the paper. */
export type Laid = Readonly<{
  /** 1 : scale */
  scale: number;
  /** Where a place lies, mm from the upper left corner of the page. */
  at: (place: Point) => Point;
  /** A length on the ground in mm on the paper. */
  long: (metres: number) => number;
}>;

/** Room at the edge of the drawing, for names of what lies there. */
const EDGE = 6;
const ROUND = 25;

/** The largest scale, in steps of 25, at which all falls, ways out and what is framed lie on the drawing. */
export function lay(map: FellingMap, box: Point & Readonly<{ width: number; height: number }>): Laid {
  const shown = [
    ...map.falls.flatMap((fall) => [
      fall,
      ahead(fall, fall.aim, fall.length),
      ...fall.waysOut.map(({ azimuth, length }) => ahead(fall, azimuth, length)),
    ]),
    ...map.marks.filter(({ framed }) => framed),
    ...map.lines.flatMap(({ framed, points }) => (framed ? points : [])),
  ];
  const [xs, ys] = [shown.map(({ x }) => x), shown.map(({ y }) => y)];
  const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const needed = Math.max(
    (1000 * (east - west)) / (box.width - 2 * EDGE),
    (1000 * (north - south)) / (box.height - 2 * EDGE),
  );
  const scale = Math.max(2 * ROUND, Math.ceil(needed / ROUND) * ROUND);
  const long = (metres: number) => (1000 * metres) / scale;
  return {
    scale,
    long,
    at: ({ x, y }) => ({
      x: box.x + box.width / 2 + long(x - (west + east) / 2),
      y: box.y + box.height / 2 - long(y - (south + north) / 2),
    }),
  };
}

/** The place so many metres off in a direction. */
export function ahead({ x, y }: Point, azimuth: number, metres: number): Point {
  const angle = (azimuth * Math.PI) / 180;
  return { x: x + metres * Math.sin(angle), y: y + metres * Math.cos(angle) };
}

/** A round length for the scale bar, at most 40 mm long on the paper: in metres, and as it is written. */
export function barLength(
  { long }: Laid,
  system: System,
): Readonly<{ metres: number; unit: string; value: number }> {
  const unit = system === 'metric' ? 'm' : 'ft';
  const most = lengthIn(40 / long(1), 'm', unit);
  const value = Math.max(...[1, 2, 5].map((step) => step * 10 ** Math.floor(Math.log10(most / step))));
  return { metres: lengthIn(value, unit, 'm'), unit, value };
}
