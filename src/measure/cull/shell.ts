/** Sound wood around a hollow or rotten core: how much there is, and what strength in bending it has. */
import type { NotEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';

/** Said wherever the shell is shown. */
const SHELL_REMARK =
  'This decides nothing by itself: it says how much sound wood there is, not whether a tree or a hinge will hold.';

/** Shares are 0 to 1. `strengthLeft` is of bending strength against a sound round stem. */
export type SoundShell = Readonly<{
  thicknessOverRadius: number;
  hollowShare: number;
  strengthLeft: number;
  remark: typeof SHELL_REMARK;
  source: string;
}>;

/**
 * The sound shell of a round stem with a round core in its middle: `t / R`, hollow share of the area `(1 − t/R)²`,
 * strength left in bending `1 − (1 − t/R)⁴`. Source: Huang et al. 2017, R. Soc. Open Sci. 4:160972, Fig. 6.
 * A core to one side, a crack or an opening leaves less.
 *
 * @param diameter of the stem inside bark, above 0
 * @param thickness of the thinnest sound wood, at most half the diameter; both in one unit
 */
export function soundShell(diameter: number, thickness: number): SoundShell | NotEnough {
  const wrong = outOfRange(
    { what: 'diameter of the stem', value: diameter, unit: 'in the unit given', least: Number.MIN_VALUE },
    { what: 'shell', value: thickness, unit: 'in the unit given', least: 0, most: diameter / 2 },
  );
  if (wrong !== undefined) return wrong;
  const thicknessOverRadius = thickness / (diameter / 2);
  return {
    thicknessOverRadius,
    hollowShare: (1 - thicknessOverRadius) ** 2,
    strengthLeft: 1 - (1 - thicknessOverRadius) ** 4,
    remark: SHELL_REMARK,
    source: 'Huang et al. 2017, Royal Society Open Science 4:160972, Fig. 6',
  };
}
