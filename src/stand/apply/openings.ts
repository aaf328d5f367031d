// Groups, and the opening and closing of their openings.
import { dangersIn } from '../dangers.ts';
import type { Happening } from '../entry.ts';
import { membersOf } from '../members.ts';
import { said } from '../sentence.ts';
import type { Group, Hazard, Patch, Sapling, Stand, Stem } from '../state.ts';
import { giveLabel } from './labels.ts';
import { type Apply, groupOf, located, raise, take } from './scene.ts';

export const groupLaidOut: Apply<'group-laid-out'> = (stand, body, happening) => {
  const group = groupOf(stand, body.group, happening);
  group.introduced = true;
  group.label = body.label;
  giveLabel(stand, 'group', group.id, body.label, happening);
  take<Partial<Group>>(group, {
    block: body.block,
    reason: body.reason,
    center: located(body.center, happening),
    plannedEdge: body.plannedEdge,
    plannedArea: body.plannedArea,
  });
};

export const groupWidened: Apply<'group-widened'> = (stand, body, happening) => {
  const group = groupOf(stand, body.group, happening);
  group.widened.push({ entry: happening.entry.id, reason: body.reason });
  take<Partial<Group>>(group, { plannedEdge: body.plannedEdge, plannedArea: body.plannedArea });
};

export const openingClosed: Apply<'opening-closed'> = (stand, body, happening) => {
  const group = groupOf(stand, body.group, happening);
  group.opening = 'closed';
  group.closings.push({ entry: happening.entry.id, at: happening.happenedAt, body });
  const open = openIn(stand, group.id);
  for (const stem of open.standing) raiseStanding(stand, group, stem, happening);
  for (const stem of open.hungUp) raiseHungUp(stand, group, stem, happening);
  for (const hazard of open.hazards) raiseHazard(stand, group, hazard, happening);
  for (const sapling of open.uncheckedSaplings)
    raiseUnchecked(stand, group, { sapling: sapling.id }, happening);
  for (const patch of open.uncheckedPatches) raiseUnchecked(stand, group, { patch: patch.id }, happening);
};

export const openingReopened: Apply<'opening-reopened'> = (stand, body, happening) => {
  const group = groupOf(stand, body.group, happening);
  group.opening = 'open';
  group.reopenings.push({ entry: happening.entry.id, instant: happening.instant });
};

/** What is still open in a group: this is asked before closing and held against the entry afterwards. */
export type OpenThings = Readonly<{
  standing: readonly Stem[];
  hungUp: readonly Stem[];
  hazards: readonly Hazard[];
  uncheckedSaplings: readonly Sapling[];
  uncheckedPatches: readonly Patch[];
}>;

export function openIn(stand: Stand, group: string): OpenThings {
  const stems = membersOf(stand, stand.stems, group);
  const unchecked = ({ checks }: Sapling | Patch) => checks.length === 0;
  return {
    standing: stems.filter(
      (stem) => stem.mark === 'cut' && (stem.status === 'standing' || stem.status === 'dead'),
    ),
    ...dangersIn(stand, group),
    uncheckedSaplings: membersOf(stand, stand.saplings, group).filter(unchecked),
    uncheckedPatches: membersOf(stand, stand.patches, group).filter(unchecked),
  };
}

function raiseStanding(stand: Stand, group: Group, stem: Stem, happening: Happening): void {
  raise(
    stand,
    happening,
    {
      code: 'marked-but-standing',
      about: { stem: stem.id, group: group.id },
      says: said`${{ stem: stem.id }} is marked to be cut and was standing when ${{ group: group.id }} was closed.`,
      remedy: 'Record the felling if it is down, or change its mark to leave and say why it stays.',
    },
    stem.entries.slice(0, 1),
  );
}

function raiseHungUp(stand: Stand, group: Group, stem: Stem, happening: Happening): void {
  raise(
    stand,
    happening,
    {
      code: 'hung-up-stem-left',
      about: { stem: stem.id, group: group.id },
      says: said`${{ stem: stem.id }} was left hung up when ${{ group: group.id }} was closed.`,
      remedy:
        'Keep everybody away and mark it on the ground. Get trained help; record "hang-up cleared" when it is down.',
    },
    stem.felling === undefined ? [] : [stem.felling.entry],
  );
}

function raiseHazard(stand: Stand, group: Group, hazard: Hazard, happening: Happening): void {
  raise(
    stand,
    happening,
    {
      code: 'hazard-open-at-closing',
      about: { hazard: hazard.id, group: group.id },
      says: said`A hazard (${{ hazard: hazard.id }}) was open when ${{ group: group.id }} was closed.`,
      remedy:
        'Keep people away and mark it on the ground until it is dealt with; record "hazard cleared" then.',
    },
    hazard.entries.slice(0, 1),
  );
}

function raiseUnchecked(
  stand: Stand,
  group: Group,
  thing: { sapling: string } | { patch: string },
  happening: Happening,
): void {
  raise(stand, happening, {
    code: 'sapling-not-checked',
    about: { ...thing, group: group.id },
    says: said`${thing} was not checked before ${{ group: group.id }} was closed.`,
    remedy: 'Go and look, and record "sapling checked".',
  });
}
