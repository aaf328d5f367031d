/**
 * The reference systems that are shipped, by EPSG code.
 *
 * Only systems whose datum needs no shift to WGS 84 beyond 1–2 m are here: everything else is refused with a sentence,
 * because a shift left out, or done without its grid, puts a stem metres off without anybody noticing.
 */
import table from './crs.gen.json' with { type: 'json' };

/** What sort of system it is. */
export type CrsKind = 'UTM' | 'State Plane' | 'national';

/** A reference system. Coordinates are always easting first, whatever order the authority lists its axes in. */
export type CrsInfo = {
  /** For example "EPSG:2264". */
  readonly code: string;
  readonly name: string;
  /** Unit of easting and northing. `ft` is the international foot, `us-ft` the US survey foot. */
  readonly unit: 'm' | 'ft' | 'us-ft';
  readonly kind: CrsKind;
  readonly datum: string;
  /** True when the projection keeps angles, so that a grid azimuth means something. */
  readonly conformal: boolean;
  /** Where it is meant to be used, degrees. `west` is greater than `east` across the antimeridian. */
  readonly bounds: {
    readonly west: number;
    readonly south: number;
    readonly east: number;
    readonly north: number;
  };
  /** How far its coordinates may stand off from WGS 84 fixes, in a sentence. */
  readonly note: string;
};

type Row = (typeof table.systems)[number];

let index: ReadonlyMap<string, Row> | undefined;
let refusals: ReadonlyMap<number, string> | undefined;

/** The reference system of that code ("EPSG:2264"; also "epsg:2264" and "2264"), or undefined: then ask {@link whyNotCrs}. */
export function crs(code: string): CrsInfo | undefined {
  const row = rowOf(code);
  return row === undefined ? undefined : infoOf(row);
}

/** All shipped systems, in the order of kind and code. */
export function listCrs(): readonly CrsInfo[] {
  return table.systems.map(infoOf);
}

/** Why a code that {@link crs} does not know is refused, and what to do instead: one or two plain sentences. */
export function whyNotCrs(code: string): string {
  const number = numberOf(code);
  if (number === undefined) {
    return `"${code}" is no EPSG code; give one such as EPSG:2264.`;
  }
  if (number === '4326') {
    return 'EPSG:4326 is latitude and longitude; give them as a fix (latitude, longitude), not as easting and northing.';
  }
  if (number === '3857') {
    return 'EPSG:3857 (web Mercator) is for looking at maps: it stretches lengths by a third and more in temperate latitudes; use UTM or a State Plane zone.';
  }
  refusals ??= new Map(
    table.refused.flatMap(({ datum, codes }) => codes.map((each) => [each, datum] as const)),
  );
  const datum = refusals.get(Number(number));
  if (datum === undefined) {
    return `EPSG:${number} is not among the reference systems known here; look the code up, or give the position as latitude and longitude in WGS 84.`;
  }
  const shipped = table.systems.some((row) => row.datum === datum);
  const reason = shipped
    ? `EPSG:${number} is on ${datum}, but its grid has not been checked here and is not shipped`
    : `EPSG:${number} is on ${datum}; without that datum's exact shift every position could be metres off, and the shift is not shipped`;
  return `${reason}. Convert the coordinates with a desktop GIS to WGS 84, UTM or a State Plane zone on NAD83 and enter those.`;
}

/** Definition, unit and angle-keeping of a shipped system, for the room's own projecting. */
export function definitionOf(code: string): string | undefined {
  return rowOf(code)?.proj4;
}

function rowOf(code: string): Row | undefined {
  index ??= new Map(table.systems.map((row) => [row.code, row]));
  return index.get(code) ?? index.get(`EPSG:${numberOf(code) ?? ''}`);
}

function numberOf(code: string): string | undefined {
  return /^(?:EPSG:)?(\d{4,5})$/i.exec(code.trim())?.[1];
}

function infoOf(row: Row): CrsInfo {
  const [west = Number.NaN, south = Number.NaN, east = Number.NaN, north = Number.NaN] = row.bounds;
  return {
    code: row.code,
    name: row.name,
    unit: row.unit === 'ft' || row.unit === 'us-ft' ? row.unit : 'm',
    kind: row.kind === 'UTM' || row.kind === 'State Plane' ? row.kind : 'national',
    datum: row.datum,
    conformal: row.conformal,
    bounds: { west, south, east, north },
    note: noteOn(row.datum),
  };
}

/** Sizes of the offsets: common practice and the epochs of the frames, from memory. */
function noteOn(datum: string): string {
  if (datum === 'WGS 84') return 'Positions of a GNSS receiver are in this datum.';
  if (datum.startsWith('NAD83')) {
    return `${datum} is taken as WGS 84; fixes of a GNSS receiver can stand 1–2 m off its survey marks.`;
  }
  return `${datum} is taken as WGS 84; fixes of a GNSS receiver can stand up to about 2 m off its survey marks as the plates move.`;
}
