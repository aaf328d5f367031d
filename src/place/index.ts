/**
 * Where things are: reference systems, compass-and-tape offsets, declination, geometry of rings.
 * Pure; may look into measure. Longitude and latitude are WGS 84 degrees throughout, lengths metres.
 */
export type { GroundShape } from './apart.ts';
export { apart } from './apart.ts';
export type { TrueAzimuth } from './azimuth.ts';
export { toTrueAzimuth } from './azimuth.ts';
export type { BufferRule, InBuffer, LineTree } from './buffer.ts';
export { bufferWidth, inBuffer, levelWidth, lineTree, marginOf, slopePercent } from './buffer.ts';
export type { CrsInfo, CrsKind } from './crs.ts';
export { crs, listCrs, whyNotCrs } from './crs.ts';
export type { Declination } from './declination.ts';
export { declination } from './declination.ts';
export type { InRing, SideOfLine } from './doubt.ts';
export { inRing, sideOfLine } from './doubt.ts';
export { PlaceError } from './error.ts';
export { destination, distanceAndAzimuth, geodesicArea } from './geodesic.ts';
export type { NearSide } from './near-line.ts';
export { nearSideOf } from './near-line.ts';
export { decimalDegrees, degreesMinutes, utmText } from './notation.ts';
export type { EdgeTree, Spoke } from './opening/outline.ts';
export { crownEdge, ellipseArea, ellipseRing, middleOf, spokeArea, spokeRing } from './opening/outline.ts';
export type { RingForm } from './opening/shape.ts';
export { areaStandardError, ringForm } from './opening/shape.ts';
export { areaBeyond, areaTogether } from './opening/together.ts';
export { planeAt } from './plane.ts';
export type {
  AnchorReference,
  Azimuth,
  BlockAxes,
  LonLat,
  OneFix,
  PositionEntered,
  Quantity,
  Resolved,
  Side,
  Taped,
  Unresolved,
} from './position.ts';
export { isUnresolved } from './position.ts';
export type { GridPoint } from './projection.ts';
export { gridConvergence, planarArea, project, unproject } from './projection.ts';
export { decimal, metres } from './quantity.ts';
export type { PositionContext } from './resolve.ts';
export { resolvePosition } from './resolve.ts';
export { distanceToEdge, distanceToRing, farFrom, hull, pointInRing, ringProblems } from './ring.ts';
export type { CompassAndTape } from './standard-error.ts';
export { AVERAGE_FLOOR, COMPASS_AND_TAPE, GUIDE_METRES, SURVEYED_AXIS_DEGREES } from './standard-error.ts';
export type { SunPosition, Surround } from './sun.ts';
export { horizonOf, hoursOfSun, sunPosition } from './sun.ts';
export type { Corner, Leg, Traverse, TraverseLeg } from './traverse.ts';
export { adjusted, traverse } from './traverse.ts';
export type { Meant } from './why-far.ts';
export { whyFar } from './why-far.ts';
export type { ZoneExplained, ZonesProposed } from './zones.ts';
export { explainZone, nearestZones, proposeZones, utmZone } from './zones.ts';
