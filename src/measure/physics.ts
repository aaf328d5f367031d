/**
 * Measures that contradict each other or the nature of trees. Such a value is kept as it was entered; what is said
 * here is why it cannot be, and what was probably meant.
 *
 * Limits of shape are common practice without a source, and wide: what they flag deserves a look, not a correction.
 */
import { basalArea } from './basal-area.ts';
import type { LengthUnit } from './units.ts';
import { lengthIn } from './units.ts';

/** A length as entered. */
export type Length = Readonly<{ value: number; unit: LengthUnit }>;

/** What is known of one stem; what was not measured is left out. Breast height is 4.5 ft when left out. */
export type StemMeasures = Readonly<{
  dbh?: Length;
  /** DBH at an earlier visit. */
  earlierDbh?: Length;
  height?: Length;
  merchantableHeight?: Length;
  breastHeight?: Length;
  /** Stem volume, solid. */
  volumeFt3?: number;
  stumpDiameter?: Length;
  decayDiameter?: Length;
}>;

/** Name of a check, for programs; people read the sentence. */
export type PhysicsCheck =
  | 'dbh-too-large'
  | 'girth-for-diameter'
  | 'diameter-for-girth'
  | 'under-breast-height'
  | 'merchantable-above-height'
  | 'shrunk'
  | 'decay-wider-than-stump';

/** A contradiction: the measure it is about, the value as entered, and what was probably meant, if that can be told. */
export type PhysicsFlag = Readonly<{
  check: PhysicsCheck;
  field: keyof StemMeasures;
  kept: Length;
  sentence: string;
  likely: Readonly<{ value: number; unit: LengthUnit; because: string }> | null;
}>;

/** Widest DBH taken without a question, in. Common practice, no source. */
const WIDEST = 100;
/** A stem is rarely more than 150 or less than 15 times as high as it is thick. Common practice, no source. */
const SLENDER = { least: 15, most: 150 } as const;
/** Share of the cylinder on breast height that a stem can fill: all of it at most; under a tenth no stem is seen. */
const FORM = { least: 0.1, most: 1 } as const;
/** A second reading may be this much smaller through the tape alone, in. Common practice, no source. */
const TAPE_ERROR = 0.2;

/** Everything that contradicts itself in the measures of one stem, in a fixed order; empty when nothing does. */
export function physicsFlags(stem: StemMeasures): PhysicsFlag[] {
  const low = underBreastHeight(stem);
  return [
    tooLarge(stem),
    // A height that cannot be says nothing of the diameter.
    low === null ? girthOrDiameter(stem) : null,
    low,
    merchantableAboveHeight(stem),
    shrunk(stem),
    decayWiderThanStump(stem),
  ].filter((flag) => flag !== null);
}

function words({ value, unit }: Length): string {
  return `${value} ${unit}`;
}

function inches({ value, unit }: Length): number {
  return lengthIn(value, unit, 'in');
}

/** The same digits with another unit or decimal point; the first that gives a tree. */
function tooLarge({ dbh }: StemMeasures): PhysicsFlag | null {
  if (dbh === undefined || inches(dbh) <= WIDEST) return null;
  const sentence = `A DBH of ${words(dbh)} is more than ${WIDEST} in.`;
  const units = (['cm', 'mm'] as const).filter(
    (unit) => unit !== dbh.unit && inches({ ...dbh, unit }) <= WIDEST,
  );
  const points = [10, 100, 1000].filter((by) => inches({ ...dbh, value: dbh.value / by }) <= WIDEST);
  const [unit, by] = [units[0], points[0]];
  const likely =
    unit !== undefined
      ? { value: dbh.value, unit, because: 'the unit is another' }
      : by !== undefined
        ? { value: dbh.value / by, unit: dbh.unit, because: 'the decimal point is missing' }
        : null;
  return { check: 'dbh-too-large', field: 'dbh', kept: dbh, sentence, likely };
}

/**
 * A girth written as a diameter is π times too much, a diameter taken for a girth π times too little. Volume tells it
 * surely (no stem holds more than its cylinder), height against diameter only roughly.
 */
