// Stems that come to lie across a stem that is down already, or over a stump: how many, which, and where a bole may break.
// That depends on how earlier falls came to lie, so no order is chosen by it; it is looked at once there is a plan.
import { seen } from '../model/around.ts';
import type { OnTheGround } from '../model/inputs.ts';
import { boleChance } from '../model/strip.ts';
import { acrossLine, acrossStem, type Falling, layings } from './across.ts';

/** One fall of a plan, in the order of felling. */
export type PlannedLay = Falling & Readonly<{ id: string; label: string }>;

/** One stem that may come to lie across another, or over a stump. Metres. */
export type Crossing = Readonly<{
  stem: string;
  label: string;
  over: Readonly<{ kind: 'planned stem' | 'lying stem' | 'stump'; id: string; label: string }>;
  /** That it comes to lie across it at all; of a stump, that its bole does. */
  chance: number;
  /** That its bole, below the crown, comes down on the bole of the other or on the stump, so that it may break there. */
  bole: number;
  /** How far from its own stump, on average. */
  out: number;
  /** How far from the butt of the stem that lies, on average; left out for a stump. */
  along?: number;
}>;

export type Crossings = Readonly<{
  /** How many stems that lie already are expected to be crossed, all falls together. */
  expected: number;
  /** By chance, the largest first; those under one in a hundred are left out, and counted in what is expected. */
  pairs: readonly Crossing[];
  /** For each fall that may break its bole: how many times it is expected to come down on a bole or a stump. */
  broken: readonly Readonly<{ stem: string; label: string; expected: number }>[];
}>;

/** What lay before, with a thickness. */
type Grounded = OnTheGround & Readonly<{ dbh: number }>;

const LEAST = 0.01;

/** Looks at every fall against all that was down before it. All falls are taken to come down: what hangs up does not lie. */
export function crossingsOf(falls: readonly PlannedLay[], before: readonly Grounded[]): Crossings {
  const all = falls.flatMap((fall, at): Crossing[] => [
    ...before.map((one) => overGround(fall, one)),
    ...falls
      .slice(0, at)
      .flatMap((earlier) => [...overPlanned(fall, earlier), overStump(fall, stumpOf(earlier))]),
  ]);
  const across = all.filter(({ over }) => over.kind !== 'stump');
  const broken = falls.flatMap(({ id, label }) => {
    const expected = all.filter(({ stem }) => stem === id).reduce((sum, { bole }) => sum + bole, 0);
    return expected < LEAST ? [] : [{ stem: id, label, expected }];
  });
  return {
    expected: across.reduce((sum, { chance }) => sum + chance, 0),
    pairs: all
      .filter(({ chance }) => chance >= LEAST)
      .sort((a, b) => b.chance - a.chance || (a.stem + a.over.id < b.stem + b.over.id ? -1 : 1)),
    broken: broken.sort((a, b) => b.expected - a.expected || (a.stem < b.stem ? -1 : 1)),
  };
}

function overPlanned(fall: PlannedLay, earlier: PlannedLay): Crossing[] {
  const reach = (one: PlannedLay) => one.body.height * (1 + 5 * one.body.lengthError);
  if (seen(fall.stump, earlier.stump).distance > reach(fall) + reach(earlier)) return [];
  const { chance, out, along } = acrossStem(fall, layings(earlier, fall.stump));
  const boles = layings(earlier, fall.stump, earlier.body.crownBase);
  const bole = chance === 0 ? 0 : Math.min(chance, acrossStem(fall, boles, fall.body.crownBase).chance);
  const over = { kind: 'planned stem', id: earlier.id, label: earlier.label } as const;
  return [{ stem: fall.id, label: fall.label, over, chance, bole, out, along }];
}

function overGround(fall: PlannedLay, one: Grounded): Crossing {
  if (one.tip === undefined) return overStump(fall, one);
  const line = { from: one, to: one.tip };
  const { chance, out, along } = acrossLine(fall, line);
  const bole = Math.min(chance, acrossLine(fall, line, fall.body.crownBase).chance);
  const over = { kind: 'lying stem', id: one.id, label: one.label } as const;
  return { stem: fall.id, label: fall.label, over, chance, bole, out, along };
}

function overStump(fall: PlannedLay, stump: Grounded): Crossing {
  const { distance, bearing } = seen(fall.stump, stump);
  const chance = boleChance(fall, fall.body, { distance, bearing, radius: stump.dbh / 2 });
  // Farther out than its crown base limbs come between.
  const bole = distance <= fall.body.crownBase ? chance : 0;
  const over = { kind: 'stump', id: stump.id, label: stump.label } as const;
  return { stem: fall.id, label: fall.label, over, chance, bole, out: distance };
}

function stumpOf({ id, label, stump, body }: PlannedLay): Grounded {
  return { id, label, ...stump, dbh: 2 * body.halfWidth };
}
