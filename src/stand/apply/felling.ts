// Stems that were felled, found down or dead, and what their stumps showed.
import type { Body } from '../../events/index.ts';
import type { Happening } from '../entry.ts';
import type { Part } from '../findings.ts';
import { join } from '../members.ts';
import { said } from '../sentence.ts';
import type { Felling, Group, Stand, Stem, StemStatus } from '../state.ts';
import { type Apply, groupOf, located, raise, stemOf } from './scene.ts';
import { giveTag } from './stems.ts';

export const stemFelled: Apply<'stem-felled'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  takeNeverMarked(stand, stem, body, happening);
  questionFelling(stand, stem, happening);
  questionHolding(stand, stem, body.hungOn, happening);
  const felling: Felling = {
    entry: happening.entry.id,
    at: happening.happenedAt,
    came: body.came,
    hungOn: body.hungOn,
    lay: body.lay,
    layLength: body.layLength,
    details: body,
    clearedBy: undefined,
  };
  stem.felling = felling;
  setStatus(stand, stem, body.came === 'down' ? 'felled' : 'hung-up', happening);
  const group = openGroup(stand, stem, happening);
  if (group?.opening === 'closed') {
    raise(
      stand,
      happening,
      {
        code: 'cut-in-closed-opening',
        about: { stem: stem.id, group: group.id },
        says: said`${{ stem: stem.id }} was felled in ${{ group: group.id }}, whose opening was closed.`,
        remedy:
          'Record why the work went on ("opening reopened"), or correct the time of one of the entries.',
      },
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
      {
        code: 'felled-twice',
        about: about,
        says: said`${{ stem: stem.id }} is recorded as felled twice.`,
        remedy:
          'If it was another stem, strike this entry and record it for the right one; if it is the same fall, strike one of the two.',
      },
      [stem.felling.entry],
    );
    return;
  }
  if (stem.mark === undefined) {
    raise(stand, happening, {
      code: 'felled-without-mark',
      about: about,
      says: said`${{ stem: stem.id }} was felled without a mark.`,
      remedy:
        'Write down why it had to be cut, in a note about the stem; if it was marked and never recorded, record the mark with the day it was made.',
    });
  } else if (stem.mark === 'leave') {
    const purpose = stem.purpose === undefined ? '' : ` (${stem.purpose})`;
    raise(
      stand,
      happening,
      {
        code: 'leave-tree-felled',
        about: about,
        says: said`${{ stem: stem.id }} was to stay${purpose} and was felled.`,
        remedy:
          'Write down why, in a note about the stem. If the mark had been changed before, record that change with its day.',
      },
      stem.entries.slice(0, 1),
    );
  }
}

/** What contradicts the stand about stems that hold others or hang in them. */
function questionHolding(stand: Stand, stem: Stem, hungOn: string | undefined, happening: Happening): void {
  for (const id of stand.hungUp) {
    const held = stand.stems.get(id);
    if (held === undefined || held === stem || held.felling?.hungOn !== stem.id) continue;
    raise(
      stand,
      happening,
      {
        code: 'holding-tree-felled',
        about: { stem: held.id, ...(stem.group === undefined ? {} : { group: stem.group }) },
        says: said`${{ stem: stem.id }} was felled while ${{ stem: held.id }} hung in it.`,
        remedy:
          'Nobody goes under a hung-up stem or fells the tree that holds it: keep everybody out of reach of both and get trained help. Record "hang-up cleared" when it is down.',
      },
      [held.felling.entry],
    );
  }
  if (hungOn === stem.id) {
    contradict(stand, stem, happening, said`${{ stem: stem.id }} is recorded as hung up in itself.`, {
      remedy: 'Keep away from it, and amend the entry: name the tree that holds it.',
    });
    return;
  }
  const holder = hungOn === undefined ? undefined : stand.stems.get(hungOn);
  if (holder === undefined || !lies(holder)) return;
  const says = said`${{ stem: stem.id }} is recorded as hung up in ${{ stem: holder.id }}, which was down already.`;
  contradict(stand, stem, happening, says, {
    remedy: 'Keep away from it, and amend the entry: name the tree that holds it, or put the times right.',
    earlier: holder.statusBy,
  });
}

