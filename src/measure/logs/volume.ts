/**
 * A volume is a number with its rule. Board feet of one rule are no board feet of another: the same log scales 144
 * by Doyle and 181 by International, so nothing here adds, compares or prices across rules.
 */
import type { Figure, NotEnough } from '../figure.ts';
import { notEnough } from '../figure.ts';

/** The measures a volume can be stated in. The board-foot rules estimate lumber, the cubic ones are solid wood, cords a pile. */
export type VolumeRule =
  | 'doyle'
  | 'scribner'
  | 'scribner-decimal-c'
  | 'international-quarter-inch'
  | 'vermont'
  | 'cubic-feet'
  | 'cubic-metres'
  | 'stacked-cords';

/** Unit of a volume: log-rule board feet, solid cubic measure, or cords of stacked wood. */
export type VolumeUnit = 'bf' | 'ft3' | 'm3' | 'cord';

type Described = Readonly<{ name: string; unit: VolumeUnit }>;

const RULES: Readonly<Record<VolumeRule, Described>> = {
  doyle: { name: 'Doyle', unit: 'bf' },
  scribner: { name: 'Scribner', unit: 'bf' },
  'scribner-decimal-c': { name: 'Scribner Decimal C', unit: 'bf' },
  'international-quarter-inch': { name: 'International ¼-inch', unit: 'bf' },
  vermont: { name: 'Vermont', unit: 'bf' },
  'cubic-feet': { name: 'cubic feet', unit: 'ft3' },
  'cubic-metres': { name: 'cubic metres', unit: 'm3' },
  'stacked-cords': { name: 'stacked cords', unit: 'cord' },
};

/** All rules, in the order they are offered. */
export const VOLUME_RULES: readonly [VolumeRule, ...VolumeRule[]] = [
  'doyle',
  'scribner',
  'scribner-decimal-c',
  'international-quarter-inch',
  'vermont',
  'cubic-feet',
  'cubic-metres',
  'stacked-cords',
];

/** True when `rule` names a rule. */
export function isVolumeRule(rule: string): rule is VolumeRule {
  return Object.hasOwn(RULES, rule);
}

/** The rule as people write it, e.g. "International ¼-inch". */
export function ruleName(rule: VolumeRule): string {
  return RULES[rule].name;
}

/** The unit that volumes under the rule have. */
export function ruleUnit(rule: VolumeRule): VolumeUnit {
  return RULES[rule].unit;
}

/**
 * A volume under one rule, unrounded. `Volume<'doyle'>` and `Volume<'international-quarter-inch'>` are different
 * types, so that adding them does not compile.
 */
export type Volume<Rule extends VolumeRule = VolumeRule> = Figure &
  Readonly<{ unit: VolumeUnit; rule: Rule }>;

/** A volume under `rule` with the method and source that gave it. Negative formula values become 0. */
export function volume<Rule extends VolumeRule>(
  rule: Rule,
  value: number,
  origin: Readonly<{ method: string; source: string }>,
): Volume<Rule> {
  return {
    value: Math.max(0, value),
    unit: RULES[rule].unit,
    method: origin.method,
    source: origin.source,
    rule,
  };
}

/**
 * The sum of volumes under one rule. Volumes whose rules are known to differ do not compile; where the rules are
 * known only when running (a file, a request), different rules are refused in words.
 */
export function addVolumes<Rule extends VolumeRule>(
  first: Volume<Rule>,
  ...others: readonly Volume<NoInfer<Rule>>[]
): Volume<Rule> | NotEnough {
  return sumVolumes([first, ...others]);
}

/** The sum of a list of volumes of any length, as `addVolumes`; of none there is no sum, since it would have no rule. */
export function sumVolumes<Rule extends VolumeRule>(
  volumes: readonly Volume<Rule>[],
): Volume<Rule> | NotEnough {
  const [first] = volumes;
  if (first === undefined) return notEnough('there is no volume to add');
  const stranger = volumes.find(({ rule }) => rule !== first.rule);
  if (stranger !== undefined) {
    const rules = `${ruleName(first.rule)} and ${ruleName(stranger.rule)}`;
    return notEnough(
      `volumes by ${rules} are not added; scale all of them by one rule, or give a conversion`,
    );
  }
  return {
    ...first,
    value: volumes.reduce((sum, { value }) => sum + value, 0),
    method: each(volumes.map(({ method }) => method)),
    source: each(volumes.map(({ source }) => source)),
  };
}

function each(words: readonly string[]): string {
  return [...new Set(words)].join('; ');
}

/**
 * What somebody found one rule to give for one unit of another, with whose finding it is and of when. Never built
 * in: how two rules compare depends on the sizes of the logs.
 */
export type Conversion<From extends VolumeRule = VolumeRule, To extends VolumeRule = VolumeRule> = Readonly<{
  from: From;
  to: To;
  factor: number;
  source: string;
  date: string;
}>;

/** The volume under another rule by a given conversion, whose source and date go into the method. */
export function convertVolume<From extends VolumeRule, To extends VolumeRule>(
  given: Volume<From>,
  conversion: Conversion<NoInfer<From>, To>,
): Volume<To> | NotEnough {
  const { from, to, factor, source, date } = conversion;
  if (given.rule !== from) {
    return notEnough(`the conversion is from ${ruleName(from)}, the volume is by ${ruleName(given.rule)}`);
  }
  if (!(Number.isFinite(factor) && factor > 0)) {
    return notEnough(`a factor above 0 from ${ruleName(from)} to ${ruleName(to)}; ${factor} was given`);
  }
  if (source.trim() === '' || date.trim() === '') {
    return notEnough(`source and date of the conversion from ${ruleName(from)} to ${ruleName(to)}`);
  }
  return volume(to, given.value * factor, {
    method: `${given.method}; converted from ${ruleName(from)} × ${factor} of ${date}`,
    source: `${given.source}; ${source}`,
  });
}

/** Rounded to the nearest multiple of `step`, halves up: 1 for Doyle, 5 for International tables. For display. */
export function roundedTo(value: number, step: number): number {
  return Math.floor(value / step + 0.5) * step;
}
