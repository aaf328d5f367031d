// What the decay measured at a stump costs the butt log: taking the log with its cull, or cutting the butt off first.
import { speciesName } from '../../events/index.ts';
import {
  type BoardRule,
  type ButtLog,
  type ButtOption,
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
import { type Answer, type TracedFigure, traced } from './traced.ts';
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

type TracedVolume = TracedFigure & Volume<BoardRule>;

/** What a way to take the log leaves and loses, and what it brings. */
export type ButtWay = Readonly<{ net: TracedVolume; lost: TracedVolume; money: Answer }>;

/** Both ways side by side. `cutOff` is what comes off the butt, `length` the scaling length that stays. */
export type ButtWays = Readonly<{
  gross: TracedVolume;
  withCull: ButtWay;
  jumpButted: ButtWay & Readonly<{ cutOff: TracedFigure; length: TracedFigure }>;
}>;

export type ButtFigures = Readonly<{
  stem: string;
  /** Scaling length of the log as it would be cut sound. */
  length: Answer;
  choices: ButtWays | NotEnough;
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
  const feet = lengthToScale(log.length, scaling);
  const length = isNotEnough(feet) ? feet : inFeet(feet, 'scaling length of the log as asked', []);
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
  const worth = price === undefined ? undefined : moneyOf(price, known, stand, scaling);
  const money = worth === undefined ? {} : { money: worth.of };
  const choices = isNotEnough(feet)
    ? feet
    : waysOf(
        buttChoices({ smallEnd: log.smallEnd, length: feet }, decayed, { scale: scaleBy(scaling), ...money }),
        { decay: [decay.entry], money: [decay.entry, ...(worth?.restsOn ?? [])] },
      );
  const around = stumpDiameter ?? felling?.details.stumpDiameter;
  return { stem, length, choices, shell: shellOf(around, shell, restsOn), restsOn };
}

function inFeet(value: number, method: string, restsOn: readonly string[]): TracedFigure {
  return { value, unit: 'ft', method, source: 'measured', restsOn };
}

/** Puts the entries beside each figure of both ways. The sound log is as asked, and rests on none. */
function waysOf(
  choices: ReturnType<typeof buttChoices<BoardRule>>,
  restsOn: Readonly<Record<'decay' | 'money', readonly string[]>>,
): ButtFigures['choices'] {
  if (isNotEnough(choices)) return choices;
  const way = ({ net, lost, money }: ButtOption<BoardRule>): ButtWay => ({
    net: { ...net, restsOn: restsOn.decay },
    lost: { ...lost, restsOn: restsOn.decay },
    money: traced(money, () => restsOn.money),
  });
  const { gross, withCull, jumpButted } = choices;
  const { cutOff, length } = jumpButted;
  return {
    gross: { ...gross, restsOn: [] },
    withCull: way(withCull),
    jumpButted: {
      ...way(jumpButted),
      cutOff: inFeet(cutOff, 'what comes off the butt, by even feet', restsOn.decay),
      length: inFeet(length, 'scaling length without the butt', restsOn.decay),
    },
  };
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
): Readonly<{ of: Readonly<{ withCull: Money; jumpButted: Money }>; restsOn: readonly string[] }> {
  if (price.from === 'asked') {
    const { currency } = price;
    const of = { withCull: worth(price.withCull, currency), jumpButted: worth(price.jumpButted, currency) };
    return { of, restsOn: [] };
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
  return {
    of: { withCull: byList(price.withCull), jumpButted: byList(price.jumpButted) },
    restsOn: isNotEnough(found) ? [] : [found.entry],
  };
}

function worth(perThousand: number, currency: string): Money {
  return (net) => ({
    value: (net.value / 1000) * perThousand,
    unit: currency,
    method: `${net.method}; × ${perThousand} ${currency} per Mbf`,
    source: `${net.source}; price as asked`,
  });
}
