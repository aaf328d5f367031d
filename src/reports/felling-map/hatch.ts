// Slanting lines that fill an area, for print in black and white. Millimetres.
import type { Point } from '../../felling/index.ts';
import { through } from './shapes.ts';

/** From one line to the next, measured along the edge of the paper. */
const APART = 2;

/** Lines at 45° over the box round some places; whoever draws them cuts them off at the edge of the area. */
export function hatched(points: readonly Point[]): string {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const first = Math.ceil((left + top) / APART);
  const last = Math.floor((right + bottom) / APART);
  // No page is so large that it needs more.
  const count = Math.min(1000, Math.max(0, last - first + 1));
  return Array.from({ length: count }, (_, at) => {
    const sum = (first + at) * APART;
    return through([
      { x: sum - top, y: top },
      { x: sum - bottom, y: bottom },
    ]);
  }).join('');
}
