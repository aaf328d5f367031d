// GeoJSON (RFC 7946), checked by the library, and for what the library lets through: numbers that are no place on earth.
// A file of the older form (2008) may name a projected system in its member "crs"; it is honoured.
import { valid } from 'geojson-validation';
import { columnsOf, counting, ImportRefusal, type Item, type Source, type Vertex } from '../source.ts';

type Position = readonly number[];
type Geometry =
  | Readonly<{ type: 'Point'; coordinates: Position }>
  | Readonly<{ type: 'MultiPoint' | 'LineString'; coordinates: readonly Position[] }>
  | Readonly<{ type: 'MultiLineString' | 'Polygon'; coordinates: readonly (readonly Position[])[] }>
  | Readonly<{ type: 'MultiPolygon'; coordinates: readonly (readonly (readonly Position[])[])[] }>
  | Readonly<{ type: 'GeometryCollection'; geometries: readonly Geometry[] }>;
type GeoJSON =
  | Geometry
  | (Feature & Readonly<{ type: 'Feature' }>)
  | Readonly<{ type: 'FeatureCollection'; features: readonly Feature[] }>;
type Feature = Readonly<{ geometry: Geometry | null; properties: Readonly<Record<string, unknown>> | null }>;

/** @throws ImportRefusal for what is no JSON or no GeoJSON */
export function readGeoJson(text: string): Source {
  const value = parsed(text);
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new ImportRefusal('file', '', 'is no GeoJSON: it is not an object');
  const found = featuresOf(value as GeoJSON);
  const count = counting();
  const passedOver: string[] = [];
  const items = found.flatMap(({ geometry, properties }, index) => {
    const where = `feature ${index + 1}`;
    if (geometry === null) {
      passedOver.push(`${where} has no geometry`);
      return [];
    }
    const cells = cellsOf(properties ?? {});
    return partsOf(geometry, where, passedOver).map(({ shape, positions }): Item => {
      count.item();
      count.vertices(positions.length);
      return { where, shape, vertices: positions.map((position) => vertexOf(position, where)), cells };
    });
  });
  const crs = crsOf(value as Readonly<Record<string, unknown>>);
  return { format: 'GeoJSON', crs, items, columns: columnsOf(items), passedOver };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new ImportRefusal(
      'file',
      '',
      `is no JSON (${error instanceof Error ? error.message.slice(0, 120) : ''})`,
    );
  }
}

/** Features one by one: what is wrong then names the feature. */
function featuresOf(value: GeoJSON): readonly Feature[] {
  if (value.type === 'FeatureCollection') {
    const { features } = value;
    if (!Array.isArray(features as unknown))
      throw new ImportRefusal('features', '', 'is no list of features');
    for (const [index, feature] of features.entries()) check(feature, `feature ${index + 1}`);
    return features;
  }
  check(value, 'file');
  if (value.type === 'Feature') return [value];
  return [{ geometry: value as Geometry, properties: null }];
}

function check(value: unknown, where: string): void {
  const wrong: unknown = isShallow(value) ? valid(value as object, true) : ['is nested too deeply'];
  if (!Array.isArray(wrong) || wrong.length === 0) return;
  throw new ImportRefusal(where, '', `is no valid GeoJSON: ${String(wrong[0]).slice(0, 200)}`);
}

/** The library follows a nested collection by recursion. */
function isShallow(value: unknown, depth = 0): boolean {
  if (depth > 32) return false;
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).every((inner) => isShallow(inner, depth + 1));
}

type Part = Readonly<{ shape: 'point' | 'line' | 'ring'; positions: readonly Position[] }>;

function partsOf(geometry: Geometry, where: string, passedOver: string[]): Part[] {
  const ringOf = (rings: readonly (readonly Position[])[]): Part[] => {
    if (rings.length > 1) passedOver.push(`${where}: holes of the polygon`);
    return rings[0] === undefined ? [] : [{ shape: 'ring', positions: rings[0] }];
  };
  switch (geometry.type) {
    case 'Point':
      return [{ shape: 'point', positions: [geometry.coordinates] }];
    case 'MultiPoint':
      return geometry.coordinates.map((position) => ({ shape: 'point', positions: [position] }));
    case 'LineString':
      return [{ shape: 'line', positions: geometry.coordinates }];
    case 'MultiLineString':
      return geometry.coordinates.map((positions) => ({ shape: 'line', positions }));
    case 'Polygon':
      return ringOf(geometry.coordinates);
    case 'MultiPolygon':
      return geometry.coordinates.flatMap(ringOf);
    case 'GeometryCollection':
      return geometry.geometries.flatMap((inner) => partsOf(inner, where, passedOver));
  }
}

function vertexOf([x, y]: Position, where: string): Vertex {
  // JSON has no NaN, but 1e999 is read as Infinity.
  if (!Number.isFinite(x) || !Number.isFinite(y))
    throw new ImportRefusal(where, `${x}, ${y}`, 'is no pair of coordinates');
  return { x: String(x), y: String(y) };
}

function cellsOf(properties: Readonly<Record<string, unknown>>): Record<string, string> {
  const cells = Object.entries(properties).flatMap(([name, value]) => {
    if (value === null || value === undefined) return [];
    return [[name, typeof value === 'string' ? value : JSON.stringify(value)] as const];
  });
  return Object.fromEntries(cells);
}

function crsOf({ crs }: Readonly<Record<string, unknown>>): string | undefined {
  if (crs === undefined || crs === null) return 'lonlat';
  const name = (crs as { properties?: { name?: unknown } }).properties?.name;
  if (typeof name !== 'string') return undefined;
  if (/CRS:?84$|EPSG:{1,2}4326$/.test(name)) return 'lonlat';
  const code = /EPSG:(?:[\d.]*:)?(\d{4,6})$/.exec(name)?.[1];
  return code === undefined ? undefined : `EPSG:${code}`;
}
