// How one place is seen from another in the local plane, and cutting an area into squares.
import { azimuth, DEGREES } from './fall.ts';
import type { Point } from './inputs.ts';

/** Distance in metres and azimuth in degrees. */
export function seen(from: Point, to: Point): Readonly<{ distance: number; bearing: number }> {
  const [east, north] = [to.x - from.x, to.y - from.y];
  return { distance: Math.hypot(east, north), bearing: azimuth(Math.atan2(east, north) * DEGREES) };
}

/** Whether a place lies in a ring, by counting crossings of a line to the east. */
function inside({ x, y }: Point, ring: readonly Point[]): boolean {
  return ring.reduce((within, from, index) => {
    const to = ring[(index + 1) % ring.length] ?? from;
    const crosses =
      from.y > y !== to.y > y && x < from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x);
    return crosses ? !within : within;
  }, false);
}

const MOST_CELLS = 64;

/**
 * The middles of squares that cover an area, of the given side or, for a large area, so large that there are about 64.
 * The squares hang on the first corner and the first side, so that turning the area turns them with it.
 */
export function cells(ring: readonly Point[], side: number): readonly Point[] {
  const [first, second] = ring;
  if (first === undefined || second === undefined) return [];
  const angle = Math.atan2(second.y - first.y, second.x - first.x);
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  const flat = ring.map(({ x, y }) => ({
    x: (x - first.x) * cosine + (y - first.y) * sine,
    y: (y - first.y) * cosine - (x - first.x) * sine,
  }));
  const span = (of: readonly number[]) => ({
    least: Math.min(...of),
    size: Math.max(...of) - Math.min(...of),
  });
  const [along, across] = [span(flat.map(({ x }) => x)), span(flat.map(({ y }) => y))];
  const step = Math.max(side, Math.sqrt((along.size * across.size) / MOST_CELLS));
  const middles = ({ least, size }: typeof along) => {
    const count = Math.max(1, Math.round(size / step));
    return Array.from({ length: count }, (_, index) => least + ((index + 0.5) * size) / count);
  };
  const found = middles(along).flatMap((x) => middles(across).map((y) => ({ x, y })));
  const within = found.filter((point) => inside(point, flat));
  return (within.length > 0 ? within : found).map(({ x, y }) => ({
    x: first.x + x * cosine - y * sine,
    y: first.y + x * sine + y * cosine,
  }));
}
