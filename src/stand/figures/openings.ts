// Openings: how large, in which way measured, of what form, how far from each other and from what lies on the ground.
import { areaIn, isAreaUnit, type System } from '../../measure/index.ts';
import {
  apart,
  areaTogether,
  isUnresolved,
  PlaceError,
  planarArea,
  type RingForm,
  ringForm,
  type Unresolved,
} from '../../place/index.ts';
import type { Folded } from '../fold.ts';
import { featureShape } from '../ground.ts';
import { groupLabel } from '../labels.ts';
import {
  type AreaFigures,
  figures,
  type OpeningMeasure,
  openingArea,
  openingMeasures,
} from '../openings/area.ts';
import { outlineOf } from '../outlines.ts';
import type { Group } from '../state.ts';
import { type Locator, locate } from '../where.ts';
import { edgeHeightOf, metresOf } from './edge-height.ts';
import { type BlockOpened, openedOf } from './opened.ts';
import type { OpeningsAsked, PlacedOpening } from './placed-opening.ts';

export type OpeningRow = Readonly<{
  group: string;
  label: string;
  state: Group['opening'];
  /** In every way in which it was measured; the first that has an area is the one that is used below. */
  measures: readonly (OpeningMeasure | (Unresolved & Readonly<{ method: string }>))[];
  planned: AreaFigures | null;
  /** As cut, in percent of what was planned. */
  ofPlanned: number | null;
  /** Metres and degrees. */
  form: RingForm | null;
  /** Height of the trees round it, metres, and the width of the opening in such heights. */
  edgeHeight: number | null;
  widthInHeights: number | null;
  /** Metres, edge to edge. */
  nearest: Readonly<{ label: string; metres: number }> | null;
  features: readonly Readonly<{ label: string; what: string; metres: number }>[];
  /** Other openings that count as one with it. */
  touches: readonly string[];
  /** The ground of all of them together; null where it touches none. */
  together: AreaFigures | null;
  restsOn: readonly string[];
}>;

export type OpeningFigures = Readonly<{
  system: System;
  period: number;
  rows: readonly OpeningRow[];
  blocks: readonly BlockOpened[];
  remarks: readonly string[];
}>;

/** Openings whose edges are nearer than this count as one, metres. Common practice, no source: a person steps across. */
const TOUCH_METRES = 1;

export function openingFigures(folded: Folded, asked: OpeningsAsked): OpeningFigures {
  const locator = locate(folded.stand);
  const begun = [...folded.stand.groups.values()].filter(({ opening }) => opening !== 'not cut yet');
  const placed = begun.flatMap((group): PlacedOpening[] => {
    const area = openingArea(group, folded, locator);
    return isUnresolved(area) ? [] : [{ group, area }];
  });
  const shown = begun.filter(
    ({ id, block }) =>
      (asked.group === undefined || id === asked.group) &&
      (asked.block === undefined || block === asked.block),
  );
  return {
    system: asked.system,
    period: asked.period,
    rows: shown.map((group) => rowOf(group, placed, folded, locator)),
    blocks: openedOf(placed, folded, locator, asked),
    remarks: [
      'An area is always that of its way of measuring: ways differ by a fifth and more for the same opening.',
      'The error is what the corners are off by; it does not tell how far the way of measuring is from the hole in the canopy.',
      `Openings whose edges are less than ${TOUCH_METRES} m (3.3 ft) apart count as one.`,
      'An opening belongs to the year in which its first stem was felled.',
    ],
  };
}

function rowOf(group: Group, placed: readonly PlacedOpening[], folded: Folded, locator: Locator): OpeningRow {
  const measures = openingMeasures(group, folded, locator);
  const own = placed.find((opening) => opening.group === group);
  const cut = measures.find((measure): measure is OpeningMeasure => 'area' in measure);
  const planned = plannedOf(group, folded, locator);
  const form = own === undefined ? undefined : ringForm(own.area.shape.points);
  const edgeHeight = edgeHeightOf(group);
  const others = placed
    .filter((other) => own !== undefined && other !== own)
    .map((other) => ({ label: groupLabel(other.group), metres: own === undefined ? 0 : between(own, other) }))
    .sort((one, other) => one.metres - other.metres);
  const cluster = own === undefined ? [] : touching(own, placed);
  return {
    group: group.id,
    label: groupLabel(group),
    state: group.opening,
    measures,
    planned: planned === undefined ? null : figures(planned),
    ofPlanned:
      planned === undefined || planned === 0 || cut === undefined ? null : (100 * cut.area.m2) / planned,
    form: form ?? null,
    edgeHeight: edgeHeight ?? null,
    widthInHeights: form === undefined || edgeHeight === undefined ? null : form.width / edgeHeight,
    nearest: others[0] ?? null,
    features: own === undefined ? [] : distancesFrom(own, folded, locator),
    touches: cluster.map((other) => groupLabel(other.group)),
    together: cluster.length === 0 || own === undefined ? null : togetherOf([own, ...cluster]),
    restsOn: [...new Set(measures.flatMap((measure) => ('area' in measure ? measure.entries : [])))],
  };
}

function between(one: PlacedOpening, other: PlacedOpening): number {
  return apart(
    { is: 'ring', points: one.area.shape.points },
    { is: 'ring', points: other.area.shape.points },
  );
}

/** All that hang together with an opening by touching, without itself. */
function touching(own: PlacedOpening, placed: readonly PlacedOpening[]): PlacedOpening[] {
  const cluster = [own];
  for (const one of cluster) {
    for (const other of placed)
      if (!cluster.includes(other) && between(one, other) < TOUCH_METRES) cluster.push(other);
  }
  return cluster.slice(1);
}

function togetherOf(cluster: readonly PlacedOpening[]): AreaFigures | null {
  const code = cluster[0]?.area.crs;
  if (code === undefined) return null;
  return figures(
    areaTogether(
      code,
      cluster.map(({ area }) => area.shape.points),
    ),
  );
}

function distancesFrom({ area }: PlacedOpening, { stand }: Folded, locator: Locator): OpeningRow['features'] {
  return [...stand.features.values()].flatMap((feature) => {
    const shape = featureShape(feature, locator);
    if (isUnresolved(shape) || feature.body === undefined) return [];
    const half = shape.is === 'line' ? (metresOf(feature.body.width) ?? 0) / 2 : 0;
    const metres = Math.max(0, apart({ is: 'ring', points: area.shape.points }, shape) - half);
    return [{ label: feature.label, what: feature.body.what, metres }];
  });
}

/** What was planned, m²: within the planned edge, or as stated. */
function plannedOf(group: Group, folded: Folded, locator: Locator): number | undefined {
  const code = folded.stand.logbook?.body.crs;
  if (group.plannedEdge !== undefined && code !== undefined) {
    const when = folded.entries.get(group.entries[0] ?? '')?.happenedAt.at ?? '';
    const outline = outlineOf('planned edge', group.plannedEdge, when, locator);
    if (!isUnresolved(outline)) return gridArea(code, outline.points);
  }
  const stated = group.plannedArea;
  if (stated === undefined || !isAreaUnit(stated.unit)) return undefined;
  return areaIn(Number(stated.value), stated.unit, 'm2');
}

function gridArea(code: string, points: Parameters<typeof planarArea>[1]): number | undefined {
  try {
    return planarArea(code, points);
  } catch (error) {
    if (error instanceof PlaceError) return undefined;
    throw error;
  }
}
