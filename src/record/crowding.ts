// Crowding: an import that puts more stems on a patch of ground than ground carries has wrong coordinates.
// Each line looks right alone, so this is asked of an import as a whole, against the stand it would make.
import { basalArea, isLengthUnit, lengthIn } from '../measure/index.ts';
import { crs, isUnresolved, type LonLat, nearestZones, PlaceError, project } from '../place/index.ts';
import { type Folded, locate, type Stem, stemLabel } from '../stand/index.ts';
import type { Question } from './question.ts';

/** Side of the square that is looked at, metres: the usual quadrat of mapped plots, whose offset is what gets lost. */
const side = 20;
/** Squares begin at every fifth metre. */
const step = 5;

/**
 * Beyond either of these a square is asked about. Common practice, no source: closed woods carry some 20 to 60 m² of
 * basal area per hectare and, counting every stem above 1 cm, a few thousand stems. Thickets and groves of giants
 * carry more; therefore it is a question and no error.
 */
const limits = {
  /** Stems in the square: 6,250 per hectare. */
  stems: 250,
  /** Basal area, m² per hectare, where at least `measured` stems in the square have a DBH. */
  basalArea: 120,
  measured: 25,
} as const;

type Placed = Readonly<{ label: string; east: number; north: number; wood: number; imported: boolean }>;
/** The south-west corner of a square, metres. */
type Corner = Readonly<{ west: number; south: number }>;
/** What a square holds; `wood` is basal area in m². */
type Square = Corner & { stems: number; measured: number; wood: number; imported: number };

/**
 * Asks when stems of an import stand closer than stems do.
 * @param folded the stand as it would be with the import
 * @param imported ids of the stems in the import; a square that holds none of them is not asked about
 */
export function crowdingQuestions(folded: Folded, imported: ReadonlySet<string>): Question[] {
  if (imported.size < limits.measured) return [];
  const placed = placeStems(folded, imported);
  const corner = mostCrowded(placed);
  if (corner === undefined) return [];
  const inside = placed.filter((stem) => isInside(stem, corner));
  const wood = inside.reduce((sum, stem) => sum + stem.wood, 0);
  const perHectare = (inside.length / side ** 2) * 10_000;
  const named = inside.slice(0, 3).map(({ label }) => label);
  return [
    {
      code: 'crowded',
      sentence: [
        `${inside.length} stems stand in one square of ${side} × ${side} m (${named.join(', ')} …):`,
        `${perHectare.toLocaleString('en-US', { maximumFractionDigits: 0 })} stems and`,
        `${((wood / side ** 2) * 10_000).toFixed(0)} m² of basal area per hectare, far more than woods carry.`,
        'Was an offset between quadrats left out of the coordinates, or are they in another unit?',
      ].join(' '),
      choices: [{ answer: 'anyway', label: 'they do stand that close: record them as they are' }],
    },
  ];
}

/** Stems whose position can be told, in metres of one plane. */
function placeStems({ stand }: Folded, imported: ReadonlySet<string>): Placed[] {
  const { stem: where } = locate(stand);
  const found = [...stand.stems].flatMap(([id, stem]) => {
    const resolved = where(id);
    return isUnresolved(resolved) ? [] : [{ id, stem, at: resolved.at }];
  });
  const [first] = found;
  const code = stand.logbook?.body.crs ?? (first && nearestZones(first.at).utm[0]?.code);
  const system = code === undefined ? undefined : crs(code);
  if (system === undefined) return [];
  const metre = lengthIn(1, system.unit, 'm');
  return found.flatMap(({ id, stem, at }) => {
    const point = projected(system.code, at);
    if (point === undefined) return [];
    const [east, north] = [point.x * metre, point.y * metre];
    return [{ label: stemLabel(stem), east, north, wood: woodOf(stem), imported: imported.has(id) }];
  });
}

/** A stem that the plane cannot show is no neighbour of those that it can. */
function projected(code: string, at: LonLat) {
  try {
    return project(code, at);
  } catch (error) {
    if (error instanceof PlaceError) return undefined;
    throw error;
  }
}

/** Basal area in m²; nothing where no DBH was taken. */
function woodOf({ dbh }: Stem): number {
  return dbh === undefined || !isLengthUnit(dbh.unit) ? 0 : basalArea(Number(dbh.value), dbh.unit, 'm2');
}

/**
 * The square beyond the limits that holds most stems. Squares are laid at every `step` metres, so that one which grid
 * lines would cut into four does not pass in parts; the fullest is then moved by single metres to hold still more.
 */
function mostCrowded(placed: readonly Placed[]): Corner | undefined {
  let fullest: Square | undefined;
  for (const square of squaresOver(placed).values()) {
    if (isBeyond(square) && square.stems > (fullest?.stems ?? 0)) fullest = square;
  }
  return fullest && movedToHoldMost(fullest, placed);
}

function isBeyond({ stems, measured, wood, imported }: Square): boolean {
  const dense = measured >= limits.measured && (wood / side ** 2) * 10_000 > limits.basalArea;
  return imported > 0 && (dense || stems > limits.stems);
}

/** Every square that holds a stem, with what it holds. */
function squaresOver(placed: readonly Placed[]): Map<number, Square> {
  const squares = new Map<number, Square>();
  for (const { east, north, wood, imported } of placed) {
    for (let right = 0; right < side; right += step) {
      for (let up = 0; up < side; up += step) {
        const corner = { west: lattice(east) - right, south: lattice(north) - up };
        const key = keyOf(corner);
        const square = squares.get(key) ?? { ...corner, stems: 0, measured: 0, wood: 0, imported: 0 };
        square.stems += 1;
        square.measured += wood > 0 ? 1 : 0;
        square.wood += wood;
        square.imported += imported ? 1 : 0;
        squares.set(key, square);
      }
    }
  }
  return squares;
}

function movedToHoldMost({ west, south }: Corner, placed: readonly Placed[]): Corner {
  const near = placed.filter(
    ({ east, north }) => Math.abs(east - west) < 2 * side && Math.abs(north - south) < 2 * side,
  );
  const shifts = Array.from({ length: 2 * step + 1 }, (_, index) => index - step);
  let best = { corner: { west, south }, stems: 0 };
  for (const east of shifts) {
    for (const north of shifts) {
      const corner = { west: west + east, south: south + north };
      const stems = near.filter((stem) => isInside(stem, corner)).length;
      if (stems > best.stems) best = { corner, stems };
    }
  }
  return best.corner;
}

function isInside({ east, north }: Placed, { west, south }: Corner): boolean {
  return east >= west && east < west + side && north >= south && north < south + side;
}

function lattice(metres: number): number {
  return Math.floor(metres / step) * step;
}

/** Eastings and northings stay below 2^24 metres, so one number holds both. */
function keyOf({ west, south }: Corner): number {
  return west * 2 ** 24 + south;
}
