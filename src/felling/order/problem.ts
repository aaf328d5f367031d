// What the order of felling is computed from: a group of stems, the aims that each can take, what an aim costs, and
// which of the stems still standing can hold it. Plain numbers, made by the felling model; nothing here knows where they come from.

/**
 * A part of the directions and lengths in which a stem may fall, within which the same stems stand in its way.
 *
 * The chance that the stem hangs up while the stems of S stand is the sum over its segments of
 * weight × (1 − always × product of `survival` over the holders in S).
 */
export type Segment = Readonly<{
  /** Chance of falling within this part, 0 to 1; over all segments of a choice at most 1. */
  weight: number;
  /** Chance of getting past all that stands whatever the order (leave trees), 0 to 1; 1 with nothing in the way. */
  always: number;
  /** The stems of the group in the way, by index, each with the chance of getting past it, 0 to 1. */
  holds: readonly Readonly<{ stem: number; survival: number }>[];
}>;

/** One way to fell one stem. */
export type Choice = Readonly<{
  /** Azimuth in degrees from true north. */
  aim: number;
  /** Expected loss, in saplings' worth, whatever stands; 0 or more. */
  loss: number;
  segments: readonly Segment[];
}>;

/** A stem of the group with the aims that it can take, best liked first; none where nothing can be aimed at. */
export type StemChoices = Readonly<{ id: string; choices: readonly Choice[] }>;

/** What a person has settled about a stem: its aim (index of the choice), or its place in the order (0 falls first). */
export type Fixed = Readonly<{ stem: number; choice?: number; place?: number }>;

/** A group for which an order of felling is wanted. Stems are named by their index in `stems`. */
export type OrderProblem = Readonly<{
  stems: readonly StemChoices[];
  /** Pairs [a, b]: a has to be down before b is felled. */
  before: readonly (readonly [number, number])[];
  /** Bumper trees: they wait for everything else that is felled. */
  last: readonly number[];
  /** The highest chance of a hang-up that a fall may have, above 0 and at most 1. Default of the model 0.25. */
  limit: number;
  /** How much the sum of hang-up chances may grow for less loss, 0 or more. Default of the model 0.05. */
  tolerance: number;
  fixed?: readonly Fixed[];
}>;
