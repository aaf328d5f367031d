// What one choice means: its risks by size, how far the aim may be off before something else is reached, and what to aim at.

import { seen } from './around.ts';
import { type FellingModel, fallOf } from './build.ts';
import { type Body, turn } from './fall.ts';
import { filledLeaveTree } from './filled.ts';
import { hangUpChance } from './hang-up.ts';
import type { GroupInputs, Point } from './inputs.ts';
import { reachOf } from './line-reach.ts';
import { halfAngle } from './strip.ts';
import type { Risk } from './things.ts';

/** Something by which a direction can be found by eye. Metres; degrees, to the right of it positive. */
export type Landmark = Readonly<{
  kind: 'stump' | 'stem' | 'leave tree' | 'sapling' | 'stake';
  id: string;
  label: string;
  distance: number;
  /** How far the aim lies beside it. */
  off: number;
}>;

/** How far to one side, in degrees, until the bole of a stem as long as it may be lies on something that it spares on the aim. */
export type BandSide = Readonly<{
  degrees: number;
  reaches?: Readonly<{ kind: string; id: string; label: string }>;
}>;

export type Explanation = Readonly<{
  hangUp: number;
  /** By chance, the largest first; those under one in a thousand are left out. */
  risks: readonly Risk[];
  band: Readonly<{ left: BandSide; right: BandSide }>;
  landmark?: Landmark;
}>;

const LEAST = 0.001;
/** A band is looked for this far to either side, and a landmark this far beside the aim, degrees. */
const WIDEST_BAND = 90;
const BESIDE = 10;
/** A landmark nearer than this says little about a direction, metres. */
const TOO_NEAR = 3;

/**
 * Explains one choice of one stem while some of the group stand.
 * @param standing whether the stem with this index still stands
 */
export function explain(
  model: FellingModel,
  stem: number,
  choice: number,
  standing: (stem: number) => boolean,
): Explanation | undefined {
  const fall = fallOf(model, stem, choice);
  const of = model.stems[stem];
  const parts = model.problem.stems[stem]?.choices[choice]?.segments;
  if (fall === undefined || of === undefined || parts === undefined) return undefined;
  const others = (index: number) => index !== stem && standing(index);
  const holding = model.stems.flatMap(({ filled: { stem: other } }, index): Risk[] => {
    if (!others(index)) return [];
    const alone = parts.map((part) => ({ ...part, always: 1 }));
    const chance = hangUpChance(alone, (one) => one === index);
    return [{ what: 'hang-up', id: other.id, label: other.label, how: 'holds', chance, loss: 0 }];
  });
  const down = new Set(model.stems.flatMap((one, index) => (others(index) ? [] : one.filled.stem.id)));
  const harmed = of.things
    .flatMap((thing) => thing(fall))
    .filter(({ what, id }) => what !== 'broken over' || !down.has(id));
  const risks = [...holding, ...harmed]
    .filter(({ chance }) => chance >= LEAST)
    .sort((a, b) => b.chance - a.chance || b.loss - a.loss || (a.id < b.id ? -1 : 1));
  const landmark = landmarkFor(model, stem, fall.aim, standing);
  return {
    hangUp: hangUpChance(parts, others),
    risks,
    band: bandOf(model, stem, fall.aim, others),
    ...(landmark === undefined ? {} : { landmark }),
  };
}

type Named = Point & Readonly<{ id: string; label: string }>;

function landmarkFor(
  { inputs }: FellingModel,
  stem: number,
  aim: number,
  standing: (stem: number) => boolean,
): Landmark | undefined {
  const from = inputs.stems[stem];
  if (from === undefined) return undefined;
  const seenAs = (kind: Landmark['kind'], { id, label, ...at }: Named) => {
    const { distance, bearing } = seen(from, at);
    return { kind, id, label, distance, off: turn(aim - bearing) };
  };
  const candidates = [
    ...inputs.stems.flatMap((one, index) =>
      index === stem ? [] : [seenAs(standing(index) ? 'stem' : 'stump', one)],
    ),
    ...(inputs.landmarks ?? []).map((one) => seenAs(one.kind, one)),
    ...(inputs.leaveTrees ?? []).map((one) => seenAs('leave tree', one)),
    ...(inputs.saplings ?? []).map((one) => seenAs('sapling', one)),
  ];
  return candidates
    .filter(({ distance, off }) => distance >= TOO_NEAR && Math.abs(off) <= BESIDE)
    .sort((a, b) => Math.abs(a.off) - Math.abs(b.off) || a.distance - b.distance)[0];
}

type Sector = Readonly<{ kind: string; id: string; label: string; bearing: number; half: number }>;

/** How far left and right. Saplings, leave trees and standing stems by the bole; lines by the crown, looked at in steps of 1°. */
function bandOf(
  { inputs, stems, assumed }: FellingModel,
  index: number,
  aim: number,
  standing: (stem: number) => boolean,
): Explanation['band'] {
  const body = stems[index]?.filled;
  if (body === undefined) return { left: { degrees: 0 }, right: { degrees: 0 } };
  const longest = body.height * (1 + 2 * body.lengthError);
  const sector = (kind: string, { id, label, ...at }: Named, radius: number): Sector[] => {
    const { distance, bearing } = seen(body.stem, at);
    return distance - radius > longest
      ? []
      : [{ kind, id, label, bearing, half: halfAngle(body.halfWidth, { distance, radius }) }];
  };
  const sectors = [
    ...stems.flatMap(({ filled: { stem, halfWidth } }, other) =>
      standing(other) ? sector('stem', stem, halfWidth) : [],
    ),
    ...(inputs.leaveTrees ?? []).flatMap((tree) =>
      sector('leave tree', tree, filledLeaveTree(tree, assumed).halfWidth),
    ),
    ...(inputs.saplings ?? []).flatMap((one) => sector('sapling', one, one.radius ?? 0)),
    ...lineSectors(inputs, body, longest),
  ];
  const side = (sign: 1 | -1): BandSide => {
    const ahead = sectors
      .map((one) => ({ one, off: sign * turn(one.bearing - aim) - one.half }))
      // What lies on the aim itself is among the risks, and is no edge of the band.
      .filter(({ one, off }) => off > 0 && Math.abs(turn(one.bearing - aim)) > one.half)
      .sort((a, b) => a.off - b.off)[0];
    if (ahead === undefined || ahead.off > WIDEST_BAND) return { degrees: WIDEST_BAND };
    const { kind, id, label } = ahead.one;
    return { degrees: ahead.off, reaches: { kind, id, label } };
  };
  return { left: side(-1), right: side(1) };
}

function lineSectors({ lines = [] }: GroupInputs, body: Body & { stem: Point }, longest: number): Sector[] {
  const half = Math.max(body.halfWidth, body.crownRadius);
  return lines.flatMap(({ id, label, kind, points }) => {
    const local = points.map(({ x, y }) => ({ x: x - body.stem.x, y: y - body.stem.y }));
    return Array.from({ length: 360 }, (_, bearing) => bearing)
      .filter((bearing) => reachOf(local, bearing, half) <= longest)
      .map((bearing) => ({ kind, id, label, bearing, half: 0.5 }));
  });
}
