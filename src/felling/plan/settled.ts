// What somebody settled before the plan is made: the aim of a stem, or its place in the order.
import { FellingError } from '../error.ts';
import type { FellingModel } from '../model/build.ts';
import { turn } from '../model/fall.ts';
import type { Fixed } from '../order/problem.ts';
import type { RefusedAim } from '../stem/aims.ts';

/** What somebody settled before the plan is made. Azimuths in degrees from true north, places counted from 0. */
export type Settled = Readonly<{ stem: string; aim?: number; place?: number }>;

/** An aim that is settled is the nearest that was looked at, unless it is farther off than aims are apart. */
export function fixedOf({ stem, aim, place }: Settled, model: FellingModel): Fixed {
  const at = model.inputs.stems.findIndex(({ id }) => id === stem);
  const of = model.stems[at];
  if (of === undefined)
    throw new FellingError(
      'fix',
      stem,
      'This stem is not to be felled in the group.',
      'Name one that is marked to be cut in it and stands.',
    );
  const settled = place === undefined ? { stem: at } : { stem: at, place };
  if (aim === undefined) return settled;
  const { label } = of.filled.stem;
  const near = <T extends { aim: number }>(aims: readonly T[]): T | undefined =>
    aims
      .filter((one) => Math.abs(turn(one.aim - aim)) <= APART)
      .sort((one, other) => Math.abs(turn(one.aim - aim)) - Math.abs(turn(other.aim - aim)))[0];
  const found = near(of.aims);
  if (found !== undefined) return { ...settled, choice: of.aims.indexOf(found) };
  const refused = near(of.refused);
  const forbidden = near(of.forbidden);
  const why =
    refused === undefined
      ? forbidden === undefined
        ? 'it was not looked at'
        : `${forbidden.risk.label} would be reached`
      : refusedWords[refused.why];
  throw new FellingError(
    'fix',
    `${label}=${aim}`,
    `${label} cannot be aimed at ${aim}°: ${why}.`,
    'Take another aim.',
  );
}

/** The same where a measurement came out otherwise: an aim that cannot be kept then leaves only the place settled. */
export function stillFixed(settled: Settled, model: FellingModel): Fixed[] {
  try {
    return [fixedOf(settled, model)];
  } catch (error) {
    if (!(error instanceof FellingError)) throw error;
    const { stem, place } = settled;
    return place === undefined ? [] : [fixedOf({ stem, place }, model)];
  }
}

/** Half of what aims lie apart, degrees. */
const APART = 2.5;

/** Why a direction was not aimed at, as the end of a sentence. */
const refusedWords: Readonly<Record<RefusedAim['why'], string>> = {
  'narrow band': 'a decayed, dead, seamed or forked stem is aimed near its lean only',
  'side lean': 'the lean to the side is more than the limit',
  'back lean, no wedges': 'it leans back, and no wedges were said to be at hand',
  'back lean beyond wedges': 'it leans back farther than wedges are reckoned to lift it',
  'back lean, no figure': 'it leans back, and the published table has no figure for so short a stem',
  'back lean beyond the winch': 'it leans back farther than a winch is reckoned to pull it',
  uphill: 'it is too steep uphill',
  'direction error': 'nobody can tell well enough where it would go',
};
