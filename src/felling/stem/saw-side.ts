// A sapling that grows against the stump: whether it lies ahead of, beside or behind the hinge, from which side a bore cut keeps
// bar and wedge away from it, and what speaks against standing on either side. Never calls a side safe.
import { lengthWords } from '../lengths.ts';
import { seen } from '../model/around.ts';
import { DEGREES, turn } from '../model/fall.ts';
import type { FilledStem } from '../model/filled.ts';
import type { GroundSlope, Sapling } from '../model/inputs.ts';
import type { EscapeRoute } from './escape.ts';
import type { HingeWorksheet } from './hinge.ts';

export type Side = 'left' | 'right';

/** One sapling at the stump, as seen along the aim. */
export type SawSide = Readonly<{
  id: string;
  label: string;
  /** Ahead: where the notch opens and the stem comes down. */
  lies: 'ahead' | 'beside' | 'behind';
  /** To which hand of somebody who looks along the aim. */
  on: Side;
  /** The side to bore from, so that bar and wedge stay away from it; none where it lies ahead, for no side helps there. */
  from?: Side;
  /** What to mind with it; a sentence. */
  note: string;
  /** What speaks against working on either side; each a sentence. None found is no promise. */
  against: Readonly<Record<Side, readonly string[]>>;
}>;

export type SidesAround = Readonly<{
  slope?: GroundSlope;
  routes: readonly EscapeRoute[];
}>;

/** A sapling nearer to the bark than this is at the stump, metres. Common practice, no source. */
const AT_THE_STUMP = 0.5;
/** Half the width of a bar, which works as far before and behind the line of the cut, metres. A guess. */
const BAR_HALF = 0.05;

/** The saplings at the stump with the side to work from, nearest first. */
export function sawSides(
  stem: FilledStem,
  worksheet: HingeWorksheet,
  saplings: readonly Sapling[],
  around: SidesAround,
): readonly SawSide[] {
  const near = saplings
    .map((sapling) => ({ sapling, ...seen(stem.stem, sapling) }))
    .filter(
      ({ sapling, distance }) => distance - (sapling.radius ?? 0) - stem.stumpDiameter / 2 <= AT_THE_STUMP,
    )
    .sort((a, b) => a.distance - b.distance);
  const sideOf = (bearing: number): Side => (turn(bearing - worksheet.aim) < 0 ? 'left' : 'right');
  const against = (side: Side): readonly string[] => [
    ...near
      .filter(({ bearing }) => sideOf(bearing) === side)
      .map(({ sapling }) => `${sapling.label} stands on that side.`),
    ...speaksAgainst(stem, worksheet.aim, side, around),
  ];
  const both = { left: against('left'), right: against('right') };
  return near.map(({ sapling: { id, label, radius = 0 }, distance, bearing }) => {
    const off = turn(bearing - worksheet.aim);
    const along = distance * Math.cos(off / DEGREES);
    const on = sideOf(bearing);
    const front = worksheet.diameter / 2 - worksheet.notch.depth;
    const back = front - worksheet.hinge.thickness - BAR_HALF;
    const lies = along - radius > front ? 'ahead' : along + radius >= back ? 'beside' : 'behind';
    if (lies === 'ahead')
      return {
        id,
        label,
        lies,
        on,
        note: `${label} stands where the notch opens and the stem comes down. No side of the saw keeps it; another aim may.`,
        against: both,
      };
    const from: Side = on === 'left' ? 'right' : 'left';
    return {
      id,
      label,
      lies,
      on,
      from,
      note: `Bore from the ${from}, keep the tip of the bar inside the stem, and drive wedges from the ${from} or straight behind: then bar and wedge stay away from ${label}.`,
      against: both,
    };
  });
}

function speaksAgainst(
  stem: FilledStem,
  aim: number,
  side: Side,
  { slope, routes }: SidesAround,
): readonly string[] {
  const out = aim + (side === 'left' ? -90 : 90);
  const { lean } = stem;
  const leaning = lean.azimuth === undefined ? 0 : lean.amount * Math.cos(turn(lean.azimuth - out) / DEGREES);
  const downhill = slope !== undefined && slope.percent > 5 && Math.abs(turn(slope.aspect - out)) < 60;
  const blocked = routes.filter((route) => route.side === side && route.blockedBy.length > 0);
  return [
    ...(leaning > 0.05 ? [`The stem leans ${lengthWords(leaning)} to the ${side}.`] : []),
    ...(lean.azimuth === undefined ? ['Nobody noted which way the stem leans.'] : []),
    ...(downhill ? [`The ${side} is the downhill side.`] : []),
    ...blocked.map(
      ({ blockedBy }) =>
        `The way out to the ${side} is blocked by ${blockedBy.map(({ label }) => label).join(', ')}.`,
    ),
    ...(stem.dead ? ['Dead wood stands above, on every side.'] : []),
    ...(stem.stem.above ?? []).map((noted) => `Noted above it: ${noted}.`),
  ];
}
