// Stems that were felled, found down or dead, and what their stumps showed.
import type { Body } from '../../events/index.ts';
import type { Happening } from '../entry.ts';
import { groupLabel, stemLabel } from '../labels.ts';
import { join } from '../members.ts';
import type { Felling, Group, Stand, Stem, StemStatus } from '../state.ts';
import { type Apply, groupOf, located, raise, stemOf, take } from './scene.ts';
import { giveTag } from './stems.ts';

export const stemFelled: Apply<'stem-felled'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  takeNeverMarked(stand, stem, body, happening);
  questionFelling(stand, stem, happening);
  const felling: Felling = {
    entry: happening.entry.id,
    at: happening.happenedAt,
    came: body.came,
    details: body,
  };
  take<Partial<Felling>>(felling, { hungOn: body.hungOn, lay: body.lay, layLength: body.layLength });
  stem.felling = felling;
  setStatus(stem, body.came === 'down' ? 'felled' : 'hung-up', happening);
  const group = openGroup(stand, stem, happening);
  if (group?.opening === 'closed') {
    raise(
      stand,
      happening,
      'cut-in-closed-opening',
      { stem: stem.id, group: group.id },
      `${stemLabel(stem)} was felled in ${groupLabel(group)}, whose opening was closed.`,
      'Record why the work went on ("opening reopened"), or correct the time of one of the entries.',
      group.closings.slice(-1).map(({ entry }) => entry),
    );
  }
};

/** The first felled stem of a group opens its opening. */
function openGroup(stand: Stand, stem: Stem, happening: Happening): Group | undefined {
  if (stem.group === undefined) return undefined;
  const group = groupOf(stand, stem.group, happening);
  if (group.opening === 'not cut yet') group.opening = 'open';
  return group;
}

function questionFelling(stand: Stand, stem: Stem, happening: Happening): void {
  const about = { stem: stem.id, ...(stem.group === undefined ? {} : { group: stem.group }) };
  if (stem.felling !== undefined) {
    raise(
      stand,
      happening,
      'felled-twice',
      about,
      `${stemLabel(stem)} is recorded as felled twice.`,
      'If it was another stem, strike this entry and record it for the right one; if it is the same fall, strike one of the two.',
      [stem.felling.entry],
    );
    return;
  }
  if (stem.mark === undefined) {
    raise(
      stand,
      happening,
      'felled-without-mark',
      about,
      `${stemLabel(stem)} was felled without a mark.`,
      'Write down why it had to be cut; if it was marked and never recorded, record the mark with the day it was made.',
    );
  } else if (stem.mark === 'leave') {
    raise(
      stand,
      happening,
      'leave-tree-felled',
      about,
      `${stemLabel(stem)} was to stay${stem.purpose === undefined ? '' : ` (${stem.purpose})`} and was felled.`,
      'Write down why. If the mark had been changed before, record that change with its day.',
      stem.entries.slice(0, 1),
    );
  }
}

export const hangUpCleared: Apply<'hang-up-cleared'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  if (stem.felling) {
    stem.felling.clearedBy = happening.entry.id;
    if (body.lay !== undefined) stem.felling.lay = body.lay;
  }
  if (stem.status === 'hung-up') setStatus(stem, 'felled', happening);
};

export const stemFoundDown: Apply<'stem-found-down'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  takeNeverMarked(stand, stem, body, happening);
  stem.introduced = true;
  if (stem.felling === undefined) setStatus(stem, 'found-down', happening);
};

export const stemFoundDead: Apply<'stem-found-dead'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  takeNeverMarked(stand, stem, body, happening);
  stem.introduced = true;
  if (stem.status === 'standing') setStatus(stem, 'dead', happening);
};

export const decayMeasured: Apply<'decay-measured'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.decay = { entry: happening.entry.id, body };
  if (stem.position === undefined) take<Partial<Stem>>(stem, { position: located(body.position, happening) });
};

function setStatus(stem: Stem, status: StemStatus, happening: Happening): void {
  stem.status = status;
  stem.statusBy = happening.entry.id;
}

type NeverMarked = Pick<Body<'stem-felled'>, 'tag' | 'species' | 'dbh' | 'group' | 'position'>;

/** A felled or found stem that was never marked brings its own tag, species, group and place. */
function takeNeverMarked(stand: Stand, stem: Stem, body: NeverMarked, happening: Happening): void {
  if (body.tag !== undefined && stem.tag === undefined) giveTag(stand, stem, body.tag, happening);
  const missing: Partial<Stem> = {};
  if (stem.species === undefined) take(missing, { species: body.species });
  if (stem.dbh === undefined) take(missing, { dbh: body.dbh });
  if (stem.group === undefined) join(stand, stem, body.group);
  if (stem.position === undefined) take(missing, { position: located(body.position, happening) });
  take<Partial<Stem>>(stem, missing);
}
