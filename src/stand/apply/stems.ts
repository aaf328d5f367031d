// Marks, measurements and tags of stems.
import type { Body } from '../../events/index.ts';
import type { Happening } from '../entry.ts';
import { join } from '../members.ts';
import { said } from '../sentence.ts';
import type { Stand, Stem } from '../state.ts';
import { type Apply, located, raise, stemOf } from './scene.ts';

export const stemMarked: Apply<'stem-marked'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.introduced = true;
  stem.mark = body.mark;
  stem.markedBy = happening.entry.id;
  if (body.tag !== undefined) giveTag(stand, stem, body.tag, happening);
  stem.species = body.species ?? stem.species;
  takeMark(stem, body);
  join(stand, stem, body.group);
  takeSeen(stem, body, happening);
};

/** Later entries say more, they don't unsay. */
function takeMark(stem: Stem, body: Body<'stem-marked'> | Body<'mark-changed'>): void {
  stem.block = body.block ?? stem.block;
  stem.purpose = body.purpose ?? stem.purpose;
  stem.reason = body.reason ?? stem.reason;
  stem.markAtEye = body.markAtEye ?? stem.markAtEye;
  stem.markOnStump = body.markOnStump ?? stem.markOnStump;
}

export const markChanged: Apply<'mark-changed'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.mark = body.mark;
  stem.markedBy = happening.entry.id;
  if (body.mark === 'cut') stem.purpose = undefined;
  join(stand, stem, body.group);
  takeMark(stem, body);
};

export const stemMeasured: Apply<'stem-measured'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.species = body.species ?? stem.species;
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
    stem.earlierTags = [...stem.earlierTags, stem.tag];
    takeOff(stand, stem.tag.toLowerCase(), stem.id);
  }
  stem.tag = tag;
  stem.taggedBy = happening.entry.id;
  stem.tagLost = false;
  const carriers = stand.tags.get(key);
  if (carriers === undefined) stand.tags.set(key, [stem.id]);
  else if (!carriers.includes(stem.id)) carriers.push(stem.id);
  const other = carriers?.find((id) => id !== stem.id);
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

function takeOff(stand: Stand, tag: string, stem: string): void {
  const others = stand.tags.get(tag)?.filter((id) => id !== stem);
  if (others !== undefined) stand.tags.set(tag, others);
}

type Seen = Pick<
  Body<'stem-measured'>,
  | 'dbh'
  | 'height'
  | 'merchantableHeight'
  | 'crownBase'
  | 'crownRadius'
  | 'lean'
  | 'decaySigns'
  | 'seams'
  | 'shell'
  | 'pocket'
  | 'pocketDepth'
  | 'pocketAround'
  | 'defects'
  | 'vigor'
  | 'product'
  | 'grade'
  | 'position'
>;

/** Each measure counts until it is taken again. */
function takenRot(known: Stem['rot'], { shell, pocket, pocketDepth, pocketAround }: Seen): Stem['rot'] {
  if ((shell ?? pocket ?? pocketDepth ?? pocketAround) === undefined) return known;
  return {
    shell: shell ?? known?.shell,
    pocket: pocket ?? known?.pocket,
    pocketDepth: pocketDepth ?? known?.pocketDepth,
    pocketAround: pocketAround ?? known?.pocketAround,
  };
}

function takeSeen(stem: Stem, body: Seen, happening: Happening): void {
  if (body.dbh !== undefined) {
    stem.earlierDbh = stem.dbh;
    stem.dbh = body.dbh;
  }
  stem.height = body.height ?? stem.height;
  stem.merchantableHeight = body.merchantableHeight ?? stem.merchantableHeight;
  stem.crownBase = body.crownBase ?? stem.crownBase;
  stem.crownRadius = body.crownRadius ?? stem.crownRadius;
  stem.lean = body.lean ?? stem.lean;
  stem.decaySigns = body.decaySigns ?? stem.decaySigns;
  stem.seams = body.seams ?? stem.seams;
  stem.rot = takenRot(stem.rot, body);
  stem.defects = body.defects ?? stem.defects;
  stem.vigor = body.vigor ?? stem.vigor;
  stem.product = body.product ?? stem.product;
  stem.grade = body.grade ?? stem.grade;
  stem.position = located(body.position, happening) ?? stem.position;
}
