// How much of a block was opened: in all, year by year, and over a rolling period of years.
import { areaIn, isAreaUnit } from '../../measure/index.ts';
import { areaTogether, isUnresolved, type LonLat, PlaceError, planarArea } from '../../place/index.ts';
import { instantOf } from '../entry.ts';
import type { Folded } from '../fold.ts';
import { boundaryOf } from '../ground.ts';
import { membersOf } from '../members.ts';
import type { Block, Group } from '../state.ts';
import type { Locator } from '../where.ts';
import type { OpeningsAsked, PlacedOpening } from './placed-opening.ts';

export type BlockOpened = Readonly<{
  block: string;
  label: string;
  /** Area of the block, m², and where it is from. */
  m2: number | null;
  from: 'boundary' | 'as stated' | null;
  /** Percent of the block; null where its area is not known. */
  opened: number | null;
  years: readonly Readonly<{
    year: number;
    /** Newly opened in that year, m² and percent of the block. */
    m2: number;
    percent: number | null;
    /** In the period of years that ends with it. */
    rolling: number | null;
  }>[];
}>;

/** Ground that was opened twice counts once; where the block has a boundary, only what lies in it counts. */
export function openedOf(
  placed: readonly PlacedOpening[],
  folded: Folded,
  locator: Locator,
  { block: wanted, period }: Pick<OpeningsAsked, 'block' | 'period'>,
): BlockOpened[] {
  return [...folded.stand.blocks.values()]
    .filter(({ id }) => wanted === undefined || id === wanted)
    .flatMap((block) => {
      const own = placed.filter(({ group }) => group.block === block.id);
      return own.length === 0 ? [] : [blockOf(block, own, { folded, locator, period })];
    });
}

type Scene = Readonly<{ folded: Folded; locator: Locator; period: number }>;

function blockOf(block: Block, openings: readonly PlacedOpening[], scene: Scene): BlockOpened {
  const { folded, locator, period } = scene;
  const code = openings[0]?.area.crs ?? '';
  const boundary = boundaryOf(block, locator);
  const within = isUnresolved(boundary) ? undefined : boundary.points;
  const size = sizeOf(block, code, within);
  const percent = (m2: number) => (size.m2 === null || size.m2 === 0 ? null : (100 * m2) / size.m2);
  const dated = openings
    .map(({ group, area }) => ({ year: yearOf(group, folded), points: area.shape.points }))
    .filter((opening): opening is Dated => opening.year !== undefined);
  const years = [...new Set(dated.map(({ year }) => year))].sort((one, other) => one - other);
  let before = 0;
  const grown = years.map((year) => {
    const until = coveredBy(
      dated.filter((opening) => opening.year <= year),
      code,
      within,
    );
    const m2 = until - before;
    before = until;
    return { year, m2, percent: percent(m2) };
  });
  return {
    block: block.id,
    label: block.name,
    ...size,
    opened: percent(before),
    years: grown.map((one) => ({
      ...one,
      rolling: percent(
        grown
          .filter(({ year }) => year <= one.year && year > one.year - period)
          .reduce((sum, { m2 }) => sum + m2, 0),
      ),
    })),
  };
}

type Dated = Readonly<{ year: number; points: readonly LonLat[] }>;

function coveredBy(openings: readonly Dated[], code: string, within: readonly LonLat[] | undefined): number {
  return areaTogether(
    code,
    openings.map(({ points }) => points),
    within,
  );
}

function sizeOf(
  { area }: Block,
  code: string,
  within: readonly LonLat[] | undefined,
): Pick<BlockOpened, 'm2' | 'from'> {
  if (within !== undefined) {
    try {
      return { m2: planarArea(code, within), from: 'boundary' };
    } catch (error) {
      if (!(error instanceof PlaceError)) throw error;
    }
  }
  if (area === undefined || !isAreaUnit(area.unit)) return { m2: null, from: null };
  return { m2: areaIn(Number(area.value), area.unit, 'm2'), from: 'as stated' };
}

/** The year, where it was recorded, in which the first stem of a group was felled. */
function yearOf(group: Group, { stand }: Folded): number | undefined {
  const first = membersOf(stand, stand.stems, group.id)
    .flatMap(({ felling }) => felling?.at ?? [])
    .sort((one, other) => instantOf(one) - instantOf(other))[0];
  return first === undefined ? undefined : Number(first.at.slice(0, 4));
}
