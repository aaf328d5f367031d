// learn: what measured falls say about how well somebody aims. It is shown and offered; nothing is used until a person records it.
import type { Folded } from '../../stand/index.ts';
import { ASSUMPTIONS } from '../model/assumption-list.ts';
import { defaultsOf, floorOf, type RecordedDefault } from '../plan/defaults.ts';
import { type Estimate, errorAt, estimateFrom } from './estimate.ts';
import { fallsIn, type MeasuredFall, type UnmeasuredFall } from './falls.ts';

export type { Estimate } from './estimate.ts';
export type { MeasuredFall, UnmeasuredFall } from './falls.ts';

/** A measured fall with what the usual model makes of it: its error, and how many of those the lay is off. */
export type FallLearned = MeasuredFall & Readonly<{ error: number; standardised: number }>;

/** What somebody may record as their direction error. Degrees. */
export type Offer = Readonly<{
  value: number;
  /** Whether the floor stands in for what the falls would give. */
  atFloor: boolean;
  /** Entries of the falls that it rests on. */
  restsOn: readonly string[];
}>;

export type PersonAims = Readonly<{
  /** Id. */
  person: string;
  measured: readonly FallLearned[];
  unmeasured: readonly UnmeasuredFall[];
  /** How many measured falls an offer takes, how sure it is, and below what nothing is offered. */
  needed: number;
  level: number;
  floor: number;
  estimate: Estimate | undefined;
  offer: Offer | undefined;
  /** Those farthest off by what the model expects, the farthest first; they count like all others. */
  farthest: readonly FallLearned[];
  /** What plans of this person are computed with now, where it is recorded. */
  recorded: RecordedDefault | undefined;
}>;

const FARTHEST = 3;
/** What is offered is rounded up to this, degrees. */
const STEP = 0.1;

/** Everybody who felled a stem, in the order of their first fall. @param person id; everybody if left out */
export function aimsOf(folded: Folded, person?: string): PersonAims[] {
  const { measured, unmeasured } = fallsIn(folded);
  const people = [...new Set([...measured, ...unmeasured].map((fall) => fall.person))];
  return people
    .filter((id) => person === undefined || id === person)
    .map((id) =>
      personAims(
        folded,
        id,
        measured.filter((fall) => fall.person === id),
        unmeasured.filter((fall) => fall.person === id),
      ),
    );
}

function personAims(
  { stand }: Folded,
  person: string,
  measured: readonly MeasuredFall[],
  unmeasured: readonly UnmeasuredFall[],
): PersonAims {
  const own = defaultsOf(stand, person);
  const number = (name: 'learnFrom' | 'learnLevel') =>
    own.used.find((one) => one.name === name)?.value ?? ASSUMPTIONS[name].value;
  const [needed, level, floor] = [number('learnFrom'), number('learnLevel'), floorOf(own)];
  const learned = measured.map((fall): FallLearned => {
    const error = errorAt(fall, ASSUMPTIONS.directionError.value);
    return { ...fall, error, standardised: fall.off / error };
  });
  const estimate = learned.length < needed ? undefined : estimateFrom(learned, level);
  return {
    person,
    measured: learned,
    unmeasured,
    needed,
    level,
    floor,
    estimate,
    offer: estimate === undefined ? undefined : offerOf(estimate, floor, learned),
    farthest: learned
      .toSorted((one, other) => Math.abs(other.standardised) - Math.abs(one.standardised))
      .slice(0, FARTHEST),
    recorded: own.used.find(({ name }) => name === 'directionError'),
  };
}

function offerOf({ upper }: Estimate, floor: number, falls: readonly FallLearned[]): Offer | undefined {
  const { most } = ASSUMPTIONS.directionError;
  // A hair of a tenth more is rounding of the machine, and no reason for a whole one.
  const value = Math.max(floor, Math.ceil(upper / STEP - 1e-9) * STEP);
  return value > most
    ? undefined
    : {
        value: Number(value.toFixed(1)),
        atFloor: upper < floor,
        restsOn: falls.map(({ entry }) => entry),
      };
}
