// What a reader of a collection could stumble over, and structural checkers let through: rings that cross
// themselves or go the wrong way round, coordinates that are no numbers or no place, mixed types, identities
// given twice. Both products are checked, the projected one by taking its coordinates back.
import { type LonLat, PlaceError, ringProblems, unproject } from '../place/index.ts';
import type { Feature, FeatureCollection, Geometry, Position } from './collection.ts';
import { isCounterclockwise } from './winding.ts';

/** What is wrong with one feature of a collection. */
export type Problem = Readonly<{
  /** Which feature, counted from 0. */
  index: number;
  id: string;
  sentence: string;
}>;

type Back = (at: Position) => LonLat;

/** Everything that is wrong with the features of a collection; empty when it can be written. */
export function problemsOf(
  collection: Pick<FeatureCollection, 'crs' | 'geometryType' | 'features'>,
): Problem[] {
  const seen = new Set<string>();
  const back = backFrom(collection.crs?.properties.name);
  return collection.features.flatMap((feature, index) => {
    const { id } = feature;
    const sentences = [
      ...typeProblems(feature, collection.geometryType),
      ...(seen.has(id) ? [`The identity ${id} is given twice in this layer.`] : []),
      ...geometryProblems(feature.geometry, back),
      ...valueProblems(feature),
    ];
    seen.add(id);
    return sentences.map((sentence) => ({ index, id, sentence }));
  });
}

function typeProblems({ geometry }: Feature, expected: Geometry['type']): string[] {
  return geometry.type === expected
    ? []
    : [`A ${geometry.type} does not belong into a layer of the type ${expected}.`];
}

function valueProblems({ properties }: Feature): string[] {
  return Object.entries(properties)
    .filter(([, value]) => typeof value === 'number' && !Number.isFinite(value))
    .map(([name, value]) => `The column ${name} holds ${value}, which is no number; leave it empty.`);
}

function geometryProblems(geometry: Geometry, back: Back): string[] {
  const rings = ringsOf(geometry);
  const positions = rings.flat();
  const wrong = positions.filter(([x, y]) => !Number.isFinite(x) || !Number.isFinite(y));
  if (wrong.length > 0) return [`A coordinate is no number (${wrong[0]?.join(', ')}); correct the position.`];
  let places: LonLat[][];
  try {
    places = rings.map((ring) => ring.map(back));
  } catch (error) {
    if (error instanceof PlaceError) return [error.message];
    throw error;
  }
  const outside = places.flat().find(({ lon, lat }) => Math.abs(lon) > 180 || Math.abs(lat) > 90);
  if (outside !== undefined) {
    return [`Longitude ${outside.lon}, latitude ${outside.lat} is no place on earth; correct the position.`];
  }
  if (geometry.type === 'LineString') return lineProblems(geometry.coordinates, places.flat());
  if (geometry.type === 'Polygon') {
    return rings.flatMap((ring, index) => polygonProblems(ring, places[index] ?? [], index > 0));
  }
  return [];
}

function ringsOf(geometry: Geometry): readonly (readonly Position[])[] {
  switch (geometry.type) {
    case 'Point':
      return [[geometry.coordinates]];
    case 'LineString':
      return [geometry.coordinates];
    case 'Polygon':
      return geometry.coordinates;
  }
}

function lineProblems(line: readonly Position[], places: readonly LonLat[]): string[] {
  const different = new Set(line.map((position) => position.join(' ')));
  if (different.size < 2) return ['A line needs two different points; check its length.'];
  return acrossAntimeridian(places);
}

function polygonProblems(ring: readonly Position[], places: readonly LonLat[], isHole: boolean): string[] {
  const [first] = ring;
  const last = ring.at(-1);
  const closed = first !== undefined && last !== undefined && first[0] === last[0] && first[1] === last[1];
  const problems = [
    ...(closed ? [] : ['The ring is not closed: its last position must repeat its first.']),
    ...acrossAntimeridian(places),
    ...ringProblems(places),
  ];
  if (problems.length > 0) return problems;
  if (isCounterclockwise(ring) !== isHole) return [];
  return [
    isHole
      ? 'The hole goes round counterclockwise; by the right-hand rule it must go clockwise.'
      : 'The ring goes round clockwise; by the right-hand rule it must go counterclockwise.',
  ];
}

/** RFC 7946, section 3.1.9, would have such a geometry cut in two; no layer here does. */
function acrossAntimeridian(places: readonly LonLat[]): string[] {
  const longitudes = places.map(({ lon }) => lon);
  return Math.max(...longitudes) - Math.min(...longitudes) > 180
    ? ['It reaches across the antimeridian, which this format would need cut in two parts.']
    : [];
}

/** From the coordinates of a product to longitude and latitude. */
function backFrom(crsName: string | undefined): Back {
  if (crsName === undefined) return ([lon, lat]) => ({ lon, lat });
  const code = crsName.replace('urn:ogc:def:crs:', '').replace('::', ':');
  return ([x, y]) => unproject(code, { x, y });
}
