/** From single defects to the net volume of a log. */
import { isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { ruleName, type Volume, type VolumeRule, volume } from '../logs/volume.ts';
import type { Cull } from './proportions.ts';

/** What a defect takes: a share of the gross volume, or a volume under the rule the log is scaled by. */
export type Deduction<Rule extends VolumeRule> = Cull | Volume<Rule>;

/** Gross volume, what the defects take together, and what is left; the three agree exactly. */
export type NetVolume<Rule extends VolumeRule> = Readonly<{
  gross: Volume<Rule>;
  deducted: Volume<Rule>;
  net: Volume<Rule>;
}>;

/**
 * The net volume of a log. Deductions are added, as for defects in separate parts of the log, and never take more
 * than the gross; where two defects overlap, give the larger or measure them as one.
 */
export function netVolume<Rule extends VolumeRule>(
  gross: Volume<Rule>,
  deductions: readonly (Deduction<NoInfer<Rule>> | NotEnough)[],
): NetVolume<Rule> | NotEnough {
  let taken = 0;
  const methods: string[] = [];
  const sources: string[] = [];
  for (const deduction of deductions) {
    if (isNotEnough(deduction)) return deduction;
    if ('rule' in deduction && deduction.rule !== gross.rule) {
      const [log, defect] = [ruleName(gross.rule), ruleName(deduction.rule)];
      return notEnough(`the log is scaled by ${log}, the deduction by ${defect}; scale both by one rule`);
    }
    taken += 'rule' in deduction ? deduction.value : deduction.value * gross.value;
    methods.push(deduction.method);
    sources.push(deduction.source);
  }
  const deducted = Math.min(gross.value, Math.max(0, taken));
  const origin = {
    method: [gross.method, ...methods].join('; less '),
    source: [...new Set([gross.source, ...sources])].join('; '),
  };
  return {
    gross,
    deducted: volume(gross.rule, deducted, {
      method: methods.join(' + ') || 'no defect',
      source: origin.source,
    }),
    net: volume(gross.rule, gross.value - deducted, origin),
  };
}

/**
 * Squared defect in board feet for Scribner and Decimal C: `(W + 1)(H + 1) · l / 15`, which is a twelfth less a fifth
 * for the saw. From memory. W and H are the sides of the square around the defect, in; l its length, ft. Unrounded.
 */
export function squaredDefect<Rule extends 'scribner' | 'scribner-decimal-c'>(
  { width, height, length }: Readonly<{ width: number; height: number; length: number }>,
  rule: Rule,
): Volume<Rule> | NotEnough {
  const wrong = outOfRange(
    { what: 'width of the defect', value: width, unit: 'in', least: 0 },
    { what: 'height of the defect', value: height, unit: 'in', least: 0 },
    { what: 'length of the defect', value: length, unit: 'ft', least: 0 },
  );
  return (
    wrong ??
    volume(rule, ((width + 1) * (height + 1) * length) / 15, {
      method: 'squared defect, (W + 1)(H + 1) · l / 15',
      source: 'from memory; the method is named in FSH 2409.11 ch. 20 s. 21',
    })
  );
}

/** Boards shorter or narrower than this beside a defect do not count. Source: FSH 2409.11 ch. 20 s. 21 (softwoods). */
export const SMALLEST_BOARD = { feet: 6, inches: 4 } as const;

/** True when a piece beside a defect still gives boards: at least 6 ft long and 4 in wide. FSH 2409.11 ch. 20 s. 21. */
export function countsAsBoards({ feet, inches }: Readonly<{ feet: number; inches: number }>): boolean {
  return feet >= SMALLEST_BOARD.feet && inches >= SMALLEST_BOARD.inches;
}

/** Defect arithmetic by whole numbers: a half goes up, less goes down. Source: FSH 2409.11 ch. 20 s. 21. */
export function wholeDefect(value: number): number {
  return Math.floor(value + 0.5);
}
