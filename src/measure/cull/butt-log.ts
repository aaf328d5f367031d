/**
 * A butt log with rot in it: take the log and the cull, or cut the rotten butt off first (jump-butting). Both are
 * computed by the same rule and put beside each other; which is right depends on the buyer and is not said here.
 */
import { type Figure, isNotEnough, type NotEnough, notEnough } from '../figure.ts';
import { outOfRange } from '../limits.ts';
import { type Volume, type VolumeRule, volume } from '../logs/volume.ts';
import { netVolume, SMALLEST_BOARD } from './combined.ts';
import { interiorDefect } from './proportions.ts';

/** Scaling diameter at the small end, in, and scaling length, ft. */
export type ButtLog = Readonly<{ smallEnd: number; length: number }>;

/** Decay as measured at the stump: length up the butt, ft, and diameter, in; null where it was not measured. */
export type StumpDecay = Readonly<{ upTheButt: number | null; diameter: number | null }>;

/** A way to take the log: what it scales, what is lost against the sound log, and the money if there are prices. */
export type ButtOption<Rule extends VolumeRule> = Readonly<{
  net: Volume<Rule>;
  lost: Volume<Rule>;
  money: Figure | NotEnough;
}>;

/** Both ways side by side. `cutOff` is what comes off the butt, ft, `length` the scaling length that stays. */
export type ButtChoices<Rule extends VolumeRule> = Readonly<{
  gross: Volume<Rule>;
  withCull: ButtOption<Rule>;
  jumpButted: ButtOption<Rule> & Readonly<{ cutOff: number; length: number }>;
}>;

/** How a log is scaled and what a volume brings. Prices may differ: a log with rot can be another grade. */
export type ButtScaling<Rule extends VolumeRule> = Readonly<{
  scale: (smallEnd: number, length: number) => Volume<Rule> | NotEnough;
  money?: Readonly<Record<'withCull' | 'jumpButted', (net: Volume<Rule>) => Figure | NotEnough>>;
  /** Shortest scaling length that is a log, ft; 8 when left out. */
  shortest?: number;
}>;

const NO_PRICES = 'prices for the log with its cull and for the log without its butt';

/**
 * What decay at the stump costs the butt log.
 *
 * With the cull: an interior defect as wide as the rot at the stump over the length it goes up, which takes too much
 * rather than too little of a column that narrows. Where less than 6 ft of the log lie beyond the rot, no board counts
 * there and the defect runs through the log (FSH 2409.11 ch. 20 s. 21). The deduction formula is from memory.
 * Jump-butted: the decayed length comes off and the rest scales as the largest even length with the same small end.
 */
export function buttChoices<Rule extends VolumeRule>(
  log: ButtLog,
  decay: StumpDecay,
  { scale, money, shortest = 8 }: ButtScaling<Rule>,
): ButtChoices<Rule> | NotEnough {
  const { upTheButt, diameter } = decay;
  if (upTheButt === null) return notEnough('how far up the butt the decay goes');
  if (diameter === null) return notEnough('the diameter of the decay at the stump');
  const wrong = outOfRange({ what: 'length of the decay', value: upTheButt, unit: 'ft', least: 0 });
  if (wrong !== undefined) return wrong;
  const gross = scale(log.smallEnd, log.length);
  if (isNotEnough(gross)) return gross;
  const culled = withCull(log, { upTheButt, diameter }, gross);
  if (isNotEnough(culled)) return culled;
  const jumped = withoutButt(log, upTheButt, { scale, shortest, gross });
  if (isNotEnough(jumped)) return jumped;
  const option = (net: Volume<Rule>, worth: ((net: Volume<Rule>) => Figure | NotEnough) | undefined) => ({
    net,
    lost: volume(gross.rule, gross.value - net.value, { method: 'gross less net', source: net.source }),
    money: worth === undefined ? notEnough(NO_PRICES) : worth(net),
  });
  return {
    gross,
    withCull: option(culled, money?.withCull),
    jumpButted: {
      ...option(jumped.net, money?.jumpButted),
      cutOff: log.length - jumped.length,
      length: jumped.length,
    },
  };
}

function withCull<Rule extends VolumeRule>(
  { smallEnd, length }: ButtLog,
  { upTheButt, diameter }: Readonly<{ upTheButt: number; diameter: number }>,
  gross: Volume<Rule>,
): Volume<Rule> | NotEnough {
  const affected = length - upTheButt < SMALLEST_BOARD.feet && upTheButt > 0 ? length : upTheButt;
  const core = { across: diameter, other: diameter };
  const net = netVolume(gross, [interiorDefect({ affected, length }, core, smallEnd)]);
  return isNotEnough(net) ? net : net.net;
}

function withoutButt<Rule extends VolumeRule>(
  { smallEnd, length }: ButtLog,
  upTheButt: number,
  {
    scale,
    shortest,
    gross,
  }: Readonly<{
    scale: ButtScaling<Rule>['scale'];
    shortest: number;
    gross: Volume<Rule>;
  }>,
): Readonly<{ net: Volume<Rule>; length: number }> | NotEnough {
  if (upTheButt === 0) return { net: gross, length };
  const even = 2 * Math.floor((length - upTheButt) / 2);
  if (even < shortest) {
    const method = `jump-butted: less than ${shortest} ft remain, no log`;
    return { net: volume(gross.rule, 0, { method, source: gross.source }), length: 0 };
  }
  const net = scale(smallEnd, even);
  if (isNotEnough(net)) return net;
  return { net: { ...net, method: `jump-butted to ${even} ft; ${net.method}` }, length: even };
}
