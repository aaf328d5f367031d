// A stem with a number for everything: as measured, or as an assumption fills it, which is then named.
import { FellingError } from '../error.ts';
import { lengthWords } from '../lengths.ts';
import type { AssumptionName } from './assumption-list.ts';
import type { Assumed } from './assumptions.ts';
import { azimuth, type Body } from './fall.ts';
import type { GroupStem, LeaveTree } from './inputs.ts';

/** Which measure was not there, and which assumptions stand in for it. */
export type FilledBy = Readonly<{
  field: 'crown base' | 'crown radius' | 'lean' | 'lean error' | 'height error';
  by: readonly AssumptionName[];
}>;

/** Metres, degrees. */
export type FilledStem = Body &
  Readonly<{
    stem: GroupStem;
    dbh: number;
    stumpDiameter: number;
    /** The azimuth is left out where nobody noted one: the stem is then taken as upright, with a wide error. */
    lean: Readonly<{ amount: number; azimuth?: number; error: number }>;
    /** Decay, an open seam or a fork: it may go where nobody aims. */
    compromised: boolean;
    dead: boolean;
    filledBy: readonly FilledBy[];
  }>;

/**
 * @throws FellingError where height or diameter are missing or impossible, or the lean is larger than the height
 */
export function filled(stem: GroupStem, assumed: Assumed): FilledStem {
  const { label } = stem;
  const dbh = needed(stem.dbh, label, 'diameter', 'Measure its diameter at breast height.');
  const height = needed(
    stem.height,
    label,
    'height',
    'Measure it, or measure some others of its kind so that a curve can give it.',
  );
  const filledBy: FilledBy[] = [];
  const fill = <T>(
    value: T | undefined,
    field: FilledBy['field'],
    by: readonly AssumptionName[],
    or: T,
  ): T => {
    if (value === undefined) filledBy.push({ field, by });
    return value ?? or;
  };
  if (stem.heightEstimated === true) filledBy.push({ field: 'height error', by: ['lengthErrorEstimated'] });
  const crownBase = fill(stem.crownBase, 'crown base', ['crownBase'], assumed.crownBase * height);
  if (!(crownBase >= 0 && crownBase <= height))
    throw new FellingError(
      'crownBase',
      lengthWords(crownBase),
      `The crown of stem ${label} begins at ${lengthWords(crownBase)}, and the stem is ${lengthWords(height)} high.`,
      'Correct one of the two.',
    );
  const crownRadius = fill(
    stem.crownRadius,
    'crown radius',
    ['crownRadiusBase', 'crownRadiusPerDbh'],
    crownRadiusOf(dbh, assumed),
  );
  if (!(crownRadius >= 0))
    throw new FellingError(
      'crownRadius',
      lengthWords(crownRadius),
      `Stem ${label} has a crown radius of ${lengthWords(crownRadius)}.`,
      'Give 0 or more.',
    );
  const { deadTop = false, dead = false } = stem;
  return {
    stem,
    dbh,
    stumpDiameter: stem.stumpDiameter ?? dbh,
    height,
    halfWidth: dbh / 2,
    crownBase,
    crownRadius,
    lengthError: stem.heightEstimated === true ? assumed.lengthErrorEstimated : assumed.lengthError,
    lean: leanOf(stem, height, assumed, filledBy),
    compromised:
      stem.decayed === true || stem.decay !== undefined || stem.seam !== undefined || stem.fork === true,
    dead: dead || deadTop,
    filledBy,
  };
}

/** Crown radius by diameter, both metres. */
function crownRadiusOf(dbh: number, { crownRadiusBase, crownRadiusPerDbh }: Assumed): number {
  return crownRadiusBase + crownRadiusPerDbh * dbh;
}

/** A leave tree with numbers; one whose diameter nobody took counts as a bole 30 cm thick. */
export function filledLeaveTree(tree: LeaveTree, assumed: Assumed) {
  const dbh = tree.dbh ?? assumed.leaveTreeDbh;
  return {
    ...tree,
    dbh,
    halfWidth: dbh / 2,
    crownRadius: tree.crownRadius ?? crownRadiusOf(dbh, assumed),
    value: tree.value ?? assumed.leaveTree,
  };
}

function leanOf(
  { lean, label }: GroupStem,
  height: number,
  assumed: Assumed,
  filledBy: FilledBy[],
): FilledStem['lean'] {
  if (lean === undefined) {
    filledBy.push({ field: 'lean', by: ['leanErrorUnknown'] });
    return { amount: 0, error: assumed.leanErrorUnknown * height };
  }
  if (!(lean.amount >= 0 && lean.amount <= height))
    throw new FellingError(
      'lean',
      lengthWords(lean.amount),
      `Stem ${label} leans ${lengthWords(lean.amount)}, and it is ${lengthWords(height)} high.`,
      'Correct the lean or the height: the lean is how far the crown stands off the stump, measured level.',
    );
  if (lean.reference !== 'true' || !Number.isFinite(lean.azimuth))
    throw new FellingError(
      'lean',
      String(lean.azimuth),
      `It is not known from which north the lean of stem ${label} was read.`,
      'Enter it with its reference (210 mag, 196 true); a compass reading is turned to true north by the declination.',
    );
  if (lean.amountError === undefined) filledBy.push({ field: 'lean error', by: ['leanError'] });
  return {
    amount: lean.amount,
    azimuth: azimuth(lean.azimuth),
    error: lean.amountError ?? assumed.leanError * height,
  };
}

function needed(value: number | undefined, label: string, what: string, remedy: string): number {
  if (value === undefined)
    throw new FellingError(what, '', `Stem ${label} has no ${what}, and nothing gives it.`, remedy);
  if (!(value > 0 && Number.isFinite(value)))
    throw new FellingError(
      what,
      lengthWords(value),
      `Stem ${label} has a ${what} of ${lengthWords(value)}.`,
      remedy,
    );
  return value;
}
