// gather: the stand -> what the felling model has to know about one group. Everything that cannot be placed is named, so
// that nobody takes it for not being there.
import { isUnresolved, type LonLat } from '../../place/index.ts';
import {
  type Group,
  groupLabel,
  type Locator,
  linesOf,
  locate,
  type Sapling,
  type Stand,
  type Stem,
  saplingLabel,
  stemLabel,
} from '../../stand/index.ts';
import { FellingError } from '../error.ts';
import { closedGroup } from '../model/check-inputs.ts';
import type {
  GroundSlope,
  GroupInputs,
  GroupStem,
  LeaveTree,
  Patch as PatchInputs,
  Sapling as SaplingInputs,
  Tools,
} from '../model/inputs.ts';
import { type ErrorsIn, errorsAgainst } from './errors.ts';
import { hazardsAround, landmarksAround, linesAround, onTheGroundAround } from './ground.ts';
import { apartInPlane, type Plane, planeOf, type Unplaced } from './plane.ts';
import { REACH } from './reach.ts';
import { entriesBehind } from './rests-on.ts';
import { groupStem, heightsOf, known, metresOf } from './stems.ts';

/** What the log does not say and a person says when a plan is asked for. */
export type SaidForPlan = Readonly<{
  slope?: GroundSlope | undefined;
  /** Mean wind, metres a second. */
  wind?: number | undefined;
  tools?: Tools | undefined;
  /** Pairs [a, b] of stem ids: a has to be down before b. */
  before?: readonly (readonly [string, string])[] | undefined;
  /** Ids of stems that are felled after all others. */
  last?: readonly string[] | undefined;
  /** Where people work or stay while the group is felled. */
  people?: readonly Readonly<{ label: string; at: LonLat }>[] | undefined;
}>;

export type Gathered = Readonly<{
  inputs: GroupInputs;
  /** What has no place in the plane and is therefore not in the plan. */
  unplaced: readonly Unplaced[];
  /** The entries that the inputs rest on. */
  restsOn: readonly string[];
  /** The plane's origin. */
  origin: Plane['origin'];
}>;

/**
 * Gathers what is known of a group.
 * @param when RFC 3339; the day that a declination is taken at
 * @throws FellingError when the group has no stem to fell that could be placed
 */
export function gather(stand: Stand, group: Group, when: string, said: SaidForPlan = {}): Gathered {
  const locator = locate(stand);
  const lines = linesOf(stand, locator);
  const label = groupLabel(group);
  const toFell = [...stand.stems.values()].filter(
    (stem) => stem.group === group.id && stem.mark === 'cut' && isUp(stem),
  );
  const [origin] = toFell.flatMap(({ id }) => {
    const place = locator.stem(id);
    return isUnresolved(place) ? [] : [place.at];
  });
  if (group.opening === 'closed') throw closedGroup(label);
  if (origin === undefined) throw nothingToPlan(label, toFell);
  const plane = planeOf(origin);
  const [first] = toFell.filter(({ id }) => !isUnresolved(locator.stem(id)));
  const errorOf = errorsAgainst(stand, locator, first?.position);
  const around = { stand, locator, lines, when, heights: heightsOf(stand) };
  const stems = toFell.flatMap((stem): GroupStem[] => {
    const place = locator.stem(stem.id);
    const point = plane.of(stemLabel(stem), place);
    if (point === undefined || isUnresolved(place)) return [];
    const gathered = groupStem(
      stem,
      { ...point, positionError: errorOf(place, stem.position) },
      place.at,
      around,
    );
    return [said.last?.includes(stem.id) === true ? { ...gathered, bumper: true } : gathered];
  });
  const planned = new Set(toFell.map(({ id }) => id));
  const near = (point: { x: number; y: number }) => stems.some((stem) => apartInPlane(stem, point) <= REACH);
  const saplings = saplingsNear(stand, locator, plane, errorOf).filter(near);
  const patches = patchesNear(stand, locator, plane).filter(({ ring }) => ring.some(near));
  const leave = leaveTreesNear(stand, { locator, plane, errorOf }, planned).filter(near);
  const behind = entriesBehind({
    stand,
    locator,
    group,
    stems: toFell,
    leave: leave.flatMap(({ id }) => stand.stems.get(id) ?? []),
    saplings: saplings.flatMap(({ id }) => stand.saplings.get(id) ?? []),
    patches: patches.flatMap(({ id }) => stand.patches.get(id) ?? []),
  });
  return {
    inputs: known<GroupInputs>({
      id: group.id,
      label,
      stems,
      saplings,
      patches,
      leaveTrees: leave,
      lines: linesAround(stand, locator, plane),
      hazards: hazardsAround(stand, locator, plane, planned),
      landmarks: landmarksAround(stand, locator, plane).filter(near),
      onTheGround: onTheGroundAround(stand, locator, plane).filter(near),
      workPlaces: (said.people ?? []).map(({ label: name, at }) => ({
        id: name,
        label: name,
        ...plane.at(at),
      })),
      slope: said.slope,
      wind: said.wind,
      tools: said.tools,
      before: said.before,
    }),
    unplaced: plane.unplaced,
    restsOn: behind,
    origin,
  };
}

