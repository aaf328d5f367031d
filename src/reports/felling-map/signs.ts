// The signs of the map, told apart by shape alone, so that a print in black and white says all. Millimetres.
import type { Point } from '../../felling/index.ts';
import { type Piece, html as xml } from '../html/markup.ts';
import type { MapMark } from './model.ts';

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

/** The sign of a thing at a place on the paper. */
export function sign(kind: MapMark['kind'], at: Point): Piece {
  const { x, y } = { x: mm(at.x), y: mm(at.y) };
  const size = SIGN_SIZE[kind];
  const cross = (half: number) =>
    `M${mm(at.x - half)} ${mm(at.y - half)}L${mm(at.x + half)} ${mm(at.y + half)}M${mm(at.x - half)} ${mm(at.y + half)}L${mm(at.x + half)} ${mm(at.y - half)}`;
  switch (kind) {
    case 'aside':
      return xml`<rect x="${mm(at.x - size)}" y="${mm(at.y - size)}" width="${2 * size}" height="${2 * size}" fill="#fff" stroke="#000" stroke-width="0.6"/><path d="${cross(size)}" stroke="#000" stroke-width="0.6"/>`;
    case 'danger':
      return xml`<path d="M${x} ${mm(at.y - size)}L${mm(at.x + size)} ${y}L${x} ${mm(at.y + size)}L${mm(at.x - size)} ${y}Z" fill="#fff" stroke="#000" stroke-width="0.6"/><path d="M${x} ${mm(at.y - 1.3)}V${mm(at.y + 0.4)}M${x} ${mm(at.y + 0.8)}V${mm(at.y + 1.3)}" stroke="#000" stroke-width="0.5"/>`;
    case 'sapling':
      return xml`<path d="M${x} ${mm(at.y - size)}L${mm(at.x + size)} ${mm(at.y + size * 0.8)}H${mm(at.x - size)}Z" fill="#000" stroke="#fff" stroke-width="0.2"/>`;
    case 'leave tree':
      return xml`<circle cx="${x}" cy="${y}" r="${size}" fill="#fff" stroke="#000" stroke-width="0.4"/>`;
    case 'stump':
      return xml`<circle cx="${x}" cy="${y}" r="${size}" fill="#fff" stroke="#000" stroke-width="0.25"/><path d="${cross(size * 0.7)}" stroke="#000" stroke-width="0.25"/>`;
    case 'stake':
      return xml`<path d="M${mm(at.x - size)} ${y}H${mm(at.x + size)}M${x} ${mm(at.y - size)}V${mm(at.y + size)}" stroke="#000" stroke-width="0.4"/>`;
    case 'work place':
      return xml`<rect x="${mm(at.x - size)}" y="${mm(at.y - size)}" width="${2 * size}" height="${2 * size}" fill="#000"/>`;
  }
}

/** A length in mm as it is written into the file: hundredths are finer than any printer. */
export function mm(value: number): number {
  return Math.round(value * 100) / 100;
}
