// layers: the stand as map layers. Each layer is described once; files for desktop GIS follow from that. Pure:
// knows measure, place, events, log/entry and stand; writes no file and reads no clock.
export type { Feature, FeatureCollection, Geometry, Position } from './collection.ts';
export { fileName, geoJsonText, toGeoJson } from './geojson.ts';
export type {
  Column,
  Layer,
  Value,
  View,
} from './layer.ts';
export { layerNamed, layers } from './layers.ts';
export { problemsOf } from './problems.ts';
export { viewOf } from './view.ts';
export { type WantedCrs, wantedCrs } from './wanted-crs.ts';
