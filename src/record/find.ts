// From what people type (tags, labels, names) to the identities in the stand.
import { type Noun, nearest, type Read } from '../events/index.ts';
import { hazardLabel, type Stand, saplingLabel, shortId, stemLabel } from '../stand/index.ts';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

type Candidate = { id: string; label: string };

/**
 * Finds a thing by its label, its UUID or the end of its UUID. What is unknown comes back with the
 * nearest label, what is ambiguous with all of them; nothing is guessed.
 */
export function findThing(
  stand: Stand,
  noun: Noun,
  text: string,
  names: ReadonlyMap<string, string>,
): Read<string> {
  const written = text.trim();
  if (uuid.test(written)) return { ok: true, value: written };
  const candidates = candidatesOf(stand, noun, names);
  const key = written.toLowerCase();
  const found = candidates.filter(
    ({ id, label }) => label.toLowerCase() === key || (key.length >= 6 && shortId(id) === key.slice(-6)),
  );
  const [only] = found;
  if (only && found.length === 1) return { ok: true, value: only.id };
  if (found.length > 1) {
    return {
      ok: false,
      remedy: `"${written}" fits ${found.length} of them; give the id: ${found.map(({ id }) => id).join(', ')}`,
    };
  }
  const near = nearest(
    written,
    candidates.map(({ label }) => label),
  );
  return {
    ok: false,
    remedy: `there is no ${noun} "${written}" in this logbook${near === undefined ? '' : `; did you mean ${near}?`}`,
  };
}

function candidatesOf(stand: Stand, noun: Noun, names: ReadonlyMap<string, string>): Candidate[] {
  switch (noun) {
    case 'stem':
      return [...stand.stems.values()].flatMap((stem) =>
        stem.tag === undefined
          ? [{ id: stem.id, label: shortId(stem.id) }]
          : [{ id: stem.id, label: stem.tag }],
      );
    case 'sapling':
      return [...stand.saplings.values()].map((sapling) => ({
        id: sapling.id,
        label: saplingLabel(sapling),
      }));
    case 'patch':
      return [...stand.patches.values()].map((patch) => ({ id: patch.id, label: saplingLabel(patch) }));
    case 'group':
      return [...stand.groups.values()].map(({ id, label }) => ({ id, label }));
    case 'stake':
      return [...stand.stakes.values()].map(({ id, label }) => ({ id, label }));
    case 'block':
      return [...stand.blocks.values()].map(({ id, name }) => ({ id, label: name }));
    case 'person':
      return [...stand.people.values()].map(({ id, name }) => ({
        id,
        label: names.get(name) ?? shortId(id),
      }));
    case 'hazard':
      return [...stand.hazards.values()]
        .filter(({ clearedBy }) => clearedBy === undefined)
        .flatMap((hazard) => hazardCandidates(stand, hazard.id));
    case 'damage':
      return [...stand.damages.values()].map(({ id }) => ({ id, label: shortId(id) }));
  }
}

/** A hazard is named by its kind and stem, or by the stem alone. */
function hazardCandidates(stand: Stand, id: string): Candidate[] {
  const hazard = stand.hazards.get(id);
  if (hazard === undefined) return [];
  const named = { id, label: hazardLabel(stand, hazard) };
  const stem = hazard.stem === undefined ? undefined : stand.stems.get(hazard.stem);
  const labels = stem === undefined ? [] : [stemLabel(stem), ...(stem.tag === undefined ? [] : [stem.tag])];
  return [named, ...[...new Set(labels)].map((label) => ({ id, label }))];
}
