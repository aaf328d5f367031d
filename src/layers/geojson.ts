// A layer as GeoJSON, in one of two products that are never mixed:
//  - RFC 7946: WGS 84 longitude and latitude, 7 decimals (about 1 cm), right-hand rule, no crs member;
//  - projected: easting and northing in the unit of a named reference system, with the crs member of the
//    2008 format and the code in the file name. Desktop GIS honours that member, and takes a file without it
//    for longitude and latitude. 3 decimals for metres and feet alike: a millimetre, or a third of one, is far
//    below any tape, and rounding adds nothing.
import {
  type CrsInfo,
  crs as crsInfo,
  type LonLat,
  PlaceError,
  project,
  unproject,
  whyNotCrs,
} from '../place/index.ts';
import type { Feature, FeatureCollection, Geometry, NamedCrs, Position } from './collection.ts';
import type { GeometryType, Layer, LayerFeature, LeftOut, View } from './layer.ts';
import { problemsOf } from './problems.ts';
import { isCounterclockwise } from './winding.ts';

const DEGREE_DECIMALS = 7;
const GRID_DECIMALS = 3;
/** Coordinates that do not lead back to where they came from, to about a centimetre, are none to be handed on. */
const TURNED_BACK_DEGREES = 1e-7;

export type GeoJsonOptions = Readonly<{
  /** Code of a shipped reference system ("EPSG:2264") for the projected product; without it RFC 7946. */
  crs?: string;
  /** Tree head of the log, "SIZE:ROOT", to be written into the file. */
  head?: string;
}>;

export type GeoJson = Readonly<{ collection: FeatureCollection; leftOut: readonly LeftOut[] }>;

/**
 * A layer as a feature collection. Features whose geometry could mislead a reader are left out and listed.
 * @throws PlaceError for a reference system that is not shipped
 */
export function toGeoJson(layer: Layer, view: View, options: GeoJsonOptions = {}): GeoJson {
  const product = productFor(options.crs);
  const content = layer.features(view);
  const leftOut = [...content.leftOut];
  const features: Feature[] = [];
  for (const feature of content.features) {
    try {
      features.push(written(feature, layer.geometry, product.position));
    } catch (error) {
      if (!(error instanceof PlaceError)) throw error;
      leftOut.push({ label: feature.label, why: error.message });
    }
  }
  const head: FeatureCollection = {
    type: 'FeatureCollection',
    ...(product.crs === undefined ? {} : { crs: product.crs }),
    name: layer.name,
    title: layer.title,
    description: layer.help,
    geometryType: layer.geometry,
    datumNote: product.datumNote,
    ...(options.head === undefined ? {} : { head: options.head }),
    leftOut: [],
    features: [],
  };
  const wrong = new Map<number, string>();
  for (const { index, sentence } of problemsOf({ ...head, features })) {
    wrong.set(index, [wrong.get(index), sentence].filter(Boolean).join(' '));
  }
  for (const [index, why] of wrong) {
    leftOut.push({ label: String(features[index]?.properties.label ?? layer.name), why });
  }
  const sound = features.filter((_, index) => !wrong.has(index));
  return { collection: { ...head, leftOut, features: sound }, leftOut };
}

/**
 * The text of a layer's collection as it goes into a file: one feature a line, so that two exports can be
 * compared. Whole numbers in a column of numbers are written 36.0: desktop GIS guesses a column's type from its
 * values, and would call it an integer today and a real number tomorrow.
 */
export function geoJsonText(
  { features, ...members }: FeatureCollection,
  layer: Pick<Layer, 'columns'>,
): string {
  const head = JSON.stringify(members).slice(0, -1);
  const numbers = new Set(layer.columns.filter(({ type }) => type === 'number').map(({ name }) => name));
  const lines = features.map(({ properties, ...feature }) => {
    const told = Object.entries(properties).map(([name, value]) => {
      const whole = numbers.has(name) && Number.isInteger(value);
      return `${JSON.stringify(name)}:${whole ? `${String(value)}.0` : JSON.stringify(value)}`;
    });
    return `${JSON.stringify(feature).slice(0, -1)},"properties":{${told.join(',')}}}`;
  });
  return `${head},"features":[\n${lines.join(',\n')}\n]}\n`;
}

/**
 * The file name of a layer: "stems.geojson", or with the code of its reference system "stems.epsg2264.geojson".
 * @throws PlaceError for a reference system that is not shipped
 */
export function fileName(layer: Pick<Layer, 'name'>, crs?: string): string {
  const code = crs === undefined ? '' : `.${shipped(crs).code.toLowerCase().replace(':', '')}`;
  return `${layer.name}${code}.geojson`;
}

function shipped(code: string): CrsInfo {
  const info = crsInfo(code);
  if (info !== undefined) return info;
  throw new PlaceError('crs', code, `Layers cannot be written in ${code}.`, whyNotCrs(code));
}

type Product = Readonly<{ position: (at: LonLat) => Position; datumNote: string; crs?: NamedCrs }>;

function productFor(code: string | undefined): Product {
  if (code === undefined) {
    return {
      position: ({ lon, lat }) => [fixed(lon, DEGREE_DECIMALS), fixed(lat, DEGREE_DECIMALS)],
      datumNote:
        'Longitude and latitude in WGS 84, degrees. Positions measured in another datum are taken over unchanged and can stand 1–2 m off.',
    };
  }
  const info = shipped(code);
  const position = (at: LonLat): Position => {
    const point = project(info.code, at);
    const { lon, lat } = unproject(info.code, point);
    if (Math.hypot(lon - at.lon, lat - at.lat) > TURNED_BACK_DEGREES) {
      throw new PlaceError(
        'position',
        `${at.lat}, ${at.lon}`,
        `Latitude ${at.lat}, longitude ${at.lon} lies too far away for ${info.code} (${info.name}).`,
        'Choose a system meant for that region, or correct the position.',
      );
    }
    return [fixed(point.x, GRID_DECIMALS), fixed(point.y, GRID_DECIMALS)];
  };
  const name = `urn:ogc:def:crs:${info.code.replace(':', '::')}`;
  return { position, datumNote: info.note, crs: { type: 'name', properties: { name } } };
}

/** Rounded, and never minus nought. */
function fixed(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}

function written(feature: LayerFeature, type: GeometryType, position: (at: LonLat) => Position): Feature {
  const positions = feature.shape.points.map(position);
  return {
    type: 'Feature',
    id: feature.id,
    geometry: geometryOf(type, positions),
    properties: feature.values,
  };
}

function geometryOf(type: GeometryType, positions: readonly Position[]): Geometry {
  switch (type) {
    case 'Point':
      return { type, coordinates: positions[0] ?? [Number.NaN, Number.NaN] };
    case 'LineString':
      return { type, coordinates: positions };
    case 'Polygon':
      return { type, coordinates: [rightHanded(positions)] };
  }
}

/** A closed exterior ring by the right-hand rule (RFC 7946, section 3.1.6): counterclockwise. */
function rightHanded(positions: readonly Position[]): readonly Position[] {
  const [first] = positions;
  const last = positions.at(-1);
  const closed = first !== undefined && last !== undefined && first[0] === last[0] && first[1] === last[1];
  const open = closed ? positions.slice(0, -1) : positions;
  const turned = isCounterclockwise(open) ? open : open.toReversed();
  return turned[0] === undefined ? turned : [...turned, turned[0]];
}
