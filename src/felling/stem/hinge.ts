// The worksheet of one stem for one aim: notch, hinge, back or bore cut, and when that is a reason to stop. Numbers for a
// trained person on site to check against the tree; nothing here says that a hinge will hold.
import { isNotEnough, type SoundShell, soundShell } from '../../measure/index.ts';
import { type Assumed, USUAL } from '../model/assumptions.ts';
import type { FilledStem } from '../model/filled.ts';
import { NOTCH_SHARE } from './aims.ts';
import { type Section, sectionOf, soundLength } from './section.ts';

export const NOTCH_METHODS = ['open face', 'conventional', 'humboldt'] as const;
export type NotchMethod = (typeof NOTCH_METHODS)[number];

/**
 * Notches. Depth 1/4 of the diameter (NOTCH_SHARE): Washington WAC 296-54-53910 (stem without lean); not deeper than about 1/3: Michigan Rule
 * 408.15336. Open face 70°: OSHA directive CPL 2-1.22 (70 to 90°). Conventional 45°: US Army safety manual, ch. 31.
 * Humboldt, its slanting cut from below, not above 45°, and the back cut above the level cut as with a conventional one: CPL 2-1.22.
 * Back cut of a conventional notch about 2 in above it: Michigan; bore cut 1 to 2 in above the corner: Popular Mechanics 2021.
 */
const NOTCHES = {
  'open face': { share: NOTCH_SHARE, most: 1 / 3, opening: 70, above: 0.0381 },
  conventional: { share: NOTCH_SHARE, most: 1 / 3, opening: 45, above: 0.0508 },
  humboldt: { share: NOTCH_SHARE, most: 1 / 3, opening: 45, above: 0.0508 },
} as const satisfies Record<NotchMethod, object>;

/** Metres and degrees. */
export type HingeWorksheet = Readonly<{
  aim: number;
  diameter: number;
  method: NotchMethod;
  notch: Readonly<{ depth: number; usual: number; most: number; opening: number }>;
  hinge: Readonly<{ thickness: number; wanted: number; sound: number }>;
  /** Back cut or bore above the corner of the notch. */
  cutAbove: number;
  stumpHeight: number;
  /** Bored from behind the hinge, with wood at the back left as a strap till the end. */
  bore?: Readonly<{ strap: number; through: number; strapIsSound: boolean }>;
  shell?: SoundShell;
  /** What speaks against working so; each a sentence. */
  objections: readonly string[];
  /** Not to be worked so at all; each a sentence with the kind of help to get. Empty: none was found, which is no promise. */
  stop: readonly string[];
}>;

const HELP =
  'Stop. Leave it standing and get somebody trained for such trees: with a winch and rope from a distance, a machine, or a climber.';

/**
 * Works out notch and hinge. The notch goes deeper than usual only as far as it takes to put the hinge into sound wood, and
 * never beyond its limit.
 */
export function hingeWorksheet(
  stem: FilledStem,
  aim: number,
  method: NotchMethod = 'open face',
  assumed: Assumed = USUAL,
): HingeWorksheet {
  const diameter = stem.stumpDiameter;
  const { share, most, opening, above } = NOTCHES[method];
  const section = sectionOf(stem.stem, diameter, aim);
  const thickness = assumed.hingeThickness * diameter;
  const wanted = assumed.hingeLength * diameter;
  const { depth, sound } = placeHinge(section, {
    usual: share * diameter,
    most: most * diameter,
    thickness,
    wanted,
  });
  const shell = shellOf(stem);
  const bore = boreOf(section, depth + thickness, assumed);
  return {
    aim,
    diameter,
    method,
    notch: { depth, usual: share * diameter, most: most * diameter, opening },
    hinge: { thickness, wanted, sound },
    cutAbove: above,
    stumpHeight: assumed.stumpHeight,
    ...(bore === undefined ? {} : { bore }),
    ...(shell === undefined ? {} : { shell }),
    objections: objections(stem, depth - share * diameter, sound, wanted, bore),
    stop: reasonsToStop(stem, sound, wanted, assumed),
  };
}

