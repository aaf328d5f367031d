// Picks things out of layers, for tests.
import {
  type Feature,
  type Layer,
  layerNamed,
  type Position,
  toGeoJson,
  type View,
} from '../../src/layers/index.ts';
import { type Folded, fold } from '../../src/stand/index.ts';

export function layer(name: string): Layer {
  const found = layerNamed(name);
  if (found === undefined) throw new Error(`There is no layer ${name}.`);
  return found;
}

export function lines(): Layer {
  return layer('lays');
}

/** The feature of that label, in WGS 84 or projected. */
export function featureOf(view: View, name: string, label: string, crs?: string): Feature {
  const { features } = toGeoJson(layer(name), view, crs === undefined ? {} : { crs }).collection;
  const found = features.find(({ properties }) => properties.label === label);
  if (found === undefined) throw new Error(`There is no ${label} in ${name}.`);
  return found;
}

export function pointOf({ geometry }: Feature): Position {
  if (geometry.type !== 'Point') throw new Error(`A ${geometry.type} is no point.`);
  return geometry.coordinates;
}

export function emptyFold(): Folded {
  return fold([]);
}
