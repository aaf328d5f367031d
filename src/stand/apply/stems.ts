// Marks, measurements and tags of stems.
import type { Body } from '../../events/index.ts';
import type { Happening } from '../entry.ts';
import { join } from '../members.ts';
import { said } from '../sentence.ts';
import type { Stand, Stem } from '../state.ts';
import { type Apply, located, raise, stemOf, take } from './scene.ts';

export const stemMarked: Apply<'stem-marked'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.introduced = true;
  stem.mark = body.mark;
  stem.markedBy = happening.entry.id;
  if (body.tag !== undefined) giveTag(stand, stem, body.tag, happening);
  take<Partial<Stem>>(stem, {
    species: body.species,
    block: body.block,
    purpose: body.purpose,
    reason: body.reason,
    markAtEye: body.markAtEye,
    markOnStump: body.markOnStump,
  });
  join(stand, stem, body.group);
  takeSeen(stem, body, happening);
};

export const markChanged: Apply<'mark-changed'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.mark = body.mark;
  stem.markedBy = happening.entry.id;
  if (body.mark === 'cut') delete stem.purpose;
  join(stand, stem, body.group);
  take<Partial<Stem>>(stem, {
    block: body.block,
    reason: body.reason,
    purpose: body.purpose,
    markAtEye: body.markAtEye,
    markOnStump: body.markOnStump,
  });
};

export const stemMeasured: Apply<'stem-measured'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  take<Partial<Stem>>(stem, { species: body.species });
  takeSeen(stem, body, happening);
};

export const tagLost: Apply<'tag-lost'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.tagLost = true;
};

export const tagReplaced: Apply<'tag-replaced'> = (stand, body, happening) => {
  giveTag(stand, stemOf(stand, body.stem, happening), body.tag, happening);
};

/** Puts a tag on a stem; a tag that another stem carries is a finding, for tags are labels and not identities. */
export function giveTag(stand: Stand, stem: Stem, tag: string, happening: Happening): void {
  const key = tag.toLowerCase();
  if (stem.tag !== undefined && stem.tag.toLowerCase() !== key) {
    stem.earlierTags.push(stem.tag);
    stand.tags.get(stem.tag.toLowerCase())?.delete(stem.id);
  }
  const carriers = stand.tags.get(key) ?? new Set<string>();
  stand.tags.set(key, carriers);
  const other = [...carriers].find((id) => id !== stem.id);
  stem.tag = tag;
  stem.tagLost = false;
  stand.labelled.set(stem.id, { label: key, by: happening.entry.id });
  carriers.add(stem.id);
  if (other === undefined) return;
  raise(
    stand,
    happening,
    {
      code: 'tag-used-twice',
      about: { stem: stem.id },
      says: said`Tag ${tag} is on two stems.`,
      remedy:
        'Give one of them another tag ("tag replaced"), or strike the entry if it is the same stem marked again.',
      twice: { one: stem.id, other, label: key },
    },
    stand.stems.get(other)?.entries.slice(0, 1),
  );
}

type Seen = Pick<
  Body<'stem-measured'>,
  'dbh' | 'height' | 'merchantableHeight' | 'lean' | 'decaySigns' | 'seams' | 'defects' | 'vigor' | 'position'
>;

function takeSeen(stem: Stem, body: Seen, happening: Happening): void {
  take<Partial<Stem>>(stem, {
    dbh: body.dbh,
    height: body.height,
    merchantableHeight: body.merchantableHeight,
    lean: body.lean,
    decaySigns: body.decaySigns,
    seams: body.seams,
    defects: body.defects,
    vigor: body.vigor,
    position: located(body.position, happening),
  });
}
