// Coordinates of a file: which system they are in, whether x and y are exchanged, whether degrees and minutes are packed
// into one number, and numbers that stand for "no place". What a file leaves open is asked once; nothing is guessed.
import {
  type LonLat,
  listCrs,
  PlaceError,
  type PositionEntered,
  crs as systemOf,
  unproject,
  whyNotCrs,
} from '../../../place/index.ts';
import { amount, type Doubting } from '../doubt.ts';
import { ImportRefusal, type Vertex } from '../source.ts';
import { plainNumber } from './numbers.ts';

export type Placed = Readonly<{ where: string; vertex: Vertex }>;
/** Where the woods are, as far as the logbook knows; undefined when it knows nothing. */
export type Near = ((at: LonLat) => boolean) | undefined;
export type Read = { ok: true; position: PositionEntered; at: LonLat } | { ok: false; remedy: string };
export type CoordinateReader = Readonly<{
  /** The system that they are read in: "lonlat" or an EPSG code. */
  crs: string;
  read: (vertex: Vertex) => Read | undefined;
}>;

type Pair = Readonly<{ x: number; y: number }>;

/**
 * Looks at all coordinates of a file, asks what is open, and gives the reader for them.
 * @param said the system as the file or the person says it; undefined when neither does
 * @throws ImportRefusal for a system that is not shipped
 */
export function coordinateReader(
  all: readonly Placed[],
  { said, working, near }: { said: string | undefined; working: string | undefined; near: Near },
  doubts: Doubting,
): CoordinateReader {
  const isNowhere = placeholdersIn(all, doubts);
  const pairs = all.flatMap(({ where, vertex }) => {
    const pair = { x: Number(vertex.x), y: Number(vertex.y) };
    return isNowhere(vertex) || !Number.isFinite(pair.x) || !Number.isFinite(pair.y)
      ? []
      : [{ where, ...pair }];
  });
  const crs = checked(said ?? systemAsked(pairs, { working, near }, doubts));
  const packed = crs === 'lonlat' && packedDegrees(pairs, doubts);
  const unpacked = packed ? pairs.map(({ where, x, y }) => ({ where, x: unpack(x), y: unpack(y) })) : pairs;
  const swapped = exchanged(unpacked, { crs, near }, doubts);
  const read = (vertex: Vertex): Read | undefined => {
    if (isNowhere(vertex)) return undefined;
    const [x, y] = swapped ? [vertex.y, vertex.x] : [vertex.x, vertex.y];
    return readOne(packed ? { x: unpackedText(x), y: unpackedText(y) } : { x, y }, crs);
  };
  return { crs, read };
}

/** 0, 0 and -999 are no places in the woods. */
function placeholdersIn(all: readonly Placed[], doubts: Doubting): (vertex: Vertex) => boolean {
  const isOne = ({ x, y }: Vertex) =>
    [x, y].every((text) => /^(?:0(?:\.0+)?|-?9{3,6}(?:\.0+)?)$/.test(text.trim()));
  const found = all.filter(({ vertex }) => isOne(vertex));
  const [one] = found;
  if (one === undefined) return () => false;
  const where = found.map(({ where: place }) => place);
  const answer = doubts.ask({
    code: 'sentinel-position',
    sentence: `The coordinates are ${one.vertex.x}, ${one.vertex.y} in ${amount(where, ['place', 'places'])}; such numbers often stand for "not known".`,
    where,
    choices: [
      { answer: 'leave-out', label: 'no position was taken there' },
      { answer: 'as-written', label: 'that is the place' },
    ],
  });
  return answer === 'as-written' ? () => false : isOne;
}

function checked(crs: string): string {
  if (crs === 'lonlat' || systemOf(crs) !== undefined) return systemOf(crs)?.code ?? crs;
  throw new ImportRefusal('crs', crs, whyNotCrs(crs));
}

type Known = Readonly<{ working: string | undefined; near: Near }>;

/** Systems that bring the points to the woods are offered; without woods to hold them against, those that are likely. */
function systemAsked(pairs: readonly (Pair & { where: string })[], known: Known, doubts: Doubting): string {
  const [one] = pairs;
  if (one === undefined) return 'lonlat';
  const fits = pairs.every(({ x, y }) => Math.abs(x) <= 180 && Math.abs(y) <= 90);
  const codes = [
    ...new Set([...candidates(one, known), ...(known.working === undefined ? [] : [known.working])]),
  ];
  const choices = [
    ...(fits ? [{ answer: 'lonlat', label: 'they are longitude (x) and latitude (y), WGS 84' }] : []),
    ...codes
      .slice(0, 6)
      .map((code) => ({ answer: code, label: `they are in ${systemOf(code)?.name ?? code}` })),
  ];
  const answer = doubts.ask({
    code: 'crs',
    sentence: `Nothing says in which system the coordinates are (${one.where}: ${one.x}, ${one.y}). Any other is said with --crs EPSG:…`,
    where: pairs.map(({ where }) => where),
    choices,
  });
  return answer ?? choices[0]?.answer ?? 'lonlat';
}