function girthOrDiameter({ dbh, height, volumeFt3 }: StemMeasures): PhysicsFlag | null {
  if (dbh === undefined || height === undefined || !(dbh.value > 0)) return null;
  const feet = lengthIn(height.value, height.unit, 'ft');
  const diameter = inches(dbh);
  if (diameter > WIDEST || !(feet > 0)) return null;
  const fits = shapeFits(diameter, feet, volumeFt3);
  if (fits === 'yes') return null;
  const [check, factor] =
    fits === 'too thin'
      ? (['diameter-for-girth', Math.PI] as const)
      : (['girth-for-diameter', 1 / Math.PI] as const);
  const explains = shapeFits(diameter * factor, feet, volumeFt3) === 'yes';
  const because =
    check === 'diameter-for-girth'
      ? 'the figure was the diameter already, and was taken for a girth'
      : 'the figure is the girth';
  const shape = fits === 'too thin' ? 'thinner' : 'thicker';
  const beside =
    volumeFt3 === undefined ? `a height of ${words(height)}` : `its height and ${volumeFt3} ft³ of wood`;
  return {
    check,
    field: 'dbh',
    kept: dbh,
    sentence: `A DBH of ${words(dbh)} with ${beside} is a ${shape} stem than trees have.`,
    likely: explains ? { value: dbh.value * factor, unit: dbh.unit, because } : null,
  };
}

function shapeFits(
  diameter: number,
  feet: number,
  volumeFt3: number | undefined,
): 'yes' | 'too thin' | 'too thick' {
  if (volumeFt3 !== undefined) {
    const form = volumeFt3 / (basalArea(diameter) * feet);
    if (form > FORM.most) return 'too thin';
    return form < FORM.least ? 'too thick' : 'yes';
  }
  const slenderness = (feet * 12) / diameter;
  if (slenderness > SLENDER.most) return 'too thin';
  return slenderness < SLENDER.least ? 'too thick' : 'yes';
}

function underBreastHeight({ dbh, height, breastHeight }: StemMeasures): PhysicsFlag | null {
  if (dbh === undefined || height === undefined) return null;
  const breast = breastHeight ?? { value: 4.5, unit: 'ft' };
  if (inches(height) >= inches(breast)) return null;
  const metres = lengthIn(height.value, 'm', 'in') >= inches(breast) && height.unit !== 'm';
  return {
    check: 'under-breast-height',
    field: 'height',
    kept: height,
    sentence: `A height of ${words(height)} is under breast height (${words(breast)}), yet there is a DBH.`,
    likely: metres ? { value: height.value, unit: 'm', because: 'the unit is another' } : null,
  };
}

function merchantableAboveHeight({ height, merchantableHeight }: StemMeasures): PhysicsFlag | null {
  if (height === undefined || merchantableHeight === undefined) return null;
  if (inches(merchantableHeight) <= inches(height)) return null;
  return {
    check: 'merchantable-above-height',
    field: 'merchantableHeight',
    kept: merchantableHeight,
    sentence: `A merchantable height of ${words(merchantableHeight)} is more than the height of ${words(height)}.`,
    likely: { ...height, because: 'the two figures are in each other’s place' },
  };
}

function shrunk({ dbh, earlierDbh }: StemMeasures): PhysicsFlag | null {
  if (dbh === undefined || earlierDbh === undefined) return null;
  if (inches(dbh) >= inches(earlierDbh) - TAPE_ERROR) return null;
  const asOther = (['cm', 'in', 'mm'] as const).find((unit) => {
    const ratio = inches({ ...dbh, unit }) / inches(earlierDbh);
    return unit !== dbh.unit && ratio >= 1 && ratio < 1.3;
  });
  return {
    check: 'shrunk',
    field: 'dbh',
    kept: dbh,
    sentence: `A DBH of ${words(dbh)} after ${words(earlierDbh)} would be a stem that shrank.`,
    likely:
      asOther === undefined ? null : { value: dbh.value, unit: asOther, because: 'the unit is another' },
  };
}

function decayWiderThanStump({ stumpDiameter, decayDiameter }: StemMeasures): PhysicsFlag | null {
  if (stumpDiameter === undefined || decayDiameter === undefined) return null;
  if (inches(decayDiameter) <= inches(stumpDiameter)) return null;
  return {
    check: 'decay-wider-than-stump',
    field: 'decayDiameter',
    kept: decayDiameter,
    sentence: `A decay of ${words(decayDiameter)} is wider than the stump of ${words(stumpDiameter)}.`,
    likely: { ...stumpDiameter, because: 'the two figures are in each other’s place' },
  };
}
