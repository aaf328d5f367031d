/**
 * Where things are: reference systems, compass-and-tape offsets, declination, geometry of rings.
 * Pure; may look into measure. Longitude and latitude are WGS 84 degrees throughout, lengths metres.
 */
export type { TrueAzimuth } from './azimuth.ts';
export { toTrueAzimuth } from './azimuth.ts';
export type { CrsInfo, CrsKind } from './crs.ts';
export { crs, listCrs, whyNotCrs } from './crs.ts';
export type { Declination } from './declination.ts';
export { declination } from './declination.ts';
export type { InRing, SideOfLine } from './doubt.ts';
export { inRing, sideOfLine } from './doubt.ts';
export { PlaceError } from './error.ts';
export { destination, distanceAndAzimuth, geodesicArea } from './geodesic.ts';
export { decimalDegrees, degreesMinutes, utmText } from './notation.ts';
export type {
  AnchorReference,
  Azimuth,
  BlockAxes,
  LonLat,
  PositionEntered,
  Quantity,
  Resolved,
  Unresolved,
} from './position.ts';
export { isUnresolved } from './position.ts';
export type { GridPoint } from './projection.ts';
export { gridConvergence, planarArea, project, unproject } from './projection.ts';
export { decimal, metres } from './quantity.ts';
export type { PositionContext } from './resolve.ts';
export { resolvePosition } from './resolve.ts';
export { distanceToEdge, distanceToRing, farFrom, hull, pointInRing, ringProblems } from './ring.ts';
export { COMPASS_AND_TAPE } from './standard-error.ts';
export { nearestZones, utmZone } from './zones.ts';
