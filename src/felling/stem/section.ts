// The section of a stem at the height of the cut, as it was entered: where its wood is sound. Metres; the middle of the stem is
// the origin, y towards the aim, x to the right of it.
import { DEGREES, turn } from '../model/fall.ts';
import type { GroupStem } from '../model/inputs.ts';

/** How wide an open seam counts, to either side of its azimuth, degrees. A guess. */
const SEAM_HALF = 5;
/** How finely a line across the section is looked at: parts of the diameter. */
const PARTS = 500;

export type Section = Readonly<{
  diameter: number;
  isSound: (x: number, y: number) => boolean;
}>;

/**
 * @param aim true azimuth that y points to
 * @param diameter at the height of the cut, above 0
 */
export function sectionOf(
  { decay, seam }: Pick<GroupStem, 'decay' | 'seam'>,
  diameter: number,
  aim: number,
): Section {
  const radius = diameter / 2;
  const core = decay?.shell === undefined ? 0 : Math.max(0, radius - decay.shell);
  const seams = typeof seam === 'number' ? [seam] : typeof seam === 'object' ? seam : [];
  const toward = (azimuth: number, x: number, y: number) =>
    Math.abs(turn(aim + Math.atan2(x, y) * DEGREES - azimuth));
  return {
    diameter,
    isSound: (x, y) => {
      const out = Math.hypot(x, y);
      if (out > radius || out < core) return false;
      if (seams.some((one) => toward(one, x, y) <= SEAM_HALF)) return false;
      const { pocketAzimuth, pocketDepth, pocketWidth } = decay ?? {};
      if (pocketAzimuth === undefined) return true;
      // A pocket without measures is taken to the middle and a quarter of the way round.
      const inner = radius - (pocketDepth ?? radius);
      return out < inner || toward(pocketAzimuth, x, y) > (pocketWidth ?? 90) / 2;
    },
  };
}

/** How much sound wood lies on a line across the section, `depth` behind its front, between two places to the side. */
export function soundLength({ diameter, isSound }: Section, depth: number, from: number, to: number): number {
  const step = diameter / PARTS;
  const count = Math.max(1, Math.ceil((to - from) / step));
  const size = (to - from) / count;
  let sound = 0;
  for (let index = 0; index < count; index += 1)
    if (isSound(from + (index + 0.5) * size, diameter / 2 - depth)) sound += size;
  return sound;
}
