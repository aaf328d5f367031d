// The volume of one standing tree, of the log's stems and of the trees of plots alike, by the method that was asked for.
import { type QuantityEntered, type SpeciesEntered, speciesName } from '../../events/index.ts';
import {
  type FormFactor,
  fitHeightCurve,
  formFactorVolume,
  type HeightCurve,
  heightOf,
  honerVolume,
  isNotEnough,
  type NotEnough,
  notEnough,
  type StandingRule,
  solid,
  solidIn,
  standingBoardFeet,
  type Volume,
  volume,
} from '../../measure/index.ts';
import type { Stand } from '../state.ts';
import { honerName } from './honer.ts';
import { lengthOf } from './length.ts';

/** How a standing tree is turned into a volume. Nothing of it is taken for granted: it is asked for. */
export type StandingMethod =
  | Readonly<{ rule: StandingRule; formClass: number }>
  | Readonly<{ rule: 'cubic-feet' | 'cubic-metres'; form: FormFactor | typeof honer }>;

/** Honer's equation by the species of each stem, in place of one form for all. */
export const honer = 'honer';

/** What a volume is computed from: DBH in inches, heights as they were entered. */
export type StandingTree = Readonly<{
  species: SpeciesEntered | undefined;
  dbh: number | undefined;
  height: QuantityEntered | undefined;
  merchantableHeight: QuantityEntered | undefined;
}>;

/** Where heights come from that were not measured; null where the method needs none. */
export type Heights = HeightCurve | NotEnough | null;

/** For solid wood, a curve through every stem of the logbook whose height and DBH were measured. */
export function heightsFor(method: StandingMethod, { stems }: Stand): Heights {
  if (!('form' in method)) return null;
  const measured = [...stems.values()].flatMap((stem) => {
    const height = lengthOf(stem.height, 'ft');
    const dbh = lengthOf(stem.dbh, 'in');
    return height === undefined || dbh === undefined ? [] : [{ dbh, height }];
  });
  return fitHeightCurve(measured);
}

/** Gross: defects are not taken off. */
export function standingVolume(
  { species, dbh, height, merchantableHeight }: StandingTree,
  method: StandingMethod,
  heights: Heights,
): Volume | NotEnough {
  if (dbh === undefined) return notEnough('no DBH');
  if ('form' in method) {
    const feet = heightOf({ dbh, height: lengthOf(height, 'ft') ?? null }, heights ?? notEnough('no height'));
    if (isNotEnough(feet)) return feet;
    const tree = { dbh, height: feet.value };
    const found = method.form === honer ? honerOf(species, tree) : formFactorVolume(tree, method.form);
    return method.rule === 'cubic-feet' || isNotEnough(found) ? found : inCubicMetres(found);
  }
  const merchantable = lengthOf(merchantableHeight, 'ft');
  if (merchantable === undefined) return notEnough('no merchantable height');
  const tree = { dbh, logs: merchantable / 16, formClass: method.formClass };
  return standingBoardFeet(tree, method.rule);
}

function honerOf(
  species: StandingTree['species'],
  tree: Parameters<typeof honerVolume>[1],
): Volume | NotEnough {
  if (species === undefined) return notEnough("no species, which Honer's equation goes by");
  const name = honerName(species);
  return name === undefined
    ? notEnough(`no coefficients of Honer's equation for ${speciesName(species)}`)
    : honerVolume(name, tree);
}

function inCubicMetres({ value, method, source }: Volume): Volume {
  return volume('cubic-metres', solidIn(solid(value, 'ft3'), 'm3').value, { method, source });
}
