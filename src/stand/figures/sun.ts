// Hours of direct sun in an opening through the year, at its centre and at protected saplings, before and after the cut.
import {
  horizonOf,
  hoursOfSun,
  isUnresolved,
  type LonLat,
  middleOf,
  pointInRing,
} from '../../place/index.ts';
import type { Folded } from '../fold.ts';
import { groupLabel, saplingLabel } from '../labels.ts';
import { membersOf } from '../members.ts';
import { openingArea } from '../openings/area.ts';
import type { Group } from '../state.ts';
import { type Locator, locate } from '../where.ts';
import { edgeHeightOf } from './edge-height.ts';

export type SunRow = Readonly<{
  label: string;
  /** Why there are no hours; null where there are. */
  missing: string | null;
  /** One for each of `days`; what another opening that it lay in before gave, 0 under the canopy. */
  before: readonly number[];
  after: readonly number[];
}>;

export type SunFigures = Readonly<{
  label: string;
  /** What is missing, as a sentence; null where there are figures. */
  missing: string | null;
  method: string | null;
  edgeHeight: number | null;
  /** The 21st of each month. */
  days: readonly string[];
  rows: readonly SunRow[];
  remarks: readonly string[];
  restsOn: readonly string[];
}>;

const remarks = [
  'Hours of direct sun by an estimate of open sky: clear days, level ground, edge trees as an opaque wall of one height.',
  'Before the cut a point counts as under the canopy, unless it lay in another opening then.',
  "The sun's position is good to 0.01° (Astronomical Almanac, low-precision formulas); the wall of trees is not.",
];

/** @param year for which the days are taken; one is like the other */
export function sunFigures(folded: Folded, group: Group, year: number): SunFigures {
  const { stand } = folded;
  const locator = locate(stand);
  const label = groupLabel(group);
  const days = Array.from({ length: 12 }, (_, month) => `${year}-${String(month + 1).padStart(2, '0')}-21`);
  const none = (missing: string): SunFigures => ({
    label,
    missing,
    method: null,
    edgeHeight: null,
    days,
    rows: [],
    remarks,
    restsOn: [],
  });
  const area = openingArea(group, folded, locator);
  if (isUnresolved(area)) return none(area.why);
  const height = edgeHeightOf(group);
  if (height === undefined)
    return none(
      'not enough data: how high the trees round the opening are; record it with "opening measured".',
    );
  const around = { ring: area.shape.points, height };
  const earlier = earlierOpenings(group, folded, locator);
  const hours = (at: LonLat, surround: typeof around) => {
    const horizon = horizonOf(at, surround);
    return days.map((day) => hoursOfSun(Date.parse(`${day}T12:00:00Z`), at, horizon));
  };
  const rowOf = (name: string, at: LonLat): SunRow => {
    if (!pointInRing(at, around.ring))
      return { label: name, missing: 'it does not lie in the opening', before: [], after: [] };
    const old = earlier.find(({ ring }) => pointInRing(at, ring));
    return {
      label: name,
      missing: null,
      before: old === undefined ? days.map(() => 0) : hours(at, old),
      after: hours(at, around),
    };
  };
  const centre = middleOf(around.ring);
  const saplings = membersOf(stand, stand.saplings, group.id).map((sapling) => {
    const at = locator.resolve(sapling.position);
    return isUnresolved(at)
      ? { label: saplingLabel(sapling), missing: at.why, before: [], after: [] }
      : rowOf(saplingLabel(sapling), at.at);
  });
  return {
    label,
    missing: null,
    method: area.method,
    edgeHeight: height,
    days,
    rows: [...(centre === undefined ? [] : [rowOf('centre', centre)]), ...saplings],
    remarks,
    restsOn: [...area.entries, ...group.measured.map(({ entry }) => entry)],
  };
}

/** Openings that were there before this group was cut, with the trees round them. */
function earlierOpenings(group: Group, folded: Folded, locator: Locator) {
  const { stand } = folded;
  const begun = (one: Group) =>
    folded.happenings.findIndex(
      ({ event }) => event.type === 'stem-felled' && stand.stems.get(event.body.stem)?.group === one.id,
    );
  const own = begun(group);
  return [...stand.groups.values()].flatMap((other) => {
    const height = edgeHeightOf(other);
    const first = begun(other);
    if (other === group || height === undefined || first < 0 || first > own) return [];
    const area = openingArea(other, folded, locator);
    return isUnresolved(area) ? [] : [{ ring: area.shape.points, height }];
  });
}
