// Lines of blocks, what lies on the ground, and what neighbours agreed to.
import type { Happening } from '../entry.ts';
import type { Feature, Stand } from '../state.ts';
import { blockOf } from './frame.ts';
import { type Apply, stemOf } from './scene.ts';
import { tallied } from './tallies.ts';

export const boundaryEvidenceNoted: Apply<'boundary-evidence-noted'> = (stand, body, happening) => {
  blockOf(stand.blocks, body.block, happening);
  stand.evidence.push(tallied<'boundary-evidence-noted'>(body, happening, undefined));
};

export const featureMapped: Apply<'feature-mapped'> = (stand, body, happening) => {
  const feature = featureOf(stand, body.feature, happening);
  feature.introduced = true;
  feature.label = body.label;
  feature.at = happening.happenedAt;
  feature.body = body;
};

export const neighbourConsentNoted: Apply<'neighbour-consent-noted'> = (stand, body, happening) => {
  if (body.block !== undefined) blockOf(stand.blocks, body.block, happening);
  if (body.abutter !== undefined) featureOf(stand, body.abutter, happening);
  for (const stem of body.stems ?? []) stemOf(stand, stem, happening);
  stand.consents.push(tallied<'neighbour-consent-noted'>(body, happening, undefined));
};

function featureOf(stand: Stand, id: string, happening: Happening): Feature {
  const feature = stand.features.get(id) ?? {
    id,
    entries: [],
    introduced: false,
    label: `feature ${id.slice(-6)}`,
    at: undefined,
    body: undefined,
  };
  stand.features.set(id, feature);
  feature.entries.push(happening.entry.id);
  return feature;
}
