// Openings: the ground where groups stood.
import { isUnresolved } from '../place/index.ts';
import { type Group, groupLabel, type OpeningArea, openingArea, viewGroup } from '../stand/index.ts';
import { areaColumns, blockName, count, entryTimes, figure, text, timeOf } from './columns.ts';
import { defineLayer, type View } from './layer.ts';

const areaHelp = 'Area by coordinates in the working CRS; it carries the scale of the grid.';

/** A group whose cutting has begun, with the ground of its opening worked out once. */
type Opening = Group & Readonly<{ ground: ReturnType<typeof openingArea>; stemCounts: Counts }>;
type Counts = Readonly<{ felled: number; hungUp: number; stillToCut: number }>;

export const openings = defineLayer<Opening>({
  name: 'openings',
  title: 'Openings',
  help: 'Ground where groups were cut: within the edge as walked, or else as it was measured in another way, or else the hull of the stumps, as the method says. Groups that are not cut yet have no opening.',
  geometry: 'Polygon',
  subjects: openingsIn,
  label: groupLabel,
  shape: ({ ground }) => (isUnresolved(ground) ? ground : ground.shape),
  columns: [
    text('state', 'open or closed.', ({ opening }) => opening),
    text('block', 'Name of its block.', ({ block }, view) => blockName(view, block)),
    text('reason', 'Why the group was cut here.', ({ reason }) => reason),
    text(
      'method',
      'How the ground was taken: walked edge, spokes, crown edge, two diameters, edge trees, or hull of stumps.',
      ({ ground }) => areaOf(ground)?.method,
    ),
    text('area_crs', 'Working CRS that the area was computed in.', ({ ground }) => areaOf(ground)?.crs),
    figure('area_m2', 'm2', 1, areaHelp, ({ ground }) => areaOf(ground)?.planar.m2),
    figure('area_ac', 'ac', 4, areaHelp, ({ ground }) => areaOf(ground)?.planar.ac),
    figure(
      'area_error_m2',
      'm2',
      1,
      'Standard error of the area, from what its corners are off by.',
      ({ ground }) => areaOf(ground)?.standardError,
    ),
    figure('area_ha', 'ha', 4, areaHelp, ({ ground }) => areaOf(ground)?.planar.ha),
    figure(
      'geodesic_area_m2',
      'm2',
      1,
      'Area on the ellipsoid, as a check.',
      ({ ground }) => areaOf(ground)?.geodesic.m2,
    ),
    figure(
      'area_difference_percent',
      '%',
      4,
      'How much the area is above the geodesic one.',
      ({ ground }) => areaOf(ground)?.differencePercent,
    ),
    text(
      'area_remarks',
      'What to know when reading the area.',
      ({ ground }) => areaOf(ground)?.remarks.join(' ') || undefined,
    ),
    ...areaColumns<Opening>('planned_area', 'm2', 'Planned area.', ({ plannedArea }) => plannedArea),
    count('felled', 'Stems felled and down.', ({ stemCounts }) => stemCounts.felled),
    count(
      'hung_up',
      'Stems hung up now. A danger to life: keep away.',
      ({ stemCounts }) => stemCounts.hungUp,
    ),
    count('still_to_cut', 'Stems marked to be cut that stand.', ({ stemCounts }) => stemCounts.stillToCut),
    timeOf<Opening>('closed_at', 'When it was closed, if it is closed now.', ({ opening, closings }) =>
      opening === 'closed' ? closings.at(-1)?.entry : undefined,
    ),
    ...entryTimes<Opening>(),
  ],
});

function openingsIn({ stand, folded, locator }: View): Opening[] {
  return [...stand.groups.values()]
    .filter(({ opening }) => opening !== 'not cut yet')
    .map((group) => {
      const { felled, hungUp, standingCut } = viewGroup(stand, [], group);
      const stemCounts = { felled: felled.length, hungUp: hungUp.length, stillToCut: standingCut.length };
      return { ...group, ground: openingArea(group, folded, locator), stemCounts };
    });
}

function areaOf(ground: Opening['ground']): OpeningArea | undefined {
  return isUnresolved(ground) ? undefined : ground;
}
