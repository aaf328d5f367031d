// The entries that a plan rests on: of what it plans for, of what stands and grows around, of what positions were measured from,
// and of what lies near.
import { isUnresolved } from '../../place/index.ts';
import {
  featureShape,
  type Group,
  hangOn,
  type Locator,
  type Patch,
  type Sapling,
  type Stand,
  type Stem,
} from '../../stand/index.ts';
import { reachOf } from './reach.ts';

export type Behind = Readonly<{
  stand: Stand;
  locator: Locator;
  group: Group;
  /** Those to fell. */
  stems: readonly Stem[];
  /** Those that stay, within reach. */
  leave: readonly Stem[];
  saplings: readonly Sapling[];
  patches: readonly Patch[];
}>;

/** Ids of entries, each once. */
export function entriesBehind(behind: Behind): string[] {
  const { stand, group, stems, leave, saplings, patches } = behind;
  const things = [...stems, ...leave, ...saplings, ...patches];
  const under = hangOn(stand, [
    ...things.map(({ position }) => position?.entered),
    ...patches.flatMap(({ edge = [] }) => edge),
  ]);
  const anchors = [
    ...[...under.stake].flatMap((id) => stand.stakes.get(id) ?? []),
    ...[...under.stem].flatMap((id) => stand.stems.get(id) ?? []),
  ];
  // That a plan was adopted is no input: the same plan is known again after it.
  const plans = new Set([group.plan, ...(group.earlierPlans ?? [])].map((plan) => plan?.entry));
  const behindAll = [group, ...things, ...anchors, ...dangers(behind), ...features(behind)];
  return [...new Set(behindAll.flatMap(({ entries }) => entries))].filter((entry) => !plans.has(entry));
}

function dangers({ stand, group, stems }: Behind) {
  const ids = new Set(stems.map(({ id }) => id));
  return [...stand.openHazards]
    .flatMap((id) => stand.hazards.get(id) ?? [])
    .filter((hazard) => hazard.group === group.id || ids.has(hazard.stem ?? ''));
}

function features({ stand, locator, stems }: Behind) {
  const reach = reachOf(
    stems.map(({ id }) => id),
    locator,
  );
  return [...stand.features.values()].filter((feature) => {
    const shape = featureShape(feature, locator);
    return !isUnresolved(shape) && reach.line(shape.points);
  });
}
