// The user's own values laid over the defaults, and which of them differ.
import { FellingError } from '../error.ts';
import { ASSUMPTIONS, type AssumptionName } from './assumption-list.ts';

/** A number for every assumption. */
export type Assumed = Readonly<Record<AssumptionName, number>>;

/** An assumption that is not at its default. */
export type ChangedAssumption = Readonly<{
  name: AssumptionName;
  value: number;
  usual: number;
  says: string;
}>;

export const ASSUMPTION_NAMES = /* @__PURE__ */ Object.keys(ASSUMPTIONS) as readonly AssumptionName[];

/** The defaults as numbers. */
export const USUAL = /* @__PURE__ */ usual();

function usual(): Assumed {
  return Object.fromEntries(ASSUMPTION_NAMES.map((name) => [name, ASSUMPTIONS[name].value])) as Assumed;
}

/**
 * The defaults with the user's own values laid over them.
 * @throws FellingError for a name that is none, or a value that is no number or out of its range
 */
export function assume(own: Readonly<Record<string, number>> = {}): Assumed {
  for (const [name, value] of Object.entries(own)) {
    if (!isAssumption(name))
      throw new FellingError(
        name,
        String(value),
        `There is no assumption called ${name}.`,
        `Take one of: ${ASSUMPTION_NAMES.join(', ')}.`,
      );
    const { least, most, unit, says } = ASSUMPTIONS[name];
    if (!(value >= least && value <= most))
      throw new FellingError(
        name,
        String(value),
        `${name} of ${value} is out of range: ${says}`,
        `Give ${least} to ${most} (${unit}).`,
      );
  }
  return { ...USUAL, ...own };
}

/** Which assumptions are not at their defaults, in the order of the list. */
export function changedAssumptions(assumed: Assumed): readonly ChangedAssumption[] {
  return ASSUMPTION_NAMES.filter((name) => assumed[name] !== ASSUMPTIONS[name].value).map((name) => ({
    name,
    value: assumed[name],
    usual: ASSUMPTIONS[name].value,
    says: ASSUMPTIONS[name].says,
  }));
}

function isAssumption(name: string): name is AssumptionName {
  return Object.hasOwn(ASSUMPTIONS, name);
}
