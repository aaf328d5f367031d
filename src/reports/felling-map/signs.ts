// The signs of the map, told apart by shape alone, so that a print in black and white says all. Millimetres.
import type { Point } from '../../felling/index.ts';
import type { MapMark } from './model.ts';
import { disc, path, rectangle, type Shape, through } from './shapes.ts';

/** Half the size of each sign, which names keep clear of. */
export const SIGN_SIZE: Readonly<Record<MapMark['kind'], number>> = {
  aside: 2,
  danger: 2.4,
  sapling: 1.3,
  'leave tree': 1.2,
  stump: 1,
  stake: 1,
  'work place': 1.3,
};

export const SIGN_WORDS: Readonly<Record<MapMark['kind'], string>> = {
  aside: 'NOT planned, stands',
  danger: 'danger',
  sapling: 'sapling',
  'leave tree': 'leave tree',
  stump: 'stump',
  stake: 'stake',
  'work place': 'people work here',
};

/** The sign of a thing at a place on the paper. @param part of its full size, as in the key */
export function sign(kind: MapMark['kind'], { x, y }: Point, part = 1): readonly Shape[] {
  const size = SIGN_SIZE[kind] * part;
  const off = (right: number, down: number): Point => ({ x: x + right * part, y: y + down * part });
  const line = (width: number) => ({ stroke: 0, width: width * part }) as const;
  const cross = (half: number) =>
    through([off(-half, -half), off(half, half)]) + through([off(-half, half), off(half, -half)]);
  const full = SIGN_SIZE[kind];
  const square = rectangle(x - size, y - size, 2 * size, 2 * size);
  switch (kind) {
    case 'aside':
      return [path(square, { fill: 1, ...line(0.6) }), path(cross(full), line(0.6))];
    case 'danger':
      return [
        path(`${through([off(0, -full), off(full, 0), off(0, full), off(-full, 0)])}Z`, {
          fill: 1,
          ...line(0.6),
        }),
        path(through([off(0, -1.3), off(0, 0.4)]) + through([off(0, 0.8), off(0, 1.3)]), line(0.5)),
      ];
    case 'sapling':
      return [
        path(`${through([off(0, -full), off(full, 0.8 * full), off(-full, 0.8 * full)])}Z`, {
          fill: 0,
          stroke: 1,
          width: 0.2 * part,
        }),
      ];
    case 'leave tree':
      return [disc({ x, y }, size, { fill: 1, ...line(0.4) })];
    case 'stump':
      return [disc({ x, y }, size, { fill: 1, ...line(0.25) }), path(cross(0.7 * full), line(0.25))];
    case 'stake':
      return [
        path(through([off(-full, 0), off(full, 0)]) + through([off(0, -full), off(0, full)]), line(0.4)),
      ];
    case 'work place':
      return [path(square, { fill: 0 })];
  }
}
