// layers: the stand as map layers. Each layer is described once; files for desktop GIS follow from that. Pure:
// knows measure, place, events, log/entry and stand; writes no file and reads no clock.
export type { Feature, FeatureCollection, Geometry, NamedCrs, Position } from './collection.ts';
export { fileName, type GeoJson, type GeoJsonOptions, geoJsonText, toGeoJson } from './geojson.ts';
export type {
  Column,
  GeometryType,
  Layer,
  LayerContent,
  LayerFeature,
  LeftOut,
  Shape,
  Value,
  ValueType,
  View,
} from './layer.ts';
export { layerNamed, layers } from './layers.ts';
export { type AreaFigures, type OpeningArea, type OpeningMethod, openingArea } from './opening.ts';
export { type Problem, problemsOf } from './problems.ts';
export { viewOf } from './view.ts';
