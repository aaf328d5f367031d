// Where the names and numbers of the drawing stand: those that must be read first have the best places. Millimetres.
import type { Point } from '../../felling/index.ts';
import { around, type Box, newLabels, type Placed } from './labels.ts';
import type { FellingMap, MapFall, MapLine, MapMark } from './model.ts';
import { ahead, type Laid } from './page.ts';
import { SIGN_SIZE } from './signs.ts';

/** Radius of the disc that holds a number. */
export const DISC = 2.1;
/** Arrows that are longer say their number again near their tips. */
const LONG_ARROW = 25;

type Named = Readonly<{
  marks: readonly MapMark[];
  lines: readonly Readonly<{ line: MapLine; middle: Point }>[];
  tips: ReadonlyMap<MapFall, Point>;
}>;

/** Names of what is set aside and of dangers come first, then those of stems; trees that stay and stumps where room is left. */
export function names(map: FellingMap, laid: Laid, box: Box, { marks, lines, tips }: Named): Placed[] {
  const { at } = laid;
  const labels = newLabels(box);
  for (const fall of map.falls) {
    labels.keep(around(at(fall), DISC));
    for (let along = 0; along <= laid.long(fall.length); along += 1.5)
      labels.keep(around(at(ahead(fall, fall.aim, (along * laid.scale) / 1000)), 0.6));
    for (const { azimuth, length } of fall.waysOut)
      for (let along = 3; along <= laid.long(length); along += 1.5)
        labels.keep(around(at(ahead(fall, azimuth, (along * laid.scale) / 1000)), 0.4));
    const tip = tips.get(fall);
    if (tip !== undefined) labels.keep(around(tip, DISC));
  }
  for (const mark of marks) labels.keep(around(at(mark), SIGN_SIZE[mark.kind]));
  const put = (mark: MapMark) =>
    labels.put(mark.label, at(mark), SIGN_SIZE[mark.kind] + 0.4, !isOptional(mark));
  return [
    ...marks.filter(({ kind }) => kind === 'aside' || kind === 'danger').map(put),
    ...map.falls.map((fall) => labels.put(fall.label, at(fall), DISC + 0.4, true)),
    ...marks.filter((mark) => mark.kind !== 'aside' && mark.kind !== 'danger' && !isOptional(mark)).map(put),
    ...lines.map(({ line, middle }) => labels.put(line.label, middle, 0.6, true)),
    ...marks.filter(isOptional).map(put),
  ].filter((name) => name !== undefined);
}

/** Trees that stay and stumps are many, and known by their places. */
function isOptional({ kind, framed }: MapMark): boolean {
  return !framed && (kind === 'leave tree' || kind === 'stump' || kind === 'stake');
}

/** Far from its stump an arrow says its number again, where that covers no other. */
export function tipNumbers(falls: readonly MapFall[], { at, long }: Laid): Map<MapFall, Point> {
  const taken = falls.map((fall) => at(fall));
  const tips = new Map<MapFall, Point>();
  for (const fall of falls.filter(({ length }) => long(length) > LONG_ARROW)) {
    const places = [0.8, 0.7, 0.6, 0.5].map((part) => at(ahead(fall, fall.aim, fall.length * part)));
    const room = (place: Point) => Math.min(...taken.map(({ x, y }) => Math.hypot(x - place.x, y - place.y)));
    const found =
      places.find((place) => room(place) > 2 * DISC) ??
      places.reduce((one, other) => (room(other) > room(one) ? other : one));
    tips.set(fall, found);
    taken.push(found);
  }
  return tips;
}

/** Where the name of a line can stand; a patch has it in the middle, where that can be seen. Undefined for one that cannot be seen. */
export function namePlace(line: MapLine, laid: Laid, isSeen: (point: Point) => boolean): Point | undefined {
  const seen = seenMiddle(line, laid, isSeen);
  const inner = laid.at(middleOf(line.points));
  return seen !== undefined && line.kind === 'patch' && isSeen(inner) ? inner : seen;
}

function middleOf(points: readonly Point[]): Point {
  const mean = (of: (point: Point) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / Math.max(1, points.length);
  return { x: mean(({ x }) => x), y: mean(({ y }) => y) };
}

/** A place in the middle of what can be seen of a line, where its name can stand. */
function seenMiddle({ points }: MapLine, { at }: Laid, isSeen: (point: Point) => boolean): Point | undefined {
  const seen = points.flatMap((to, index) => {
    const [start, end] = [at(points[index - 1] ?? to), at(to)];
    const steps = Math.min(1000, Math.max(1, Math.ceil(Math.hypot(end.x - start.x, end.y - start.y) / 2)));
    return Array.from({ length: steps }, (_, step) => ({
      x: start.x + ((end.x - start.x) * step) / steps,
      y: start.y + ((end.y - start.y) * step) / steps,
    })).filter(isSeen);
  });
  return seen[Math.floor(seen.length / 2)];
}
