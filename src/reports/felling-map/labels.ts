// Names beside what they name, where they cover as little as can be. Millimetres.
import type { Point } from '../../felling/index.ts';
import { LINE } from './page.ts';

export type Box = Readonly<{ left: number; top: number; right: number; bottom: number }>;

/** Where text begins: its baseline, from the left. */
export type Placed = Point & Readonly<{ text: string }>;

/** Letters of 7 pt in common sans-serif faces are on average about 1.25 mm wide, in the widest about 1.4 mm. From memory, no source. */
const LETTER = 1.42;

export function textWidth(text: string): number {
  return text.length * LETTER;
}

/** Breaks words into lines that fit into a width. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

export type Labels = Readonly<{
  /** Keeps a box free of names. */
  keep: (box: Box) => void;
  /** Puts a name beside a place. One that may be left out is left out where it would cover something: undefined. */
  put: (text: string, at: Point, away: number, must: boolean) => Placed | undefined;
}>;

/** @param inside names stay in this box */
export function newLabels(inside: Box): Labels {
  const taken: Box[] = [];
  const covered = (box: Box): number => {
    const out = area(box) - overlap(box, inside);
    return taken.reduce((sum, one) => sum + overlap(box, one), 3 * out);
  };
  return {
    keep: (box) => taken.push(box),
    put(text, at, away, must) {
      const candidates = places(textWidth(text), at, away).map((box) => ({ box, cost: covered(box) }));
      const best = candidates.reduce((one, other) => (other.cost < one.cost - 1e-9 ? other : one));
      if (!must && best.cost > 0) return undefined;
      taken.push(best.box);
      return { text, x: best.box.left, y: best.box.bottom - 0.7 };
    },
  };
}

export function around({ x, y }: Point, radius: number): Box {
  return { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius };
}

/** Right, left, above, below, the corners; then the same farther off. */
function places(width: number, { x, y }: Point, away: number): Box[] {
  const box = (left: number, top: number): Box => ({ left, top, right: left + width, bottom: top + LINE });
  return [away, away + 2.5, away + 5].flatMap((gap) => [
    box(x + gap, y - LINE / 2),
    box(x - gap - width, y - LINE / 2),
    box(x - width / 2, y - gap - LINE),
    box(x - width / 2, y + gap),
    box(x + gap * 0.7, y - gap * 0.7 - LINE),
    box(x + gap * 0.7, y + gap * 0.7),
    box(x - gap * 0.7 - width, y - gap * 0.7 - LINE),
    box(x - gap * 0.7 - width, y + gap * 0.7),
  ]);
}

function overlap(one: Box, other: Box): number {
  const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
  const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}

function area({ left, top, right, bottom }: Box): number {
  return (right - left) * (bottom - top);
}