function lies({ status }: Stem): boolean {
  return status === 'felled' || status === 'found-down';
}

/** An entry about a stem that cannot be true together with what the log says already. */
function contradict(
  stand: Stand,
  stem: Stem,
  happening: Happening,
  says: readonly Part[],
  { remedy, earlier }: { remedy: string; earlier?: string | undefined },
): void {
  const about = { stem: stem.id, ...(stem.group === undefined ? {} : { group: stem.group }) };
  raise(
    stand,
    happening,
    { code: 'contradiction', about, says, remedy },
    earlier === undefined ? [] : [earlier],
  );
}

const putRight = 'Strike or amend the entry that is wrong; if both are right, write a note about the stem.';

export const hangUpCleared: Apply<'hang-up-cleared'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  if (stem.status !== 'hung-up' || stem.felling === undefined) {
    contradict(
      stand,
      stem,
      happening,
      said`${{ stem: stem.id }} is recorded as brought down, but was not recorded as hung up then.`,
      { remedy: putRight, earlier: stem.statusBy },
    );
    return;
  }
  stem.felling.clearedBy = happening.entry.id;
  if (body.lay !== undefined) stem.felling.lay = body.lay;
  setStatus(stand, stem, 'felled', happening);
};

export const stemFoundDown: Apply<'stem-found-down'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  takeNeverMarked(stand, stem, body, happening);
  stem.introduced = true;
  if (stem.felling === undefined) {
    setStatus(stand, stem, 'found-down', happening);
    return;
  }
  const says =
    stem.status === 'hung-up'
      ? said`${{ stem: stem.id }} is recorded as found down while it was hung up; it still counts as hung up.`
      : said`${{ stem: stem.id }} is recorded as found down, but was felled before.`;
  const remedy =
    stem.status === 'hung-up'
      ? 'Keep away until a trained person has looked. If it came down, record "hang-up cleared".'
      : putRight;
  contradict(stand, stem, happening, says, { remedy, earlier: stem.felling.entry });
};

export const stemFoundDead: Apply<'stem-found-dead'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  takeNeverMarked(stand, stem, body, happening);
  stem.introduced = true;
  if (stem.status === 'standing') setStatus(stand, stem, 'dead', happening);
  else if (lies(stem)) {
    const says = said`${{ stem: stem.id }} is recorded as dead on its feet, but was down before.`;
    contradict(stand, stem, happening, says, { remedy: putRight, earlier: stem.statusBy });
  }
};

export const decayMeasured: Apply<'decay-measured'> = (stand, body, happening) => {
  const stem = stemOf(stand, body.stem, happening);
  stem.decay = { entry: happening.entry.id, body };
  stem.position ??= located(body.position, happening);
};

function setStatus(stand: Stand, stem: Stem, status: StemStatus, happening: Happening): void {
  if (status === 'hung-up') stand.hungUp.add(stem.id);
  else stand.hungUp.delete(stem.id);
  stem.status = status;
  stem.statusBy = happening.entry.id;
}

type NeverMarked = Pick<Body<'stem-felled'>, 'tag' | 'species' | 'dbh' | 'group' | 'position'>;

/** A felled or found stem that was never marked brings its own tag, species, group and place. */
function takeNeverMarked(stand: Stand, stem: Stem, body: NeverMarked, happening: Happening): void {
  if (body.tag !== undefined && stem.tag === undefined) giveTag(stand, stem, body.tag, happening);
  stem.species ??= body.species;
  stem.dbh ??= body.dbh;
  if (stem.group === undefined) join(stand, stem, body.group);
  stem.position ??= located(body.position, happening);
}
