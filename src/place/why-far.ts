/**
 * Why something may lie far from where it belongs: each usual slip is undone, and what then comes near is proposed.
 *
 * Datum shifts are the mean ones of NIMA TR 8350.2 (three translations, 5-15 m; from memory): enough to recognize a
 * slip, and never used to place anything.
 */
import proj4 from 'proj4';
import { lengthIn } from '../measure/index.ts';
import { type CrsInfo, crs, definitionOf, listCrs } from './crs.ts';
import type { LonLat, PositionEntered, Quantity, Resolved, Unresolved } from './position.ts';
import { isUnresolved } from './position.ts';
import { unproject } from './projection.ts';
import { distanceToRing } from './ring.ts';
import { contains } from './zones.ts';

/** What was probably meant: the cause in words, where it would lie, and what to type where that can be told. */
export type Meant = {
  readonly cause: 'axes' | 'sign' | 'packed' | 'unit' | 'zone' | 'degrees' | 'direction' | 'datum';
  readonly words: string;
  readonly at: LonLat;
  readonly text?: string;
};

type Where = {
  /** Edges of blocks, or single points. */
  readonly near: readonly (readonly LonLat[])[];
  /** How far from them something may lie, metres. */
  readonly metres: number;
  /** Works out a position as the logbook would. */
  readonly resolve: (entered: PositionEntered) => Resolved | Unresolved;
};

type Grid = Extract<PositionEntered, { how: 'grid' }>;
type Fix = Extract<PositionEntered, { how: 'fix' }>;
/** A slip undone; `closer` where it is believed only this near to the woods, metres. */
type Undone = Omit<Meant, 'at'> & { readonly at: LonLat | undefined; readonly closer?: number };

/** A datum is a guess from some hundred metres, so undoing it must lead nearly into the woods, metres. */
const DATUM_METRES = 30;

/** What was probably meant by a position far from where it belongs, the likeliest first; none if no slip explains it. */
export function whyFar(entered: PositionEntered, where: Where): readonly Meant[] {
  const found = new Map<string, Meant>();
  for (const { at, closer, ...meant } of undone(entered, where)) {
    const limit = Math.min(where.metres, closer ?? Number.POSITIVE_INFINITY);
    if (at === undefined || found.has(meant.cause)) continue;
    if (where.near.some((ring) => distanceToRing(at, ring) <= limit))
      found.set(meant.cause, { ...meant, at });
  }
  return [...found.values()];
}

function undone(entered: PositionEntered, where: Where): Iterable<Undone> {
  switch (entered.how) {
    case 'fix':
      return aboutFix(entered);
    case 'grid':
      return aboutGrid(entered, where);
    case 'offset':
    case 'local':
      return aboutTape(entered, where);
    default:
      return [];
  }
}

function* aboutFix({ lat, lon }: Fix): Generator<Undone> {
  const signs = [
    [1, 1],
    [1, -1],
    [-1, 1],
    [-1, -1],
  ] as const;
  const fixAs = (latitude: number, longitude: number) =>
    Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180 ? { lat: latitude, lon: longitude } : undefined;
  const written = (latitude: string, longitude: string, [one, other]: readonly [number, number]) =>
    `${signed(latitude, one)}, ${signed(longitude, other)}`;
  const [first, second] = [Number(lat), Number(lon)];
  for (const sign of signs)
    yield {
      cause: 'axes',
      words: 'latitude and longitude were exchanged',
      at: fixAs(second * sign[0], first * sign[1]),
      text: written(lon, lat, sign),
    };
  for (const sign of signs)
    yield {
      cause: 'sign',
      words: sign[0] < 0 ? 'the hemisphere is the other one' : 'west and east were exchanged',
      at: fixAs(first * sign[0], second * sign[1]),
      text: written(lat, lon, sign),
    };
  for (const unpack of [minutesIn, secondsIn]) {
    const [latitude, longitude] = [unpack(lat), unpack(lon)];
    if (latitude === undefined || longitude === undefined) continue;
    for (const sign of signs)
      yield {
        cause: 'packed',
        words:
          unpack === minutesIn
            ? 'degrees and minutes were written together as if they were decimals'
            : 'degrees, minutes and seconds were written together as if they were decimals',
        at: fixAs(latitude * sign[0], longitude * sign[1]),
        text: `${(latitude * sign[0]).toFixed(6)}, ${(longitude * sign[1]).toFixed(6)}`,
      };
  }
  for (const datum of oldDatums)
    yield {
      cause: 'datum',
      words: `the coordinates are on ${datum.name}`,
      at: shifted('+proj=longlat', [second, first], datum.definition),
      closer: DATUM_METRES,
    };
}

/** The number without its sign, or with the other one. */
function signed(text: string, sign: number): string {
  if (sign > 0) return text;
  return text.startsWith('-') ? text.slice(1) : `-${text}`;
}

/** "35.42726" as 35° 42.726'. */
function minutesIn(text: string): number | undefined {
  const [, sign = '', degrees = '', whole = '', part = ''] = /^(-?)(\d{1,3})\.(\d{2})(\d*)$/.exec(text) ?? [];
  const minutes = Number(`${whole}.${part || '0'}`);
  if (whole === '' || minutes >= 60) return undefined;
  return (sign === '-' ? -1 : 1) * (Number(degrees) + minutes / 60);
}

/** "35.424356" as 35° 42' 43.56". */
function secondsIn(text: string): number | undefined {
  const [, sign = '', degrees = '', minutes = '', whole = '', part = ''] =
    /^(-?)(\d{1,3})\.(\d{2})(\d{2})(\d*)$/.exec(text) ?? [];
  const seconds = Number(`${whole}.${part || '0'}`);
  if (whole === '' || Number(minutes) >= 60 || seconds >= 60) return undefined;
  return (sign === '-' ? -1 : 1) * (Number(degrees) + Number(minutes) / 60 + seconds / 3600);
}