function isUp({ status }: Stem): boolean {
  return status === 'standing' || status === 'dead';
}

function nothingToPlan(label: string, toFell: readonly Stem[]): FellingError {
  return toFell.length === 0
    ? new FellingError(
        'group',
        label,
        `${label} has no stem that is marked to be cut and stands.`,
        'Mark the stems first, or name another group.',
      )
    : new FellingError(
        'position',
        '',
        `None of the ${toFell.length} stems to be cut in ${label} has a position.`,
        'Measure azimuth and distance of each from a stake or from another stem.',
      );
}

/** Saplings that are still there, as far as they were checked. */
function saplingsNear(stand: Stand, locator: Locator, plane: Plane, errorOf: ErrorsIn): SaplingInputs[] {
  return [...stand.saplings.values()].filter(isThere).flatMap((sapling): SaplingInputs[] => {
    const label = saplingLabel(sapling);
    const place = locator.resolve(sapling.position);
    const point = plane.of(label, place);
    return point === undefined
      ? []
      : [
          known<SaplingInputs>({
            ...point,
            id: sapling.id,
            label,
            positionError: errorOf(place, sapling.position),
          }),
        ];
  });
}

function isThere({ introduced, checks }: Pick<Sapling, 'introduced' | 'checks'>): boolean {
  const last = checks.at(-1)?.condition;
  return introduced && last !== 'crushed' && last !== 'not-found';
}

/** A patch counts as one sapling until somebody says more. Common practice, no source. */
function patchesNear(stand: Stand, locator: Locator, plane: Plane): PatchInputs[] {
  return [...stand.patches.values()].filter(isThere).flatMap((patch): PatchInputs[] => {
    const label = saplingLabel(patch);
    const { ring, unresolved } = locator.ring(patch.edge ?? [], patch.edgeWhen ?? '');
    if (ring.length < 3) {
      const why =
        patch.edge === undefined
          ? 'Its edge was not recorded.'
          : `${unresolved} of its corners cannot be placed.`;
      plane.of(label, { why });
      return [];
    }
    return [{ id: patch.id, label, ring: ring.map(plane.at), value: 1 }];
  });
}

/** Every stem that stands and is not to be felled now: it can be struck, and it can hold a falling one. */
function leaveTreesNear(
  stand: Stand,
  { locator, plane, errorOf }: Readonly<{ locator: Locator; plane: Plane; errorOf: ErrorsIn }>,
  planned: ReadonlySet<string>,
): LeaveTree[] {
  return [...stand.stems.values()]
    .filter((stem) => stem.introduced && isUp(stem) && !planned.has(stem.id))
    .flatMap((stem): LeaveTree[] => {
      const { id, dbh, crownRadius } = stem;
      const label = stemLabel(stem);
      const place = locator.stem(id);
      const point = plane.of(label, place);
      if (point === undefined) return [];
      return [
        known<LeaveTree>({
          ...point,
          id,
          label,
          dbh: metresOf(dbh),
          crownRadius: metresOf(crownRadius),
          positionError: errorOf(place, stem.position),
        }),
      ];
    });
}
