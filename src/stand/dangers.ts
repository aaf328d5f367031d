// What can hurt somebody now: stems that are hung up and hazards that nobody has cleared, of the whole
// stand or of one group. Every list, page and report takes them from here, so that none shows fewer.
import { groupLabel, hazardLabel, withUnit } from './labels.ts';
import { positionWords } from './position-words.ts';
import type { Hazard, Stand, Stem } from './state.ts';

export type Dangers = Readonly<{
  hungUp: readonly Stem[];
  /** Hazards that are open; of a group: those noted in it and those at its stems. */
  hazards: readonly Hazard[];
}>;

/**
 * What is recorded as hung up or open. That nothing is recorded does not mean that nothing is there.
 * @param group id of one group; without it the whole stand is looked at
 */
export function dangersIn(stand: Stand, group?: string): Dangers {
  const hungUp = [...stand.hungUp].flatMap((id) => stand.stems.get(id) ?? []);
  const open = [...stand.openHazards].flatMap((id) => stand.hazards.get(id) ?? []);
  return {
    hungUp: group === undefined ? hungUp : hungUp.filter((stem) => stem.group === group),
    hazards: group === undefined ? open : open.filter((hazard) => isHazardIn(stand, hazard, group)),
  };
}

/** Whether a hazard was noted in a group or at one of its stems. */
export function isHazardIn(stand: Stand, hazard: Hazard, group: string): boolean {
  return (
    hazard.group === group || (hazard.stem !== undefined && stand.stems.get(hazard.stem)?.group === group)
  );
}

/**
 * A hazard so that it can be told from others of its kind: what and at which stem, how far to keep away,
 * in which group or where, and what was noted.
 */
export function hazardWords(stand: Stand, hazard: Hazard): string {
  const { radius, group, position, note } = hazard;
  return [
    hazardLabel(stand, hazard),
    radius === undefined ? undefined : `keep away ${withUnit(radius)}`,
    group === undefined ? undefined : `in ${groupLabel(stand.groups.get(group))}`,
    position === undefined ? undefined : positionWords(stand, position.entered),
    note,
  ]
    .filter((part) => part !== undefined)
    .join(', ');
}
