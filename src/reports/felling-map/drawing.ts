// The drawing itself: bands first, then lines and ways out, then falls, signs and names, so that no sapling is hidden. Millimetres.
import type { Point } from '../../felling/index.ts';
import { type Piece, html as xml } from '../html/markup.ts';
import { around, type Box, newLabels, type Placed } from './labels.ts';
import type { FellingMap, MapFall, MapLine, MapMark } from './model.ts';
import { ahead, type Laid } from './page.ts';
import { mm, SIGN_SIZE, sign } from './signs.ts';

/** Radius of the disc that holds a number, and length of an arrow's head. */
const DISC = 2.1;
const HEAD = 2.8;

export type Drawing = Readonly<{
  piece: Piece;
  /** Things whose place lies beyond the edge, and that are not drawn. */
  beyond: readonly MapMark[];
}>;

export function drawing(map: FellingMap, laid: Laid, box: Box): Drawing {
  const { at } = laid;
  const labels = newLabels(box);
  const within = (mark: MapMark): boolean => {
    const { x, y } = at(mark);
    return x >= box.left + 1 && x <= box.right - 1 && y >= box.top + 1 && y <= box.bottom - 1;
  };
  const marks = map.marks.filter(within);
  for (const fall of map.falls) {
    labels.keep(around(at(fall), DISC));
    for (let along = 0; along <= laid.long(fall.length); along += 1.5)
      labels.keep(around(at(ahead(fall, fall.aim, (along * laid.scale) / 1000)), 0.6));
  }
  for (const mark of marks) labels.keep(around(at(mark), SIGN_SIZE[mark.kind]));
  // Names that must stand come first and have the best places.
  const named = [...marks].sort((a, b) => Number(optional(a)) - Number(optional(b)));
  const texts = [
    ...map.falls.map((fall) => labels.put(fall.label, at(fall), DISC + 0.4, true)),
    ...named.map((mark) => labels.put(mark.label, at(mark), SIGN_SIZE[mark.kind] + 0.4, !optional(mark))),
    ...map.lines.map((line) => {
      const middle = seenMiddle(line, laid, box);
      return middle && labels.put(line.label, middle, 0.6, true);
    }),
  ].filter((text) => text !== undefined);
  return {
    beyond: map.marks.filter((mark) => !within(mark)),
    piece: xml`<g clip-path="url(#drawing)">
${map.falls.map((fall) => bandSector(fall, laid))}
${map.falls.map((fall) => bandEdges(fall, laid))}
${map.lines.map((line) => drawnLine(line, laid))}
${map.falls.map((fall) => waysOut(fall, laid))}
${map.falls.map((fall) => arrow(fall, laid))}
${map.falls.map((fall) => disc(fall, at(fall)))}
${marks.map(
  (
    mark,
  ) => xml`<g data-is="${mark.kind}" data-label="${mark.label}"><title>${mark.label}</title>${sign(mark.kind, at(mark))}</g>
`,
)}
${texts.map(drawnText)}
</g>
<rect x="${mm(box.left)}" y="${mm(box.top)}" width="${mm(box.right - box.left)}" height="${mm(box.bottom - box.top)}" fill="none" stroke="#000" stroke-width="0.3"/>`,
  };
}

/** Trees that stay and stumps are many, and known by their places. */
function optional({ kind }: MapMark): boolean {
  return kind === 'leave tree' || kind === 'stump' || kind === 'stake';
}

function drawnText({ text, x, y }: Placed): Piece {
  return xml`<text x="${mm(x)}" y="${mm(y)}" stroke="#fff" stroke-width="0.7" stroke-linejoin="round" paint-order="stroke">${text}</text>
`;
}

/** All sectors have one tone and no edge, so that where they lie over each other the paper stays light. */
function bandSector(fall: MapFall, { at, long }: Laid): Piece {
  if (fall.left + fall.right === 0) return xml``;
  const [from, to, middle] = [
    at(ahead(fall, fall.aim - fall.left, fall.length)),
    at(ahead(fall, fall.aim + fall.right, fall.length)),
    at(fall),
  ];
  const radius = mm(long(fall.length));
  return xml`<path data-is="band" d="M${point(middle)}L${point(from)}A${radius} ${radius} 0 0 1 ${point(to)}Z" fill="#ebebeb"/>
`;
}

