// The drawing itself: bands first, then lines and ways out, then falls, signs and names, so that no sapling is hidden. Millimetres.
import type { Point } from '../../felling/index.ts';
import { hatched } from './hatch.ts';
import type { Box, Placed } from './labels.ts';
import type { FellingMap, MapFall, MapLine, MapMark } from './model.ts';
import { DISC, namePlace, names, tipNumbers } from './names.ts';
import { ahead, type Laid } from './page.ts';
import { disc, group, mm, path, rectangle, type Shape, text, through, xy } from './shapes.ts';
import { sign } from './signs.ts';

/** Length of an arrow's head. */
const HEAD = 2.8;
/** A band that is wider is drawn so wide only, degrees: beyond, it would cover the map and say no more. The table has it whole. */
export const WIDEST_BAND = 30;

export type Drawing = Readonly<{
  shapes: readonly Shape[];
  /** Things whose place lies beyond the edge, and that are not drawn. */
  beyond: readonly MapMark[];
  /** What is drawn, for the key. */
  kinds: ReadonlySet<MapMark['kind'] | MapLine['kind'] | 'barred'>;
}>;

export function drawing(map: FellingMap, laid: Laid, box: Box): Drawing {
  const { at } = laid;
  const within = (point: Point, margin = 1): boolean =>
    point.x >= box.left + margin &&
    point.x <= box.right - margin &&
    point.y >= box.top + margin &&
    point.y <= box.bottom - margin;
  const marks = map.marks.filter((mark) => within(at(mark)));
  const lines = map.lines.flatMap((line) => {
    const middle = namePlace(line, laid, (point) => within(point, 0));
    return middle === undefined ? [] : [{ line, middle }];
  });
  const frame = rectangle(box.left, box.top, box.right - box.left, box.bottom - box.top);
  const tips = tipNumbers(map.falls, laid);
  const barred = map.falls.some(({ waysOut }) => waysOut.some((way) => way.barred));
  return {
    beyond: map.marks.filter((mark) => !marks.includes(mark)),
    kinds: new Set([
      ...marks.map(({ kind }) => kind),
      ...lines.map(({ line }) => line.kind),
      ...(barred ? (['barred'] as const) : []),
    ]),
    shapes: [
      group(
        [
          ...map.falls.flatMap((fall) => bandSector(fall, laid)),
          ...map.falls.flatMap((fall) => bandEdges(fall, laid)),
          ...lines.map(({ line }) => drawnLine(line, laid)),
          ...map.falls.flatMap((fall) => waysOut(fall, laid)),
          ...map.falls.map((fall) => arrow(fall, laid, tips.get(fall))),
          ...map.falls.map((fall) => stemDisc(fall, at(fall))),
          ...marks.map((mark) =>
            group(sign(mark.kind, at(mark)), { shows: mark.kind, label: mark.label, title: mark.label }),
          ),
          ...names(map, laid, box, { marks, lines, tips }).flatMap(drawnName),
        ],
        { within: frame },
      ),
      path(frame, { stroke: 0, width: 0.3 }),
    ],
  };
}

function drawnName({ text: words, x, y, led }: Placed): Shape[] {
  return [
    ...(led === undefined ? [] : [path(through(led), { stroke: 0, width: 0.12 })]),
    text(words, { x, y }, { rim: true }),
  ];
}

const drawnBand = ({ left, right }: MapFall) => ({
  left: Math.min(left, WIDEST_BAND),
  right: Math.min(right, WIDEST_BAND),
});

/** All sectors have one tone and no edge, so that where they lie over each other the paper stays light. */
function bandSector(fall: MapFall, { at, long }: Laid): Shape[] {
  const { left, right } = drawnBand(fall);
  if (left + right === 0) return [];
  const [from, to] = [
    at(ahead(fall, fall.aim - left, fall.length)),
    at(ahead(fall, fall.aim + right, fall.length)),
  ];
  const radius = mm(long(fall.length));
  const d = `M${xy(at(fall))}L${xy(from)}A${radius} ${radius} 0 0 1 ${xy(to)}Z`;
  return [group([path(d, { fill: 0.92 })], { shows: 'band', label: fall.label })];
}

/** A line where the band ends at something that would be reached; none where it is only drawn no wider. */
function bandEdges(fall: MapFall, { at }: Laid): Shape[] {
  const edges = [
    ...(fall.left > WIDEST_BAND ? [] : [fall.aim - fall.left]),
    ...(fall.right > WIDEST_BAND ? [] : [fall.aim + fall.right]),
  ];
  return edges.map((azimuth) =>
    path(through([at(fall), at(ahead(fall, azimuth, fall.length))]), { stroke: 0.6, width: 0.2 }),
  );
}

function arrow(fall: MapFall, { at, scale }: Laid, number: Point | undefined): Shape {
  const tip = at(ahead(fall, fall.aim, fall.length));
  const back = (HEAD * scale) / 1000;
  const neck = ahead(fall, fall.aim, Math.max(0, fall.length - back));
  const side = (azimuth: number) => at(ahead(neck, azimuth, back * 0.35));
  return group(
    [
      path(through([at(fall), at(neck)]), { stroke: 0, width: 0.5 }),
      path(`${through([tip, side(fall.aim + 90), side(fall.aim - 90)])}Z`, { fill: 0 }),
      ...(number === undefined
        ? []
        : [
            disc(number, 1.9, { fill: 1, stroke: 0, width: 0.25 }),
            text(
              String(fall.number),
              { x: number.x, y: number.y + 0.88 },
              {
                anchor: 'middle',
              },
            ),
          ]),
    ],
    { shows: 'fall', label: fall.label },
  );
}

function stemDisc({ label, number }: MapFall, at: Point): Shape {
  return group(
    [
      disc(at, DISC, { fill: 0, stroke: 1, width: 0.3 }),
      text(
        String(number),
        { x: at.x, y: at.y + 0.88 },
        {
          anchor: 'middle',
          weight: 'bold',
          tone: 1,
        },
      ),
    ],
    { shows: 'stem', label, title: `${number}: ${label}` },
  );
}

function waysOut(fall: MapFall, { at, scale }: Laid): Shape[] {
  return fall.waysOut.map(({ azimuth, length, barred }) => {
    const end = ahead(fall, azimuth, length);
    const bar = (0.9 * scale) / 1000;
    const cross = [azimuth + 45, azimuth - 45].map((across) =>
      through([at(ahead(end, across, bar)), at(ahead(end, across + 180, bar))]),
    );
    return group(
      [
        path(through([at(fall), at(end)]), { stroke: 0, width: 0.35, dash: [1.2, 0.8] }),
        ...(barred ? [path(cross.join(''), { stroke: 0, width: 0.45 })] : []),
      ],
      { shows: barred ? 'way out, barred' : 'way out', label: fall.label },
    );
  });
}

function drawnLine({ kind, label, points }: MapLine, { at }: Laid): Shape {
  const drawn = points.map(at);
  const says = { shows: kind, label, title: label };
  const d = through(drawn);
  return kind === 'line'
    ? group([path(d, { stroke: 0, width: 0.3, dash: [4, 0.8, 0.6, 0.8] })], says)
    : group(
        [
          group([path(hatched(drawn), { stroke: 0, width: 0.12 })], { within: `${d}Z` }),
          path(`${d}Z`, { stroke: 0, width: 0.3, dash: [0.3, 0.5] }),
        ],
        says,
      );
}
