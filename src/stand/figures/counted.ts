// Which stems of the log are counted, and in which of the four columns of a cut each of them stands.
import { isLengthUnit, type LengthUnit, lengthIn, type System } from '../../measure/index.ts';
import type { Happening } from '../entry.ts';
import type { Folded } from '../fold.ts';
import type { Stem } from '../state.ts';
import { blockOfStem } from '../stem-facts.ts';
import { dbhOf, type KnownDbh } from './dbh.ts';

/** `removed`: felled, whether it came down or hung up. `lost`: found dead or down by itself. `left`: alive and standing. */
export type Column = 'removed' | 'lost' | 'left';

export type CountedStem = Readonly<{ stem: Stem; dbh: KnownDbh | undefined; column: Column }>;

export type CountAsked = Readonly<{
  /** Ids; a stem belongs to the block that its group lies in, or to its own. */
  block?: string;
  group?: string;
  /** A piece of ground, in words, and whether it holds a stem; undefined for one whose place is not known. */
  zone?: Readonly<{ words: string; holds: (stem: Stem) => boolean | undefined }>;
  /** Start of a period, milliseconds since 1970: what was cut or lost before was not there. */
  from?: number;
  /** Smallest DBH that is counted. Stems without any DBH are counted, and said. */
  floor?: Readonly<{ value: number; unit: string }>;
}>;

/** Live stems at the start, each in its column at the end. Those that were dead when first seen are left out. */
export function countStems({ stand, happenings }: Folded, asked: CountAsked): CountedStem[] {
  const ends = endsOf(happenings);
  const counted: CountedStem[] = [];
  for (const stem of stand.stems.values()) {
    if (!isIn(stem, asked, stand)) continue;
    const end = ends.get(stem.id);
    if (
      end !== undefined &&
      (end.column === undefined || end.instant < (asked.from ?? Number.NEGATIVE_INFINITY))
    )
      continue;
    const dbh = dbhOf(stem);
    if (isUnder(dbh && { value: dbh.inches, unit: 'in' }, asked.floor)) continue;
    counted.push({ stem, dbh, column: end?.column ?? 'left' });
  }
  return counted;
}

function isIn(stem: Stem, { block, group, zone }: CountAsked, stand: Folded['stand']): boolean {
  if (group !== undefined && stem.group !== group) return false;
  if (block !== undefined && blockOfStem(stem, stand) !== block) return false;
  return zone === undefined || zone.holds(stem) === true;
}

/** How a stem ceased to live, and when; `column` is undefined when it was dead as far back as anybody looked. */
type End = Readonly<{ column: 'removed' | 'lost' | undefined; instant: number }>;

function endsOf(happenings: readonly Happening[]): Map<string, End> {
  const ends = new Map<string, End>();
  const seen = new Set<string>();
  for (const { event, instant } of happenings) {
    switch (event.type) {
      case 'stem-felled':
        end(ends, event.body.stem, { column: 'removed', instant });
        break;
      case 'stem-found-down':
      case 'stem-found-dead':
        end(ends, event.body.stem, { column: 'lost', instant });
        break;
      case 'stem-marked':
      case 'stem-measured':
        if (event.body.vigor === 'dead')
          end(ends, event.body.stem, { column: seen.has(event.body.stem) ? 'lost' : undefined, instant });
        seen.add(event.body.stem);
        break;
      default:
    }
  }
  return ends;
}

/** A stem ends once: a dead one that is felled later was lost, not removed. */
function end(ends: Map<string, End>, stem: string, how: End): void {
  if (!ends.has(stem)) ends.set(stem, how);
}

/** Whether a DBH is under the floor, unrounded and in the unit that the floor is stated in; one that nobody took is not. */
export function isUnder(
  dbh: Readonly<{ value: number; unit: LengthUnit }> | undefined,
  floor: CountAsked['floor'],
): boolean {
  if (dbh === undefined || floor === undefined || !isLengthUnit(floor.unit)) return false;
  return lengthIn(dbh.value, dbh.unit, floor.unit) < floor.value;
}

/** Inches for the inch system, centimetres for the metric one. */
export function diameterUnit(system: System): 'in' | 'cm' {
  return system === 'inch' ? 'in' : 'cm';
}
