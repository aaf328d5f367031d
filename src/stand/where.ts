// Where things of the stand are: positions as entered, resolved through stakes, stems and block axes.
// Nothing is stored: a stake surveyed again moves everything that was measured from it.
import {
  type BlockAxes,
  isUnresolved,
  type LonLat,
  type PositionEntered,
  type Resolved,
  resolvePosition,
  toTrueAzimuth,
  type Unresolved,
} from '../place/index.ts';
import { stemLabel } from './labels.ts';
import type { Block, Located, Stand } from './state.ts';

export type Locator = Readonly<{
  /** Where a recorded position is, or why that cannot be told. */
  resolve: (located: Located | undefined) => Resolved | Unresolved;
  stem: (id: string) => Resolved | Unresolved;
  stake: (id: string) => Resolved | Unresolved;
  /** Corners of an edge; those that cannot be resolved are left out and counted. */
  ring: (corners: readonly PositionEntered[], when: string) => { ring: LonLat[]; unresolved: number };
  /** The user's own declination, if the logbook has one. Degrees, east positive. */
  declination: number | undefined;
}>;

/** A stake or a stem. */
type Key = Readonly<{ is: 'stake' | 'stem'; id: string }>;

const circle: Unresolved = { why: 'The offsets lead round in a circle; measure one of them from a stake.' };
const nowhere: Unresolved = { why: 'No position was recorded.' };

/** Resolves positions of one stand; each stake and stem is worked out once. */
export function locate(stand: Stand): Locator {
  const declinationText = stand.logbook?.body.declination?.value;
  const declination = declinationText === undefined ? undefined : Number(declinationText);
  const done = new Map<string, Resolved | Unresolved>();
  const underway = new Set<string>();

  const positionOf = (key: Key) => (key.is === 'stake' ? stand.stakes : stand.stems).get(key.id)?.position;
  /** From here to what everything hangs on: chains may be long, so they are not followed by recursion. */
  const chainFrom = (first: Key): Key[] => {
    const chain: Key[] = [];
    const passed = new Set<string>();
    for (let key: Key | undefined = first; key; key = nextIn(positionOf(key))) {
      const name = nameOf(key);
      if (done.has(name) || underway.has(name) || passed.has(name)) break;
      passed.add(name);
      chain.push(key);
    }
    return chain;
  };
  const anchored = (wanted: Key): Resolved | Unresolved => {
    for (const key of chainFrom(wanted).reverse()) {
      const name = nameOf(key);
      underway.add(name);
      done.set(name, resolve(positionOf(key)));
      underway.delete(name);
    }
    return done.get(nameOf(wanted)) ?? circle;
  };
  const stem = (id: string) => anchored({ is: 'stem', id });
  const stake = (id: string) => anchored({ is: 'stake', id });

  const resolveEntered = (entered: PositionEntered, when: string): Resolved | Unresolved =>
    resolvePosition(entered, {
      anchor: (reference) => ('stake' in reference ? stake(reference.stake) : stem(reference.stem)),
      nameOf: (reference) =>
        'stake' in reference
          ? `stake ${stand.stakes.get(reference.stake)?.label ?? 'unknown'}`
          : `stem ${stemLabel(stand.stems.get(reference.stem))}`,
      axes: (block) => axesOf(stand.blocks.get(block), resolveEntered, declination),
      when,
      ...(declination === undefined ? {} : { declination }),
    });
  const resolve = (located: Located | undefined): Resolved | Unresolved =>
    located === undefined ? nowhere : resolveEntered(located.entered, located.when);

  const ring = (corners: readonly PositionEntered[], when: string) => {
    const answers = corners.map((corner) => resolveEntered(corner, when));
    const found = answers.flatMap((answer) => (isUnresolved(answer) ? [] : [answer.at]));
    return { ring: found, unresolved: answers.length - found.length };
  };
  return { resolve, stem, stake, ring, declination };
}

/** A block's own axes, unless their origin hangs on themselves or cannot be resolved. */
function axesOf(
  block: Block | undefined,
  resolveEntered: (entered: PositionEntered, when: string) => Resolved | Unresolved,
  declination: number | undefined,
): BlockAxes | undefined {
  const axes = block?.axes;
  if (axes === undefined || axes.origin.how === 'local') return undefined;
  const origin = resolveEntered(axes.origin, axes.when);
  if (isUnresolved(origin)) return undefined;
  const azimuth = toTrueAzimuth(axes.azimuth, origin.at, axes.when, declination);
  return isUnresolved(azimuth) ? undefined : { origin: origin.at, yAzimuthTrue: azimuth.value };
}

function nameOf({ is, id }: Key): string {
  return `${is} ${id}`;
}

/** What a position was measured from. */
function nextIn(located: Located | undefined): Key | undefined {
  if (located?.entered.how !== 'offset') return undefined;
  const { from } = located.entered;
  return 'stake' in from ? { is: 'stake', id: from.stake } : { is: 'stem', id: from.stem };
}
