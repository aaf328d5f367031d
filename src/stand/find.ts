// From what people type (tags, labels, names) to the identities in the stand.
import { type Noun, nearest, type Read } from '../events/index.ts';
import type { Folded } from './fold.ts';
import { hazardLabel, saplingLabel, shortId, stemLabel } from './labels.ts';
import type { Stand } from './state.ts';
import { thingInEntry, toldApart } from './told-apart.ts';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const entryNumber = /^(entry\s+|#)?(\d{1,12})$/i;

type Candidate = { id: string; label: string };
type Known = Pick<Folded, 'stand' | 'entries'>;
type Found = Read<string>;

/**
 * Finds a thing by its label, its UUID, the end of its UUID, or the number of an entry about it ("entry 27").
 * A tag that a stem no longer carries comes back with the tag that it has now, what is ambiguous with all that fit,
 * as choices; what is unknown with the nearest label. Nothing is guessed.
 * @param entries of the logbook; without them nothing is found by the number of an entry
 */
export function findThing(
  stand: Stand,
  noun: Noun,
  text: string,
  names: ReadonlyMap<string, string>,
  entries: Folded['entries'] = new Map(),
): Found {
  const written = text.trim();
  if (uuid.test(written)) return { ok: true, value: written };
  const known: Known = { stand, entries };
  const candidates = candidatesOf(stand, noun, names);
  const key = written.toLowerCase();
  const found = candidates.filter(
    ({ id, label }) => label.toLowerCase() === key || (key.length >= 6 && shortId(id) === key.slice(-6)),
  );
  const ids = [...new Set(found.map(({ id }) => id))];
  const [only] = ids;
  if (only !== undefined && ids.length === 1) return { ok: true, value: only };
  if (ids.length > 1) return severalFit(written, noun, ids, { known, names });
  const byEntry = findByEntry(written, noun, known);
  if (byEntry !== undefined) return { ok: true, value: byEntry };
  const before = noun === 'stem' ? carriedBefore(written, known) : undefined;
  return before ?? unknownThing(written, noun, candidates);
}

function severalFit(
  written: string,
  noun: Noun,
  ids: readonly string[],
  { known, names }: { known: Known; names: ReadonlyMap<string, string> },
): Found {
  return {
    ok: false,
    remedy: `"${written}" fits ${ids.length} of them; give the id: ${ids.join(', ')}`,
    choices: ids.map((id) => ({ label: toldApart(noun, id, known, names), text: id })),
  };
}

/** A bare number may be a tag or label; only what has none of its own is found by the bare number of its entry. */
function findByEntry(written: string, noun: Noun, known: Known): string | undefined {
  const [, said, digits] = entryNumber.exec(written) ?? [];
  const unlabelled = noun === 'hazard' || noun === 'damage';
  if (digits === undefined || (said === undefined && !unlabelled)) return undefined;
  return thingInEntry(noun, Number(digits), known);
}

/** Stems that carried this tag before they got the one they have now. */
function carriedBefore(written: string, known: Known): Found | undefined {
  const key = written.toLowerCase();
  const stems = [...known.stand.stems.values()].filter(({ earlierTags }) =>
    earlierTags.some((tag) => tag.toLowerCase() === key),
  );
  if (stems.length === 0) return undefined;
  return {
    ok: false,
    remedy: stems.map((stem) => `${written} is ${stemLabel(stem)} now`).join('; '),
    choices: stems.map(({ id, tag }) => {
      const alone = known.stand.tags.get(tag?.toLowerCase() ?? '')?.length === 1;
      return { label: toldApart('stem', id, known), text: alone && tag !== undefined ? tag : id };
    }),
  };
}

function unknownThing(written: string, noun: Noun, candidates: readonly Candidate[]): Found {
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
    case 'feature':
      return [...stand.features.values()].map(({ id, label }) => ({ id, label }));
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