function bandEdges(fall: MapFall, { at }: Laid): Piece {
  return xml`<path d="${[fall.aim - fall.left, fall.aim + fall.right].map(
    (azimuth) => `M${point(at(fall))}L${point(at(ahead(fall, azimuth, fall.length)))}`,
  )}" fill="none" stroke="#999" stroke-width="0.15"/>
`;
}

function arrow(fall: MapFall, { at, long, scale }: Laid): Piece {
  const tip = at(ahead(fall, fall.aim, fall.length));
  const back = (HEAD * scale) / 1000;
  const neck = ahead(fall, fall.aim, Math.max(0, fall.length - back));
  const side = (azimuth: number) => point(at(ahead(neck, azimuth, back * 0.35)));
  return xml`<g data-is="fall" data-label="${fall.label}"><path d="M${point(at(fall))}L${point(at(neck))}" stroke="#000" stroke-width="0.5"/>
<path d="M${point(tip)}L${side(fall.aim + 90)}L${side(fall.aim - 90)}Z" fill="#000"/>
${long(fall.length) > 25 && tipNumber(fall, at(ahead(fall, fall.aim, fall.length * 0.8)))}</g>
`;
}

/** Far from its stump an arrow says its number again. */
function tipNumber({ number }: MapFall, { x, y }: Point): Piece {
  return xml`<circle cx="${mm(x)}" cy="${mm(y)}" r="1.9" fill="#fff" stroke="#000" stroke-width="0.25"/><text x="${mm(x)}" y="${mm(y + 0.88)}" text-anchor="middle">${number}</text>`;
}

function disc({ label, number }: MapFall, { x, y }: Point): Piece {
  return xml`<g data-is="stem" data-label="${label}"><title>${number}: ${label}</title><circle cx="${mm(x)}" cy="${mm(y)}" r="${DISC}" fill="#000" stroke="#fff" stroke-width="0.3"/><text x="${mm(x)}" y="${mm(y + 0.88)}" text-anchor="middle" font-weight="bold" fill="#fff">${number}</text></g>
`;
}

function waysOut(fall: MapFall, { at, scale }: Laid): readonly Piece[] {
  return fall.waysOut.map(({ azimuth, length, barred }) => {
    const end = ahead(fall, azimuth, length);
    const bar = (0.9 * scale) / 1000;
    const strokes = [azimuth + 45, azimuth - 45].map(
      (across) => `M${point(at(ahead(end, across, bar)))}L${point(at(ahead(end, across + 180, bar)))}`,
    );
    return xml`<path data-is="way out" d="M${point(at(fall))}L${point(at(end))}" stroke="#000" stroke-width="0.35" stroke-dasharray="1.2 0.8"/>
${barred && xml`<path d="${strokes}" stroke="#000" stroke-width="0.45"/>`}`;
  });
}

function drawnLine({ kind, label, points }: MapLine, { at }: Laid): Piece {
  const path = points.map((one, index) => `${index === 0 ? 'M' : 'L'}${point(at(one))}`).join('');
  return kind === 'patch'
    ? xml`<path data-is="patch" data-label="${label}" d="${path}Z" fill="url(#hatch)" stroke="#000" stroke-width="0.3" stroke-dasharray="0.3 0.5"><title>${label}</title></path>
`
    : xml`<path data-is="line" data-label="${label}" d="${path}" fill="none" stroke="#000" stroke-width="0.3" stroke-dasharray="4 0.8 0.6 0.8"><title>${label}</title></path>
`;
}

/** A place in the middle of what can be seen of a line, where its name can stand. */
function seenMiddle({ points }: MapLine, { at }: Laid, box: Box): Point | undefined {
  const seen = points.flatMap((to, index) => {
    const [start, end] = [at(points[index - 1] ?? to), at(to)];
    const steps = Math.min(1000, Math.max(1, Math.ceil(Math.hypot(end.x - start.x, end.y - start.y) / 2)));
    return Array.from({ length: steps }, (_, step) => ({
      x: start.x + ((end.x - start.x) * step) / steps,
      y: start.y + ((end.y - start.y) * step) / steps,
    })).filter(({ x, y }) => x > box.left && x < box.right && y > box.top && y < box.bottom);
  });
  return seen[Math.floor(seen.length / 2)];
}

function point({ x, y }: Point): string {
  return `${mm(x)} ${mm(y)}`;
}
