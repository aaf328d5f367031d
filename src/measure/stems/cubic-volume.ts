/**
 * Cubic volume of a standing tree from DBH and height, by an equation that is chosen and named. Every equation
 * speaks for the trees it was fitted to; docs/measure.md tells how far they were off on trees measured elsewhere.
 */
import { basalArea } from '../basal-area.ts';
import type { NotEnough } from '../figure.ts';
import { notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, volume } from '../logs/volume.ts';

/** Coefficients c1 and c2 of Honer's form, by common name. */
const HONER: Readonly<Record<string, readonly [number, number]>> = {
  'white pine': [0.691, 363.676],
  'red pine': [0.71, 355.623],
  'jack pine': [0.897, 348.53],
  'white spruce': [1.44, 342.175],
  'black spruce': [1.588, 333.364],
  'red spruce': [1.226, 315.832],
  'balsam fir': [2.139, 301.634],
  hemlock: [1.112, 350.092],
  'white cedar': [4.167, 244.906],
  'sugar maple': [1.046, 383.972],
  'yellow birch': [1.449, 344.754],
  'white birch': [2.222, 300.373],
  'red oak': [1.512, 336.509],
  beech: [0.959, 334.829],
  basswood: [0.948, 401.456],
  'trembling aspen': [-0.312, 436.683],
};

/** Common names for which Honer's equation has coefficients. */
export const HONER_SPECIES: readonly string[] = /* @__PURE__ */ Object.keys(HONER);

const SECONDARY =
  'Honer 1967, coefficients by second-hand copy, order of the species from memory: check before relying on them';

/**
 * Total stem volume, ft³: `D² / (c1 + c2 / H)`, D in inches, H in feet. The coefficients came through a second-hand
 * copy of Honer 1967. The range of the trees behind them was not seen; a DBH of 1 to 40 in and a height of
 * 10 to 130 ft are asked for (from memory).
 *
 * @param species one of HONER_SPECIES
 */
export function honerVolume(
  species: string,
  { dbh, height }: Readonly<{ dbh: number; height: number }>,
): Volume<'cubic-feet'> | NotEnough {
  const coefficients = Object.hasOwn(HONER, species) ? HONER[species] : undefined;
  if (coefficients === undefined) return notEnough(`no coefficients of Honer's equation for ${species}`);
  const wrong = outOfRange(
    { what: 'DBH', value: dbh, unit: 'in', least: 1, most: 40 },
    { what: 'height', value: height, unit: 'ft', least: 10, most: 130 },
  );
  if (wrong !== undefined) return wrong;
  const [c1, c2] = coefficients;
  return volume('cubic-feet', dbh ** 2 / (c1 + c2 / height), {
    method: `Honer's equation for ${species}, total stem`,
    source: SECONDARY,
  });
}

/** The share of the cylinder on breast height that the stem fills, with the name of what it stands for and its source. */
export type FormFactor = Readonly<{ name: string; factor: number; source: string }>;

/** Volumes of solids of revolution: arithmetic. Which of them a stem is near to depends on species and stand. */
export const SHAPES: Readonly<Record<'paraboloid' | 'cone' | 'neiloid', FormFactor>> = {
  paraboloid: { name: 'paraboloid', factor: 1 / 2, source: 'geometry' },
  cone: { name: 'cone', factor: 1 / 3, source: 'geometry' },
  neiloid: { name: 'neiloid', factor: 1 / 4, source: 'geometry' },
};

/**
 * Stem volume by the general form: section area at breast height × height × form factor, ft³ from inches and feet.
 * Holds as far as the form factor does.
 *
 * @param form factor above 0 and at most 1
 */
export function formFactorVolume(
  { dbh, height }: Readonly<{ dbh: number; height: number }>,
  form: FormFactor,
): Volume<'cubic-feet'> | NotEnough {
  const wrong = outOfRange(
    { what: 'DBH', value: dbh, unit: 'in', least: 0 },
    { what: 'height', value: height, unit: 'ft', least: 0 },
    { what: 'form factor', value: form.factor, unit: '', least: Number.MIN_VALUE, most: 1 },
  );
  return (
    wrong ??
    volume('cubic-feet', basalArea(dbh) * height * form.factor, {
      method: `section area × height × form factor ${form.factor} (${form.name})`,
      source: form.source,
    })
  );
}
