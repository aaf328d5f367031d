// GeoJSON as it is written: types only. The two products are told apart by the `crs` member.
import type { GeometryType, LeftOut, Value } from './layer.ts';

/** Two coordinates, easting or longitude first. */
export type Position = readonly [number, number];

export type Geometry =
  | Readonly<{ type: 'Point'; coordinates: Position }>
  | Readonly<{ type: 'LineString'; coordinates: readonly Position[] }>
  | Readonly<{ type: 'Polygon'; coordinates: readonly (readonly Position[])[] }>;

export type Feature = Readonly<{
  type: 'Feature';
  id: string;
  geometry: Geometry;
  properties: Readonly<Record<string, Value>>;
}>;

/** The member by which the 2008 format names a reference system. */
export type NamedCrs = Readonly<{ type: 'name'; properties: Readonly<{ name: string }> }>;

/**
 * A feature collection. All but `type` and `features` are foreign members, which RFC 7946 (section 6.1) allows
 * and readers may pass over.
 */
export type FeatureCollection = Readonly<{
  type: 'FeatureCollection';
  /** Only in the projected product, as in the format of 2008; RFC 7946 has none. */
  crs?: NamedCrs;
  name: string;
  title: string;
  description: string;
  geometryType: GeometryType;
  /** How coordinates stand to the survey marks of their datum, in a sentence. */
  datumNote: string;
  /** Tree head of the log that this was made from, "SIZE:ROOT". */
  head?: string;
  /** What is not in here, and why. */
  leftOut: readonly LeftOut[];
  features: readonly Feature[];
}>;
