// What moved between two states of knowledge: a stake surveyed again, a declination corrected, and all that hangs on it.
import {
  distanceAndAzimuth,
  isUnresolved,
  type PositionEntered,
  type Resolved,
  type Unresolved,
} from '../place/index.ts';
import { type Anchor, anchorName, anchorsOf } from './anchors.ts';
import type { Folded } from './fold.ts';
import { saplingLabel, stemLabel } from './labels.ts';
import type { Located, Stand } from './state.ts';
import { locate } from './where.ts';

export type Moved = Readonly<{
  is: 'stake' | 'stem' | 'sapling' | 'patch';
  id: string;
  label: string;
  /** Metres, and the true azimuth from before to after; null where it could not be placed before or cannot be now. */
  metres: number | null;
  azimuthTrue: number | null;
  /** Why: its own position was entered anew, what it was measured from moved, or the way positions are worked out changed. */
  because: 'entered anew' | 'what it was measured from moved' | 'declination, axes or working CRS changed';
  /** What cannot be placed, in words; empty where both can. */
  why: string;
  /** The entries that its place rests on, before and after. */
  restsOn: readonly string[];
}>;

/** Less than this is rounding, metres. */
const still = 0.001;

/**
 * Everything that stands in both and lies elsewhere now, the farthest moved first. What came in or went out in between
 * did not move.
 */
export function movedBetween(before: Folded, after: Folded): Moved[] {
  const [old, now] = [placedIn(before.stand), placedIn(after.stand)];
  const shifts = new Map<string, Shift>();
  for (const [key, then] of old) {
    const here = now.get(key);
    const shift = here && shiftBetween(then.where, here.where);
    if (shift !== undefined) shifts.set(key, shift);
  }
  const moved = [...shifts].flatMap(([key, shift]) => {
    const [then, here] = [old.get(key), now.get(key)];
    if (then === undefined || here === undefined) return [];
    const entered = here.located?.entered;
    const because = sameEntered(then.located?.entered, entered)
      ? anchorsOf(entered).some((anchor) => shifts.has(anchorName(anchor)))
        ? ('what it was measured from moved' as const)
        : ('declination, axes or working CRS changed' as const)
      : ('entered anew' as const);
    const restsOn = [...new Set([then.located?.entry, here.located?.entry])].flatMap((id) => id ?? []);
    return [{ is: here.is, id: here.id, label: here.label, ...shift, because, restsOn }];
  });
  return moved.sort((one, other) => (other.metres ?? Infinity) - (one.metres ?? Infinity));
}

type Shift = Pick<Moved, 'metres' | 'azimuthTrue' | 'why'>;

function shiftBetween(before: Resolved | Unresolved, after: Resolved | Unresolved): Shift | undefined {
  if (isUnresolved(before) && isUnresolved(after)) return undefined;
  if (isUnresolved(before)) return { metres: null, azimuthTrue: null, why: `before: ${before.why}` };
  if (isUnresolved(after)) return { metres: null, azimuthTrue: null, why: `now: ${after.why}` };
  const { metres, azimuthTrue } = distanceAndAzimuth(before.at, after.at);
  return metres < still ? undefined : { metres, azimuthTrue, why: '' };
}

type Placed = Pick<Moved, 'is' | 'id' | 'label'> &
  Readonly<{ located: Located | undefined; where: Resolved | Unresolved }>;

function placedIn(stand: Stand): Map<string, Placed> {
  const locator = locate(stand);
  const placed = new Map<string, Placed>();
  const put = (thing: Placed) => placed.set(`${thing.is} ${thing.id}`, thing);
  const anchored = (is: Anchor['is'], id: string, label: string, located: Located | undefined) =>
    put({ is, id, label, located, where: is === 'stake' ? locator.stake(id) : locator.stem(id) });
  for (const { id, label, position } of stand.stakes.values())
    anchored('stake', id, `stake ${label}`, position);
  for (const stem of stand.stems.values()) anchored('stem', stem.id, stemLabel(stem), stem.position);
  for (const [is, things] of [
    ['sapling', stand.saplings],
    ['patch', stand.patches],
  ] as const)
    for (const thing of things.values()) {
      const located = 'position' in thing ? thing.position : undefined;
      put({ is, id: thing.id, label: saplingLabel(thing), located, where: locator.resolve(located) });
    }
  return placed;
}

function sameEntered(one: PositionEntered | undefined, other: PositionEntered | undefined): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
