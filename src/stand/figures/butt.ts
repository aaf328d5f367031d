// What the decay measured at a stump costs the butt log: taking the log with its cull, or cutting the butt off first.
import { speciesName } from '../../events/index.ts';
import {
  type BoardRule,
  type ButtChoices,
  type ButtLog,
  buttChoices,
  type Figure,
  isNotEnough,
  lengthToScale,
  lineValue,
  type NotEnough,
  notEnough,
  type Scaling,
  scaleRule,
  scaleToLength,
  soundShell,
  type Volume,
} from '../../measure/index.ts';
import type { Folded } from '../fold.ts';
import type { Stand, Stem } from '../state.ts';
import { lengthOf } from './length.ts';
import { type Answer, traced } from './traced.ts';
import { listInForce } from './value.ts';

/** What the log brings: money for a thousand board feet as asked, or the goods that the recorded price list has. */
export type ButtPrice =
  | Readonly<{ from: 'asked'; withCull: number; jumpButted: number; currency: string }>
  | Readonly<{
      from: 'list';
      product: string;
      /** Grade of the log with its cull, and of the log without its butt; null for goods without a grade. */
      withCull: string | null;
      jumpButted: string | null;
      buyerClass: string | undefined;
    }>;

/** Sound wood around the decay as it was measured at the stump; it decides nothing by itself. */
export type ShellFigures = Readonly<{
  thicknessOverRadius: Answer;
  hollowShare: Answer;
  strengthLeft: Answer;
  remark: string;
}>;

export type ButtFigures = Readonly<{
  stem: string;
  /** Scaling length of the log as it would be cut sound, ft. */
  length: number | NotEnough;
  choices: ButtChoices<BoardRule> | NotEnough;
  shell: ShellFigures | NotEnough;
  restsOn: readonly string[];
}>;

/**
 * @param stem id of a stem
 * @param log diameter at the small end, in, and length, ft, of the butt log as it would be cut sound; a trim is taken
 *   off it only if the scaling names one
 */
export function buttFigures(
  { stand }: Folded,
  stem: string,
  log: ButtLog,
  { trim = 0, ...others }: Scaling,
  price?: ButtPrice,
): ButtFigures {
  const known = stand.stems.get(stem);
  const { decay, felling } = known ?? {};
  const restsOn = [felling?.entry, decay?.entry].filter((entry) => entry !== undefined);
  const scaling = { ...others, trim };
  const length = lengthToScale(log.length, scaling);
  if (decay === undefined) {
    const unexamined = notEnough('nobody recorded what the stump showed ("decay measured").');
    return { stem, length, choices: unexamined, shell: unexamined, restsOn };
  }
  const { found, upTheButt, diameter, shell, stumpDiameter } = decay.body;
  const sound = found === 'none' || found === 'stain';
  const decayed = {
    upTheButt: sound ? 0 : (lengthOf(upTheButt, 'ft') ?? null),
    diameter: sound ? 0 : (lengthOf(diameter, 'in') ?? null),
  };
  const money = price === undefined ? {} : { money: moneyOf(price, known, stand, scaling) };
  const choices = isNotEnough(length)
    ? length
    : buttChoices({ smallEnd: log.smallEnd, length }, decayed, { scale: scaleBy(scaling), ...money });
  const around = stumpDiameter ?? felling?.details.stumpDiameter;
  return { stem, length, choices, shell: shellOf(around, shell, restsOn), restsOn };
}

function scaleBy(scaling: Scaling) {
  return (smallEnd: number, length: number): Volume<BoardRule> | NotEnough => {
    const scaled = scaleToLength(smallEnd, length, scaling, 'down');
    return isNotEnough(scaled) ? scaled : scaled.volume;
  };
}

type Entered = Parameters<typeof lengthOf>[0];

function shellOf(stump: Entered, shell: Entered, restsOn: readonly string[]): ShellFigures | NotEnough {
  const across = lengthOf(stump, 'in');
  const thickness = lengthOf(shell, 'in');
  if (across === undefined) return notEnough('the diameter of the stump');
  if (thickness === undefined) return notEnough('the thinnest sound wood around the decay');
  const sound = soundShell(across, thickness);
  if (isNotEnough(sound)) return sound;
  const { source, remark } = sound;
  const figure = (value: number, method: string) =>
    traced({ value, unit: 'share', method, source }, () => restsOn);
  return {
    thicknessOverRadius: figure(sound.thicknessOverRadius, 'shell over radius, t/R'),
    hollowShare: figure(sound.hollowShare, 'hollow share of the section, (1 − t/R)²'),
    strengthLeft: figure(sound.strengthLeft, 'bending strength left, 1 − (1 − t/R)⁴'),
    remark,
  };
}

type Money = (net: Volume<BoardRule>) => Figure | NotEnough;

function moneyOf(
  price: ButtPrice,
  stem: Stem | undefined,
  stand: Stand,
  { scale }: Scaling,
): Readonly<{ withCull: Money; jumpButted: Money }> {
  if (price.from === 'asked') {
    const { currency } = price;
    return { withCull: worth(price.withCull, currency), jumpButted: worth(price.jumpButted, currency) };
  }
  const found = listInForce(stand, scaleRule(scale), price.buyerClass);
  const byList =
    (grade: string | null): Money =>
    (net) => {
      if (isNotEnough(found)) return found;
      if (stem?.species === undefined) return notEnough('the species of the stem, which prices go by');
      const goods = { species: speciesName(stem.species), product: price.product, grade };
      return lineValue({ ...goods, volume: net }, found.list);
    };
  return { withCull: byList(price.withCull), jumpButted: byList(price.jumpButted) };
}

function worth(perThousand: number, currency: string): Money {
  return (net) => ({
    value: (net.value / 1000) * perThousand,
    unit: currency,
    method: `${net.method}; × ${perThousand} ${currency} per Mbf`,
    source: `${net.source}; price as asked`,
  });
}
