// The key: what each sign and line of the drawing means. What is not drawn has no place in it.
import type { Point } from '../../felling/index.ts';
import { type Drawing, WIDEST_BAND } from './drawing.ts';
import { hatched } from './hatch.ts';
import { textWidth } from './letters.ts';
import { type FellingMap, MARK_KINDS } from './model.ts';
import { disc, path, rectangle, type Shape, SMALL, through } from './shapes.ts';
import { SIGN_WORDS, sign } from './signs.ts';

type KeyItem = Readonly<{ words: string; sign: (at: Point) => readonly Shape[] }>;

/** In lines from 0; x in mm from the left. */
export type Seated = KeyItem & Readonly<{ x: number; line: number }>;

/** @param kinds what is drawn; all that could be, if left out */
export function keyOf(map: FellingMap, kinds: Drawing['kinds'] = everything(map)): readonly KeyItem[] {
  const wide = map.falls.some(({ left, right }) => Math.max(left, right) > WIDEST_BAND);
  return [
    ...(map.falls.length === 0
      ? []
      : [
          {
            words: 'stem by its place in the order; arrow as long as the stem',
            sign: (at: Point) => [disc(at, 1.3, { fill: 0 })],
          },
          {
            words: `how far the aim may be off before another thing is reached${wide ? `; drawn to ${WIDEST_BAND}°` : ''}`,
            sign: (at: Point) => [path(swatch(at), { fill: 0.92, stroke: 0.6, width: 0.15 })],
          },
          {
            words: `way out${kinds.has('barred') ? '; crossed: blocked or steep' : ''}`,
            sign: stroke([1.2, 0.8]),
          },
        ]),
    ...MARK_KINDS.filter((kind) => kinds.has(kind)).map((kind) => ({
      words: SIGN_WORDS[kind],
      sign: (at: Point) => sign(kind, at, 0.65),
    })),
    ...(kinds.has('patch') ? [{ words: 'regeneration', sign: patchSwatch }] : []),
    ...(kinds.has('line') ? [{ words: 'line on the ground', sign: stroke([1.6, 0.6, 0.4, 0.6]) }] : []),
  ];
}

export function seated(items: readonly KeyItem[], inside: number): readonly Seated[] {
  let [x, line] = [0, 0];
  return items.map((item) => {
    const wide = 5.8 + textWidth(item.words, SMALL) + 2.5;
    if (x > 0 && x + wide - 2.5 > inside) [x, line] = [0, line + 1];
    const seat = { ...item, x, line };
    x += wide;
    return seat;
  });
}

export function keyLines(items: readonly Seated[]): number {
  return (items.at(-1)?.line ?? 0) + 1;
}

function everything({ marks, lines }: FellingMap): Drawing['kinds'] {
  return new Set([...marks.map(({ kind }) => kind), ...lines.map(({ kind }) => kind), 'barred' as const]);
}

function swatch({ x, y }: Point): string {
  return rectangle(x - 2, y - 1, 4, 2);
}

function patchSwatch({ x, y }: Point): readonly Shape[] {
  const corners = [
    { x: x - 2, y: y - 1 },
    { x: x + 2, y: y + 1 },
  ];
  const within = swatch({ x, y });
  return [
    { is: 'group', shapes: [path(hatched(corners), { stroke: 0, width: 0.12 })], within },
    path(within, { stroke: 0, width: 0.3, dash: [0.3, 0.5] }),
  ];
}

function stroke(dash: readonly number[]) {
  return ({ x, y }: Point): readonly Shape[] => [
    path(
      through([
        { x: x - 2.2, y },
        { x: x + 2.2, y },
      ]),
      { stroke: 0, width: 0.35, dash },
    ),
  ];
}