type Wanted = Readonly<{ usual: number; most: number; thickness: number; wanted: number }>;

/** The least depth at which the hinge is all sound; where there is none, the depth with most sound wood. */
function placeHinge(
  section: Section,
  { usual, most, thickness, wanted }: Wanted,
): Readonly<{ depth: number; sound: number }> {
  const steps = 20;
  let best = { depth: usual, sound: -1 };
  for (let step = 0; step <= steps; step += 1) {
    const depth = usual + ((most - usual) * step) / steps;
    const sound = soundHinge(section, depth, thickness, wanted);
    if (sound > best.sound + 1e-9) best = { depth, sound };
    if (sound >= wanted * 0.995) break;
  }
  return best;
}

/** The sound length of a hinge: the least of five lines through its thickness, each no longer than wanted. */
function soundHinge(section: Section, depth: number, thickness: number, wanted: number): number {
  const lines = [0, 0.25, 0.5, 0.75, 1].map((part) =>
    soundLength(section, depth + part * thickness, -section.diameter / 2, section.diameter / 2),
  );
  return Math.min(wanted, ...lines);
}

function boreOf(section: Section, behindHinge: number, { hingeThickness }: Assumed): HingeWorksheet['bore'] {
  const { diameter } = section;
  // A strap as thick as the hinge. Common practice, no source.
  const strap = hingeThickness * diameter;
  const through = diameter - behindHinge - strap;
  if (through <= 0) return undefined;
  const line = diameter - strap / 2;
  const half = Math.sqrt(line * (diameter - line));
  return { strap, through, strapIsSound: soundLength(section, line, -half, half) >= half };
}

function shellOf({ stem, stumpDiameter }: FilledStem): SoundShell | undefined {
  const shell = stem.decay?.shell;
  if (shell === undefined) return undefined;
  const worked = soundShell(stumpDiameter, Math.min(shell, stumpDiameter / 2));
  return isNotEnough(worked) ? undefined : worked;
}

function objections(
  { stem, dead }: FilledStem,
  deeper: number,
  sound: number,
  wanted: number,
  bore: HingeWorksheet['bore'],
): readonly string[] {
  return [
    ...(deeper > 1e-6
      ? [
          'The notch goes deeper than usual to put the hinge into sound wood; that leaves less room for wedges behind it.',
        ]
      : []),
    ...(sound < wanted * 0.995
      ? ['The hinge is shorter in sound wood than wanted, so it steers less and can tear on one side.']
      : []),
    ...(stem.seam === undefined ? [] : ['An open seam can split upward as the stem begins to fall.']),
    ...(stem.above ?? []).map(
      (noted) => `Noted above it: ${noted}. It can come down at the first blow on a wedge, or on the way.`,
    ),
    ...(stem.fork === true ? ['A fork can split apart as the stem begins to fall.'] : []),
    ...(dead
      ? ['Dead wood breaks without bending, and tops and limbs come down at the first blow on a wedge.']
      : []),
    ...(bore?.strapIsSound === false
      ? ['The strap at the back would be rotten wood: it may not hold till it is cut.']
      : []),
  ];
}

function reasonsToStop(
  { stem }: FilledStem,
  sound: number,
  wanted: number,
  { leastHinge }: Assumed,
): readonly string[] {
  const unmeasured =
    stem.decayed === true && stem.decay?.shell === undefined && stem.decay?.pocketAzimuth === undefined;
  return [
    ...(unmeasured
      ? [
          `Stem ${stem.label} is decayed, and nobody measured how much sound wood is left: no hinge can be worked out. ${HELP}`,
        ]
      : []),
    ...(stem.seam === true
      ? [
          `Stem ${stem.label} has an open seam, and it is not entered which way it faces: no hinge can be worked out. ${HELP}`,
        ]
      : []),
    ...(sound < leastHinge * wanted - 1e-9
      ? [
          `Within the limit of the notch at most ${Math.round((100 * Math.max(0, sound)) / wanted)} % of the wanted hinge is sound wood. ${HELP}`,
        ]
      : []),
  ];
}
