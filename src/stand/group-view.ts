// One group, looked at by itself: what was marked, felled, left and found in it. Counts only; a group's
// tally is no census of its block.
import { isHazardIn } from './dangers.ts';
import type { Finding } from './findings.ts';
import { membersOf } from './members.ts';
import { openFindings } from './settle.ts';
import type { Damage, Group, Hazard, Patch, Sapling, Stand, Stem } from './state.ts';
import { isDecay } from './stem-facts.ts';

export type GroupView = Readonly<{
  group: Group;
  stems: readonly Stem[];
  markedCut: readonly Stem[];
  markedLeave: readonly Stem[];
  felled: readonly Stem[];
  hungUp: readonly Stem[];
  standingCut: readonly Stem[];
  foundDown: readonly Stem[];
  examined: readonly Stem[];
  decayed: readonly Stem[];
  saplings: readonly Sapling[];
  patches: readonly Patch[];
  hazards: readonly Hazard[];
  damages: readonly Damage[];
  findings: readonly Finding[];
  openFindings: readonly Finding[];
}>;

/** The view of one group of the stand. */
export function viewGroup(stand: Stand, findings: readonly Finding[], group: Group): GroupView {
  const stems = membersOf(stand, stand.stems, group.id);
  const ids = new Set(stems.map(({ id }) => id));
  const mine = findings.filter(
    (finding) =>
      finding.about.group === group.id || (finding.about.stem !== undefined && ids.has(finding.about.stem)),
  );
  return {
    group,
    stems,
    markedCut: stems.filter(({ mark }) => mark === 'cut'),
    markedLeave: stems.filter(({ mark }) => mark === 'leave'),
    felled: stems.filter(({ status }) => status === 'felled'),
    hungUp: stems.filter(({ status }) => status === 'hung-up'),
    standingCut: stems.filter(
      ({ mark, status }) => mark === 'cut' && (status === 'standing' || status === 'dead'),
    ),
    foundDown: stems.filter(({ status }) => status === 'found-down'),
    examined: stems.filter(({ decay }) => decay !== undefined),
    decayed: stems.filter(({ decay }) => decay !== undefined && isDecay(decay.body.found)),
    saplings: membersOf(stand, stand.saplings, group.id),
    patches: membersOf(stand, stand.patches, group.id),
    hazards: [...stand.hazards.values()].filter((hazard) => isHazardIn(stand, hazard, group.id)),
    damages: [...stand.damages.values()].filter(
      ({ body }) =>
        body.group === group.id ||
        (body.stem !== undefined && ids.has(body.stem)) ||
        (body.byStem !== undefined && ids.has(body.byStem)),
    ),
    findings: mine,
    openFindings: openFindings(mine),
  };
}
