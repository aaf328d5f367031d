// The register of layers, in the order they are offered.
import { areaFeatures, lineFeatures, pointFeatures } from './features.ts';
import { blocks, stakes } from './ground.ts';
import { damage, hazards } from './harm.ts';
import type { Layer } from './layer.ts';
import { lays } from './lays.ts';
import { openings } from './openings.ts';
import { patches, saplings } from './regeneration.ts';
import { stems, stumps } from './stems.ts';

/** Every layer of a logbook. */
export const layers: readonly Layer[] = [
  stems,
  stumps,
  lays,
  saplings,
  patches,
  openings,
  damage,
  hazards,
  stakes,
  blocks,
  pointFeatures,
  lineFeatures,
  areaFeatures,
];

/** The layer of that name, or undefined. */
export function layerNamed(name: string): Layer | undefined {
  return layers.find((layer) => layer.name === name);
}
