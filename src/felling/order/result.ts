// What a search for an order gives: the sequence, what is set aside, how good it is, and what else could be done.

/** How good a plan is at one level. */
export type Level = Readonly<{
  /** What the plan has. */
  found: number;
  /** No plan has less. Equal to `found` where that was proved. */
  bound: number;
  /** (found − bound) ÷ found, 0 to 1. */
  gap: number;
}>;

/** What a change would add to the whole plan; below 0 it would take away. */
export type More = Readonly<{ hangUps: number; loss: number }>;

/** Another aim for the same stem at the same place in the order, everything else as planned. */
export type OtherAim = Readonly<{
  choice: number;
  aim: number;
  hangUp: number;
  loss: number;
  more: More;
  /** Within the margins: only just decided. */
  close: boolean;
}>;

/** Another stem felled at this place, the rest in its order and with its aims. */
export type OtherStem = Readonly<{ stem: number; id: string; more: More; close: boolean }>;

export type PlanStep = Readonly<{
  stem: number;
  id: string;
  /** Index among the choices of the stem, and its azimuth in degrees from true north. */
  choice: number;
  aim: number;
  /** Chance of a hang-up given what still stands at that moment. */
  hangUp: number;
  /** Expected loss in saplings' worth. */
  loss: number;
  otherAims: readonly OtherAim[];
  otherStems: readonly OtherStem[];
}>;

/** A stem that stays standing, for no order fells it within the limit. */
export type SetAside = Readonly<{
  stem: number;
  id: string;
  /** It cannot be aimed; it waits for one that stands; or every aim is over the limit. */
  reason: 'no-aim' | 'waits' | 'over-limit';
  /** Why, as a sentence. */
  because: string;
  /** The best of its aims with all that is set aside standing and the rest down; over the limit unless it waits. */
  best?: Readonly<{ choice: number; aim: number; hangUp: number; loss: number }>;
  /** Its least chance of a hang-up if the whole group were down. */
  alone?: number;
  /** Stems set aside without which, each by itself, it would come within the limit; or for which it waits. */
  causes: readonly number[];
}>;

export type OrderPlan = Readonly<{
  steps: readonly PlanStep[];
  aside: readonly SetAside[];
  /** Sums over the steps; `without` is the chance that no step hangs up, `highest` the highest chance of a step. */
  totals: Readonly<{ hangUps: number; loss: number; without: number; highest: number }>;
  /** `hangUps`: the least sum of chances, before the tolerance is spent. `loss`: the least loss within the tolerance. */
  levels: Readonly<{ hangUps: Level; loss: Level }>;
  /** Whether both levels are proved. */
  exact: boolean;
  /** Largest size of the tables, in bytes. */
  bytes: number;
}>;
