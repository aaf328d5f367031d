/**
 * Solid wood of a log from the areas of its cross-sections. All are exact for one shape: Smalian and Huber for a
 * paraboloid, Newton for all of them, cone and neiloid for the frustums they are named after.
 */
import { basalArea } from '../basal-area.ts';
import { type NotEnough, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import type { Volume } from './volume.ts';
import { volume } from './volume.ts';

/** Inches and feet give cubic feet, centimetres and metres give cubic metres. */
export type CubicRule = 'cubic-feet' | 'cubic-metres';

/** Diameters (in or cm) at both ends, and the length (ft or m). */
export type Ends = Readonly<{ small: number; large: number; length: number }>;

/** Diameter (in or cm) half way along, and the length (ft or m). */
export type Middle = Readonly<{ middle: number; length: number }>;

const MISSOURI = 'Larsen, University of Missouri, Cubic Log Volume';
const FROM_MEMORY = 'from memory: Avery & Burkhart, Forest Measurements; Husch et al., Forest Mensuration';

/** Smalian: `L · (As + Al) / 2`. Source: Larsen, University of Missouri. */
export function smalian<Rule extends CubicRule>(log: Ends, rule: Rule): Volume<Rule> | NotEnough {
  const [small, large] = [sectionArea(log.small, rule), sectionArea(log.large, rule)];
  return cubic(rule, log, (log.length * (small + large)) / 2, { method: 'Smalian', source: MISSOURI });
}

/** Huber: `L · Am`. From memory of the textbooks. */
export function huber<Rule extends CubicRule>(log: Middle, rule: Rule): Volume<Rule> | NotEnough {
  const value = log.length * sectionArea(log.middle, rule);
  return cubic(rule, log, value, { method: 'Huber', source: FROM_MEMORY });
}

/** Newton: `L · (As + 4 Am + Al) / 6`. From memory of the textbooks. */
export function newton<Rule extends CubicRule>(log: Ends & Middle, rule: Rule): Volume<Rule> | NotEnough {
  const [small, large] = [sectionArea(log.small, rule), sectionArea(log.large, rule)];
  const value = (log.length * (small + 4 * sectionArea(log.middle, rule) + large)) / 6;
  return cubic(rule, log, value, { method: 'Newton', source: FROM_MEMORY });
}

/** Frustum of a cone: `L · (As + √(As · Al) + Al) / 3`. Source: Larsen, University of Missouri. */
export function coneFrustum<Rule extends CubicRule>(log: Ends, rule: Rule): Volume<Rule> | NotEnough {
  const [small, large] = [sectionArea(log.small, rule), sectionArea(log.large, rule)];
  const value = (log.length * (small + Math.sqrt(small * large) + large)) / 3;
  return cubic(rule, log, value, { method: 'cone frustum', source: MISSOURI });
}

/** Frustum of a neiloid: `L · (As + ∛(As² · Al) + ∛(As · Al²) + Al) / 4`. Source: Larsen, University of Missouri. */
export function neiloidFrustum<Rule extends CubicRule>(log: Ends, rule: Rule): Volume<Rule> | NotEnough {
  const [small, large] = [sectionArea(log.small, rule), sectionArea(log.large, rule)];
  const between = Math.cbrt(small ** 2 * large) + Math.cbrt(small * large ** 2);
  const value = (log.length * (small + between + large)) / 4;
  return cubic(rule, log, value, { method: 'neiloid frustum', source: MISSOURI });
}

/** The methods with how many diameters each takes, from the small end. */
export const CUBIC_METHODS = { smalian: 2, huber: 1, newton: 3, cone: 2, neiloid: 2 } as const;
export type CubicMethod = keyof typeof CUBIC_METHODS;

/**
 * Solid wood of a log by the method that is named.
 *
 * @param diameters from the small end, as many as the method takes (Huber's one is the middle), in or cm
 * @param length ft or m
 */
export function cubicLog<Rule extends CubicRule>(
  { diameters, length }: Readonly<{ diameters: readonly number[]; length: number }>,
  method: CubicMethod,
  rule: Rule,
): Volume<Rule> | NotEnough {
  const [small = Number.NaN, second = Number.NaN, third = Number.NaN] = diameters;
  if (diameters.length !== CUBIC_METHODS[method])
    return notEnough(`${method} takes ${CUBIC_METHODS[method]} diameters; ${diameters.length} were given`);
  switch (method) {
    case 'huber':
      return huber({ middle: small, length }, rule);
    case 'newton':
      return newton({ small, middle: second, large: third, length }, rule);
    case 'smalian':
      return smalian({ small, large: second, length }, rule);
    case 'cone':
      return coneFrustum({ small, large: second, length }, rule);
    case 'neiloid':
      return neiloidFrustum({ small, large: second, length }, rule);
  }
}

function sectionArea(diameter: number, rule: CubicRule): number {
  return rule === 'cubic-feet' ? basalArea(diameter, 'in', 'ft2') : basalArea(diameter, 'cm', 'm2');
}

function cubic<Rule extends CubicRule>(
  rule: Rule,
  log: Readonly<{ length: number; small?: number; middle?: number; large?: number }>,
  value: number,
  origin: Readonly<{ method: string; source: string }>,
): Volume<Rule> | NotEnough {
  const [across, along] = rule === 'cubic-feet' ? ['in', 'ft'] : ['cm', 'm'];
  const { small, middle, large, length } = log;
  const diameters = [
    { what: 'small-end diameter', value: small },
    { what: 'middle diameter', value: middle },
    { what: 'large-end diameter', value: large },
  ].flatMap((one) => (one.value === undefined ? [] : [{ ...one, value: one.value, unit: across, least: 0 }]));
  const wrong = outOfRange(...diameters, { what: 'log length', value: length, unit: along, least: 0 });
  return wrong ?? volume(rule, value, origin);
}
