// Where things of the stand are: positions as entered, resolved through stakes, stems and block axes.
// Nothing is stored with the log: a stake surveyed again moves everything that was measured from it.
import {
  type BlockAxes,
  COMPASS_AND_TAPE,
  type CompassAndTape,
  crs,
  isUnresolved,
  type LonLat,
  type PositionContext,
  type PositionEntered,
  type Resolved,
  resolvePosition,
  SURVEYED_AXIS_DEGREES,
  toTrueAzimuth,
  type Unresolved,
} from '../place/index.ts';
import { type Anchor, anchorsOf, locatedOf } from './anchors.ts';
import { keptPlaces, resolveOnce } from './kept-places.ts';
import { stemLabel } from './labels.ts';
import type { Block, Located, Stand } from './state.ts';

export type Locator = Readonly<{
  /** Where a recorded position is, or why that cannot be told. */
  resolve: (located: Located | undefined) => Resolved | Unresolved;
  stem: (id: string) => Resolved | Unresolved;
  stake: (id: string) => Resolved | Unresolved;
  /** Corners of an edge; those that cannot be resolved are left out and counted. */
  ring: (corners: readonly PositionEntered[], when: string) => { ring: LonLat[]; unresolved: number };
  /** Where azimuth and distance lead from a place that is known already and called something. */
  offset: (from: Resolved, called: string, taped: Taped, when: string) => Resolved | Unresolved;
  /** The user's own declination, if the logbook has one. Degrees, east positive. */
  declination: number | undefined;
}>;

/** An azimuth with a distance, as entered. */
export type Taped = Omit<Extract<PositionEntered, { how: 'offset' }>, 'how' | 'from'>;

const circle: Unresolved = { why: 'The offsets lead round in a circle; measure one of them from a stake.' };
const nowhere: Unresolved = { why: 'No position was recorded.' };

/** Where an anchor is, or that it is being worked out. */
type Found = Resolved | Unresolved | 'open';

/** Resolves positions of one stand; each stake and stem is worked out once. */
export function locate(stand: Stand): Locator {
  const settings = settingsOf(stand);
  const { declination } = settings;
  const kept = keptPlaces(stand);
  const found = { stake: new Map<string, Found>(), stem: new Map<string, Found>() };

  /** Works out everything on the way to a stake or stem, nearest to the ground first: chains may be long, so no recursion. */
  const settle = (first: Anchor): void => {
    const path = [first];
    for (let key = path.at(-1); key !== undefined; key = path.at(-1)) {
      const answers = found[key.is];
      if (!answers.has(key.id)) answers.set(key.id, 'open');
      const located = locatedOf(stand, key);
      const next = anchorsOf(located?.entered).find(({ is, id }) => !found[is].has(id));
      if (next !== undefined) {
        path.push(next);
        continue;
      }
      const answer = resolve(located);
      if (answers.get(key.id) === 'open') answers.set(key.id, answer);
      path.pop();
    }
  };
  const anchored = (wanted: Anchor): Resolved | Unresolved => {
    const answers = found[wanted.is];
    if (!answers.has(wanted.id)) settle(wanted);
    // What is still open is being worked out further up: it leads back to itself.
    const answer = answers.get(wanted.id) ?? 'open';
    return answer === 'open' ? circle : answer;
  };
  const stem = (id: string) => anchored({ is: 'stem', id });
  const stake = (id: string) => anchored({ is: 'stake', id });

  const context: Omit<PositionContext, 'when'> = {
    anchor: (reference) => ('stake' in reference ? stake(reference.stake) : stem(reference.stem)),
    nameOf: (reference) =>
      'stake' in reference
        ? `stake ${stand.stakes.get(reference.stake)?.label ?? 'unknown'}`
        : `stem ${stemLabel(stand.stems.get(reference.stem))}`,
    axes: (block) => axesOf(stand.blocks.get(block), resolveEntered, settings),
    ...settings,
  };
  const settingsText = JSON.stringify(settings);
  const resolveEntered = (entered: PositionEntered, when: string): Resolved | Unresolved =>
    resolveOnce(kept, entered, { ...context, when }, settingsText);
  const resolve = (located: Located | undefined): Resolved | Unresolved =>
    located === undefined ? nowhere : resolveEntered(located.entered, located.when);

  const ring = (corners: readonly PositionEntered[], when: string) => {
    const answers = corners.map((corner) => resolveEntered(corner, when));
    const found = answers.flatMap((answer) => (isUnresolved(answer) ? [] : [answer.at]));
    return { ring: found, unresolved: answers.length - found.length };
  };
  const offset: Locator['offset'] = (from, called, taped, when) =>
    resolvePosition(
      { how: 'offset', from: { stake: called }, ...taped },
      { anchor: () => from, nameOf: () => called, axes: () => undefined, when, ...settings },
    );
  return { resolve, stem, stake, ring, offset, declination };
}

/** A block's own axes, unless their origin hangs on themselves or cannot be resolved. */
function axesOf(
  block: Block | undefined,
  resolveEntered: (entered: PositionEntered, when: string) => Resolved | Unresolved,
  { declination, compassAndTape }: Settings,
): BlockAxes | undefined {
  const axes = block?.axes;
  if (axes === undefined || axes.origin.how === 'local') return undefined;
  const origin = resolveEntered(axes.origin, axes.when);
  if (isUnresolved(origin)) return undefined;
  const azimuth = toTrueAzimuth(axes.azimuth, origin.at, axes.when, declination);
  if (isUnresolved(azimuth)) return undefined;
  const azimuthDegrees =
    axes.azimuth.reference === 'mag' ? compassAndTape.azimuthDegrees : SURVEYED_AXIS_DEGREES;
  return { origin, yAzimuthTrue: azimuth.value, azimuthDegrees };
}

/** What the logbook says of its working datum, its declination, and what compass and tape are good for. */
type Settings = Readonly<{ datum?: string; declination?: number; compassAndTape: CompassAndTape }>;

function settingsOf({ logbook }: Stand): Settings {
  const { crs: code, declination, compassError, tapeError } = logbook?.body ?? {};
  const datum = code === undefined ? undefined : crs(code)?.datum;
  return {
    ...(datum === undefined ? {} : { datum }),
    ...(declination === undefined ? {} : { declination: Number(declination.value) }),
    compassAndTape: {
      ...COMPASS_AND_TAPE,
      ...(compassError === undefined ? {} : { azimuthDegrees: Number(compassError.value) }),
      ...(tapeError === undefined ? {} : { distanceShare: Number(tapeError.value) / 100 }),
    },
  };
}
