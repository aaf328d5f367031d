// What has to hold of a group before anything is computed for it, and for which stems nothing may be planned.
import { FellingError } from '../error.ts';
import { lengthWords } from '../lengths.ts';
import { seen } from './around.ts';
import type { Assumed } from './assumptions.ts';
import type { FilledStem } from './filled.ts';
import type { GroupInputs, Hazard, Point } from './inputs.ts';

/** Nearer than this two stems are one that was entered twice, metres. */
const SAME_POINT = 0.05;

/**
 * @throws FellingError naming the field, the value and the remedy: a closed group, an id twice, stems at one point, a
 *   sapling inside a stem, a patch or a line with too few corners, a place that is no number
 */
export function checkInputs(inputs: GroupInputs, stems: readonly FilledStem[]): void {
  const { closed, label, saplings = [], leaveTrees = [], patches = [], lines = [] } = inputs;
  if (closed === true) throw closedGroup(label);
  const standing: readonly Body[] = [
    ...stems.map(({ stem, halfWidth }) => ({ ...stem, halfWidth })),
    ...leaveTrees.map((tree) => ({ ...tree, halfWidth: (tree.dbh ?? 0) / 2 })),
  ];
  const points: readonly (Point & { label: string })[] = [
    ...standing,
    ...saplings,
    ...(inputs.hazards ?? []),
    ...(inputs.workPlaces ?? []),
    ...(inputs.landmarks ?? []),
  ];
  for (const { label: name, x, y } of points)
    if (!(Number.isFinite(x) && Number.isFinite(y)))
      throw new FellingError(
        'position',
        `${x}, ${y}`,
        `${name} has no position.`,
        'Measure it from a stake or another stem.',
      );
  checkApart(standing, saplings);
  for (const { label: name, ring } of patches)
    if (ring.length < 3)
      throw new FellingError(
        'ring',
        String(ring.length),
        `The outline of patch ${name} has ${ring.length} corners.`,
        'Give at least three.',
      );
  for (const { label: name, points: along } of lines)
    if (along.length < 2)
      throw new FellingError(
        'points',
        String(along.length),
        `${name} has ${along.length} points.`,
        'Give at least two.',
      );
  checkBefore(inputs);
}

/** What is said of a group that is closed. */
export function closedGroup(label: string): FellingError {
  return new FellingError(
    'group',
    label,
    `Group ${label} is closed.`,
    'Plan another group, or strike the closing if it was a mistake.',
  );
}

type Body = Point & Readonly<{ id: string; label: string; halfWidth: number }>;

function checkApart(standing: readonly Body[], saplings: NonNullable<GroupInputs['saplings']>): void {
  standing.forEach((one, index) => {
    for (const other of standing.slice(index + 1)) {
      if (other.id === one.id)
        throw new FellingError(
          'stems',
          one.label,
          `Stem ${one.label} is in the group twice.`,
          'Name every stem once.',
        );
      if (seen(one, other).distance < SAME_POINT)
        throw new FellingError(
          'position',
          `${one.label}, ${other.label}`,
          `Stems ${one.label} and ${other.label} stand at the same point.`,
          'Measure one of them again, or strike it if it was entered twice.',
        );
    }
    for (const sapling of saplings)
      if (seen(one, sapling).distance < one.halfWidth)
        throw new FellingError(
          'position',
          sapling.label,
          `Sapling ${sapling.label} stands inside stem ${one.label}.`,
          `Measure it again; against the stem it is at least ${lengthWords(one.halfWidth)} from the middle.`,
        );
  });
}

function checkBefore({ before = [], stems }: GroupInputs): void {
  for (const id of before.flat())
    if (!stems.some((stem) => stem.id === id))
      throw new FellingError(
        'before',
        id,
        `There is no stem ${id} in the group.`,
        'Name stems of this group.',
      );
}

/** Why nothing is planned for a stem, as a sentence; undefined when it may be. */
export function withheldBecause(
  { stem, height }: FilledStem,
  { workPlaces = [], hazards = [] }: GroupInputs,
  { workPlaceLengths, hazardLengths }: Assumed,
): string | undefined {
  if (stem.withheld !== undefined) return stem.withheld;
  const occupied = workPlaces.find((place) => seen(stem, place).distance <= workPlaceLengths * height);
  if (occupied !== undefined)
    return `People are within ${workPlaceLengths} tree lengths of it (${occupied.label}, ${lengthWords(seen(stem, occupied).distance)} away). Nothing is planned for it until nobody is there.`;
  const danger = hazards.find(
    (hazard) => seen(stem, hazard).distance <= hazardLengths * (hazard.height ?? height),
  );
  return danger === undefined
    ? undefined
    : `${DANGER[danger.kind]} (${danger.label}) is within ${hazardLengths} tree lengths. Nothing is planned here until it is recorded down.`;
}

const DANGER: Readonly<Record<Hazard['kind'], string>> = {
  'hung-up': 'A hung-up stem',
  'holds a hung-up stem': 'A tree that holds a hung-up stem',
  dead: 'A dead stem',
  other: 'A danger tree',
};
