// Names beside what they name, where they cover as little as can be. Millimetres.
import type { Point } from '../../felling/index.ts';
import { textWidth } from './letters.ts';
import { LINE } from './page.ts';
import { SMALL } from './shapes.ts';

export type Box = Readonly<{ left: number; top: number; right: number; bottom: number }>;

/** Where text begins: its baseline, from the left. A name that had to move far off is led back by a line. */
export type Placed = Point & Readonly<{ text: string; led: readonly [from: Point, to: Point] | undefined }>;

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
      const gaps = must ? [away, away + 2.5, away + 5, away + 9] : [away];
      const candidates = gaps.flatMap((gap) =>
        places(textWidth(text, SMALL), at, gap).map((box) => ({ box, gap, cost: covered(box) })),
      );
      const best = candidates.reduce((one, other) => (other.cost < one.cost - 1e-9 ? other : one));
      if (!must && best.cost > 0) return undefined;
      taken.push(best.box);
      return {
        text,
        x: best.box.left,
        y: best.box.bottom - 0.7,
        led: best.gap === away ? undefined : [at, nearest(best.box, at)],
      };
    },
  };
}

export function around({ x, y }: Point, radius: number): Box {
  return { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius };
}

/** Right, left, above, below, the corners. */
function places(width: number, { x, y }: Point, gap: number): Box[] {
  const box = (left: number, top: number): Box => ({ left, top, right: left + width, bottom: top + LINE });
  return [
    box(x + gap, y - LINE / 2),
    box(x - gap - width, y - LINE / 2),
    box(x - width / 2, y - gap - LINE),
    box(x - width / 2, y + gap),
    box(x + gap * 0.7, y - gap * 0.7 - LINE),
    box(x + gap * 0.7, y + gap * 0.7),
    box(x - gap * 0.7 - width, y - gap * 0.7 - LINE),
    box(x - gap * 0.7 - width, y + gap * 0.7),
  ];
}

function nearest({ left, top, right, bottom }: Box, { x, y }: Point): Point {
  return { x: Math.min(right, Math.max(left, x)), y: Math.min(bottom, Math.max(top, y)) };
}

function overlap(one: Box, other: Box): number {
  const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
  const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}

function area({ left, top, right, bottom }: Box): number {
  return (right - left) * (bottom - top);
}
