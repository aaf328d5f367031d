/** Several defects of one log, each as it is measured: what every one takes, and what they take together. */
import { isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { ruleName, type Volume, type VolumeRule, volume } from '../logs/volume.ts';
import { type Deduction, type NetVolume, netVolume, squaredDefect } from './combined.ts';
import { crook, interiorDefect, lengthCut, sectorCut, sweep } from './proportions.ts';

/** A defect as measured: lengths along the log in ft, everything across it in in, sectors in degrees. */
export type LogDefect =
  | Readonly<{ is: 'length'; feet: number }>
  | Readonly<{ is: 'sector'; degrees: number; feet: number }>
  | Readonly<{ is: 'sweep'; inches: number }>
  | Readonly<{ is: 'crook'; inches: number; feet: number }>
  | Readonly<{ is: 'rot'; across: number; other: number; feet: number }>
  | Readonly<{ is: 'square'; width: number; height: number; feet: number }>;

/** What the formulas take of the log: scaling length, ft, and diameter at the small end, in, where it was measured. */
export type DefectedLog = Readonly<{ length: number; smallEnd: number | null }>;

/** What each defect takes, unrounded, in the order given; and gross, deducted and net together. */
export type DefectsTaken<Rule extends VolumeRule> = Readonly<{
  each: readonly (Volume<Rule> | NotEnough)[];
  together: NetVolume<Rule> | NotEnough;
}>;

/**
 * Takes defects off the gross volume of a log, as for defects in separate parts of it. Each is shown with what it takes
 * alone; together they never take more than the gross. A defect whose share is missing leaves no net.
 */
export function takeDefects<Rule extends VolumeRule>(
  gross: Volume<Rule>,
  defects: readonly LogDefect[],
  log: DefectedLog,
): DefectsTaken<Rule> {
  const deductions = defects.map((defect) => deductionOf(defect, log, gross.rule));
  return {
    each: deductions.map((deduction) => (isNotEnough(deduction) ? deduction : inRule(deduction, gross))),
    together: netVolume(gross, deductions),
  };
}

function inRule<Rule extends VolumeRule>(deduction: Deduction<Rule>, gross: Volume<Rule>): Volume<Rule> {
  if ('rule' in deduction) return deduction;
  const { value, method, source } = deduction;
  return volume(gross.rule, value * gross.value, { method, source });
}

function deductionOf<Rule extends VolumeRule>(
  defect: LogDefect,
  { length, smallEnd }: DefectedLog,
  rule: Rule,
): Deduction<Rule> | NotEnough {
  if (defect.is === 'length') return lengthCut({ affected: defect.feet, length });
  if (defect.is === 'sector') return sectorCut({ affected: defect.feet, length }, defect.degrees);
  if (defect.is === 'square') return squared(defect, rule);
  if (smallEnd === null)
    return notEnough(`the diameter at the small end, which ${defect.is} is held against`);
  if (defect.is === 'sweep') return sweep(defect.inches, smallEnd);
  const along = { affected: defect.feet, length };
  return defect.is === 'crook'
    ? crook(along, defect.inches, smallEnd)
    : interiorDefect(along, defect, smallEnd);
}

function squared<Rule extends VolumeRule>(
  { width, height, feet }: Extract<LogDefect, { is: 'square' }>,
  rule: Rule,
): Volume<Rule> | NotEnough {
  if (rule !== 'scribner' && rule !== 'scribner-decimal-c') {
    return notEnough(
      `squared defect counts board feet of Scribner; by ${ruleName(rule)} give the defect as rot, sector or length`,
    );
  }
  const taken = squaredDefect({ width, height, length: feet }, rule);
  return isNotEnough(taken) ? taken : { ...taken, rule };
}