function* aboutGrid(entered: Grid, where: Where): Generator<Undone> {
  const info = crs(entered.crs);
  const [x, y] = [Number(entered.easting), Number(entered.northing)];
  if (info === undefined || !Number.isFinite(x) || !Number.isFinite(y)) return;
  const { code } = info;
  yield {
    cause: 'axes',
    words: 'easting and northing were exchanged',
    at: placeIn(code, y, x),
    text: `${code} ${entered.northing}, ${entered.easting}`,
  };
  if (Math.abs(x) <= 180 && Math.abs(y) <= 180) {
    for (const [lat, lon] of [
      [entered.easting, entered.northing],
      [entered.northing, entered.easting],
    ] as const)
      yield {
        cause: 'degrees',
        words: 'these are latitude and longitude',
        at: Math.abs(Number(lat)) <= 90 ? { lat: Number(lat), lon: Number(lon) } : undefined,
        text: `${lat}, ${lon}`,
      };
  }
  yield* otherUnits(info, x, y);
  yield* otherSystems(info, entered, where);
  const definition = info.kind === 'UTM' ? (definitionOf(code) ?? '') : '';
  for (const datum of definition === '' ? [] : oldDatums)
    yield {
      cause: 'datum',
      words: `the coordinates are on ${datum.name}`,
      at: shifted(definition.replace(/\+ellps=\S+/, ''), [x, y], datum.definition),
      closer: DATUM_METRES,
    };
}

/** Numbers in feet given to a system in metres, or the other way round. */
function* otherUnits({ code, unit }: CrsInfo, x: number, y: number): Generator<Undone> {
  const others = (['m', 'us-ft', 'ft'] as const).filter((other) => other !== unit);
  for (const other of others) {
    const size = lengthIn(1, other, unit);
    yield {
      cause: 'unit',
      words: `the numbers are in ${unitWords[other]} and ${code} is in ${unitWords[unit]}`,
      at: placeIn(code, x * size, y * size),
      text: `${code} ${(x * size).toFixed(2)}, ${(y * size).toFixed(2)}`,
    };
  }
}

const unitWords = { m: 'metres', ft: 'international feet', 'us-ft': 'US survey feet' } as const;

/** The same numbers in another zone, or in the other hemisphere's. */
function* otherSystems(info: CrsInfo, { easting, northing }: Grid, { near }: Where): Generator<Undone> {
  const middle = near[0]?.[0];
  if (middle === undefined) return;
  const others = listCrs()
    .filter((other) => other.code !== info.code && contains(other, middle, 1))
    .sort((one, other) => Number(other.datum === info.datum) - Number(one.datum === info.datum));
  for (const other of others)
    yield {
      cause: 'zone',
      words: `the coordinates are in ${other.name}, and not in ${info.name}`,
      at: placeIn(other.code, Number(easting), Number(northing)),
      text: `${other.code} ${easting}, ${northing}`,
    };
}

function* aboutTape(
  entered: Extract<PositionEntered, { how: 'offset' | 'local' }>,
  { resolve }: Where,
): Generator<Undone> {
  const at = (instead: PositionEntered) => {
    const found = resolve(instead);
    return isUnresolved(found) ? undefined : found.at;
  };
  if (entered.how === 'local') {
    const { x, y } = entered;
    yield { cause: 'axes', words: 'x and y were exchanged', at: at({ ...entered, x: y, y: x }) };
    for (const unit of ['ft', 'm'])
      yield {
        cause: 'unit',
        words: `x and y are in ${unit}`,
        at: at({ ...entered, x: inUnit(x, unit), y: inUnit(y, unit) }),
      };
    return;
  }
  for (const unit of ['ft', 'm'])
    yield {
      cause: 'unit',
      words: `the distance is in ${unit}`,
      at: at({ ...entered, distance: inUnit(entered.distance, unit) }),
    };
  const back = (Number(entered.azimuth.value) + 180) % 360;
  yield {
    cause: 'direction',
    words: `the azimuth is the one back, ${back}°`,
    at: at({ ...entered, azimuth: { ...entered.azimuth, value: back.toFixed(6) } }),
  };
}

function inUnit({ text, value }: Quantity, unit: string): Quantity {
  return { text, value, unit };
}

function placeIn(code: string, x: number, y: number): LonLat | undefined {
  try {
    return unproject(code, { x, y });
  } catch {
    return undefined;
  }
}

/** Old datums that coordinates of the woods are still found on, with their mean shifts to WGS 84. */
const oldDatums = [
  { name: 'NAD27', definition: '+ellps=clrk66 +towgs84=-8,160,176' },
  { name: 'ED50', definition: '+ellps=intl +towgs84=-87,-98,-121' },
  { name: 'OSGB36', definition: '+ellps=airy +towgs84=375,-111,431' },
  { name: 'Tokyo', definition: '+ellps=bessel +towgs84=-148,507,685' },
  { name: 'AGD66', definition: '+ellps=aust_SA +towgs84=-133,-48,148' },
  { name: 'NZGD49', definition: '+ellps=intl +towgs84=84,-22,209' },
] as const;

function shifted(projection: string, point: [number, number], datum: string): LonLat | undefined {
  try {
    const [lon, lat] = proj4(`${projection} ${datum}`, '+proj=longlat +ellps=WGS84 +towgs84=0,0,0', point);
    return Number.isFinite(lon) && Math.abs(lat) <= 90 ? { lon, lat } : undefined;
  } catch {
    return undefined;
  }
}