function candidates(pair: Pair, { near }: Known): string[] {
  if (near === undefined) return [];
  return listCrs().flatMap(({ code }) => {
    const at = placeOf(code, pair);
    return at !== undefined && near(at) ? [code] : [];
  });
}

/** 4407.407 for 44° 7.407': read as degrees it is on no earth, and its last two whole digits are minutes. */
function packedDegrees(pairs: readonly (Pair & { where: string })[], doubts: Doubting): boolean {
  const beyond = pairs.filter(({ x, y }) => Math.abs(x) > 180 || Math.abs(y) > 180);
  const [one] = beyond;
  if (one === undefined || !pairs.every(({ x, y }) => isPacked(x, 180) && isPacked(y, 180))) return false;
  const answer = doubts.ask({
    code: 'packed-degrees',
    sentence: `${one.where}: ${one.x}, ${one.y} is no place on earth. As degrees and minutes packed into one number it is ${unpack(one.x).toFixed(5)}°, ${unpack(one.y).toFixed(5)}°.`,
    where: beyond.map(({ where }) => where),
    choices: [{ answer: 'unpack', label: 'they are degrees and minutes: read them so' }],
  });
  return answer === 'unpack';
}

function isPacked(value: number, most: number): boolean {
  const size = Math.abs(value);
  return size % 100 < 60 && Math.floor(size / 100) <= most;
}

function unpack(value: number): number {
  const size = Math.abs(value);
  return Math.sign(value) * (Math.floor(size / 100) + (size % 100) / 60);
}

function unpackedText(text: string): string {
  const value = Number(text);
  return Number.isFinite(value) ? unpack(value).toFixed(9) : text;
}

/** Longitude and latitude, or easting and northing, in the other order. */
function exchanged(
  pairs: readonly (Pair & { where: string })[],
  { crs, near }: { crs: string; near: Near },
  doubts: Doubting,
): boolean {
  const [one] = pairs;
  if (one === undefined) return false;
  const impossible = crs === 'lonlat' && pairs.some(({ y }) => Math.abs(y) > 90);
  const possible = crs !== 'lonlat' || pairs.every(({ x }) => Math.abs(x) <= 90);
  const away = (turn: boolean) => {
    const middle = pairs[Math.floor(pairs.length / 2)] ?? one;
    const at = placeOf(crs, turn ? { x: middle.y, y: middle.x } : middle);
    return at === undefined || near === undefined ? undefined : !near(at);
  };
  const likely = away(false) !== false && away(true) === false;
  if (!possible || !(impossible || likely)) return false;
  const names = crs === 'lonlat' ? 'longitude and latitude' : 'easting and northing';
  const answer = doubts.ask({
    code: 'axis-order',
    sentence: `${one.where}: ${one.x}, ${one.y} ${impossible ? 'is no place on earth as' : 'is far from the woods as'} ${names}; the other way round ${likely ? 'it is there' : 'it could be one'}.`,
    where: pairs.map(({ where }) => where),
    choices: [
      { answer: 'swap', label: 'the two numbers stand in the other order: exchange them' },
      ...(impossible ? [] : [{ answer: 'as-written', label: 'the order is right: it is far away' }]),
    ],
  });
  return answer === 'swap';
}

function readOne({ x, y }: Pick<Vertex, 'x' | 'y'>, crs: string): Read {
  const [east, north] = [plainNumber(x), plainNumber(y)];
  if (east === undefined || north === undefined)
    return { ok: false, remedy: `"${x}", "${y}" are no coordinates` };
  const at = placeOf(crs, { x: Number(east), y: Number(north) });
  if (at === undefined)
    return {
      ok: false,
      remedy: `${x}, ${y} is no place on earth in ${crs === 'lonlat' ? 'longitude and latitude' : crs}`,
    };
  if (crs === 'lonlat') return { ok: true, at, position: { how: 'fix', lat: north, lon: east } };
  return { ok: true, at, position: { how: 'grid', crs, easting: east, northing: north } };
}

function placeOf(crs: string, { x, y }: Pair): LonLat | undefined {
  if (crs === 'lonlat') return Math.abs(x) <= 180 && Math.abs(y) <= 90 ? { lon: x, lat: y } : undefined;
  try {
    return unproject(crs, { x, y });
  } catch (error) {
    if (error instanceof PlaceError) return undefined;
    throw error;
  }
}
