// What is looked at after planning, against simulated falls: stems drawn down one after the other by plain geometry. Nobody
// published figures for it; the simulation shares nothing with the code but the distributions that docs/felling-model.md states.
import { beforeAll, describe, expect, test } from 'vitest';
import { acrossLine, acrossStem, layings } from '../../../src/felling/after/across.ts';
import { type AfterPlan, afterPlan } from '../../../src/felling/after/after.ts';
import { buildModel, seeded } from '../../../src/felling/index.ts';
import { fourErrors, normal } from '../model/falls.ts';
import { cross, inputs, model, out, simulate, steps, type Tally } from './fellings.ts';

const COUNT = 100_000;

describe('against 100,000 simulated fellings of a group', () => {
  let counts: Tally;
  let after: AfterPlan;
  beforeAll(() => {
    counts = simulate(COUNT);
    after = afterPlan(model, steps);
  });
  const share = (key: string) => counts.times(key) / COUNT;
  /** A chance is the share that was simulated, within four errors and what the code says that it leaves out. */
  const holds = (chance: number, key: string, beside = 0) =>
    expect(Math.abs(chance - share(key)), `${key}: ${chance}, simulated ${share(key)}`).toBeLessThan(
      fourErrors(chance, COUNT) + beside,
    );

  test('which stems come to lie across which, and how many in all', () => {
    const { pairs, expected } = after.crossings;
    const lying = pairs.filter(({ over }) => over.kind !== 'stump');
    expect(lying.length).toBeGreaterThanOrEqual(5);
    for (const { stem, over, chance, bole } of lying) {
      holds(chance, `${stem} over ${over.id}`);
      // What lay before has no known crown: all of it counts as bole.
      holds(bole, `boles of ${stem} and ${over.id}`);
    }
    // A felling has 0 to 15 crossings, most of the time 1 to 4: 0.02 is over four standard errors of their mean.
    expect(Math.abs(expected - share('crossed'))).toBeLessThan(0.02);
  });

  test('which boles come down on a stump, and what may break so', () => {
    const stumps = after.crossings.pairs.filter(({ over }) => over.kind === 'stump');
    expect(stumps.length).toBeGreaterThanOrEqual(1);
    for (const { stem, over, chance } of stumps) holds(chance, `${stem} stump of ${over.id}`);
    expect(after.crossings.broken.length).toBeGreaterThanOrEqual(2);
    for (const { stem, expected } of after.crossings.broken) {
      const named = after.crossings.pairs.filter((pair) => pair.stem === stem);
      const sum = named.reduce((total, { bole }) => total + bole, 0);
      expect(expected).toBeGreaterThanOrEqual(sum - 1e-9);
      // Only chances under one in a hundred are left out of the pairs.
      expect(expected).toBeLessThan(sum + 0.05);
    }
  });

  test('saplings that are lost but once, against the losses added up', () => {
    const { things, added, once, ratio } = after.once;
    const twice = things.filter(({ what }) => what === 'sapling');
    expect(twice.length).toBeGreaterThanOrEqual(2);
    for (const { id, once: lost, added: sum } of twice) {
      const value = id === 't' ? 2 : 1;
      const left = share(`left of ${id}`);
      const error = Math.sqrt((share(`left of ${id}, squared`) - left * left) / COUNT);
      expect(Math.abs(lost - value * (1 - left)), id).toBeLessThan(4 * value * error + 1e-6);
      expect(sum).toBeGreaterThan(lost);
    }
    expect(ratio).toBeCloseTo(added / once, 12);
    expect(ratio).toBeGreaterThan(1);
  });

  test('which stems come to lie across the slope, and what is then below them', () => {
    expect(after.rolling.length).toBeGreaterThanOrEqual(3);
    // The direction is looked at in steps of 1/16 of its error: at an edge half a step, 0.0125 at most, can be on the wrong side.
    const step = 0.0125;
    for (const { stem, chance } of after.rolling) holds(chance, `${stem} across the slope`, step);
    const below = after.rolling.flatMap(({ stem, below: things }) =>
      things.map((one) => ({ stem, ...one })).filter(({ id }) => id === 't' || id === 'w'),
    );
    expect(below.some(({ what }) => what === 'people')).toBe(true);
    for (const { stem, id, chance } of below) holds(chance, `${id} below ${stem}`, 2 * step);
  });
});

describe('lying across', () => {
  const body = { height: 20, lengthError: 0, halfWidth: 0.2, crownBase: 11, crownRadius: 3 };
  const falling = { aim: 0, directionError: 6, body, stump: { x: 0, y: 0 } };

  test('a line square to the aim, 10 m out and 1 m to each side: the chance of being off by less than atan(1/10)', () => {
    const { chance, out: far } = acrossLine(falling, { from: { x: -1, y: 10 }, to: { x: 1, y: 10 } });
    // 2 Φ(5.7106°/6°) − 1 = 0.6587841, by the error function of the Python standard library.
    expect(chance).toBeCloseTo(0.6587841, 6);
    expect(far).toBeGreaterThan(10);
    expect(far).toBeLessThan(Math.hypot(1, 10));
  });

  test('a line beyond the tip is never reached; with an error in length it sometimes is', () => {
    const beyond = { from: { x: -9, y: 21 }, to: { x: 9, y: 21 } };
    expect(acrossLine(falling, beyond).chance).toBe(0);
    const long = acrossLine({ ...falling, body: { ...body, lengthError: 0.07 } }, beyond).chance;
    expect(long).toBeGreaterThan(0.1);
    expect(long).toBeLessThan(0.3);
  });

  test('two stems side by side with the same aim cross about as often as the second turns in more than the first', () => {
    // Parallel aims 3 m apart: they cross where the one to the right falls further left, and soon enough to meet.

    const right = { ...falling, stump: { x: 3, y: 0 } };
    const left = layings(falling, right.stump);
    const { chance } = acrossStem(right, left);
    const random = seeded(7);
    let crossed = 0;
    for (let fall = 0; fall < 200_000; fall += 1)
      if (
        cross(
          { x: 0, y: 0 },
          out({ x: 0, y: 0 }, 6 * normal(random), 20),
          { x: 3, y: 0 },
          out({ x: 3, y: 0 }, 6 * normal(random), 20),
        )
      )
        crossed += 1;
    expect(Math.abs(chance - crossed / 200_000)).toBeLessThan(fourErrors(chance, 200_000));
  });

  test('no slope known, or less than the limit: nothing is said to roll', () => {
    const { slope: _, ...flat } = inputs;
    expect(afterPlan(buildModel(flat), steps).rolling).toEqual([]);
    expect(afterPlan(buildModel({ ...inputs, slope: { percent: 15, aspect: 180 } }), steps).rolling).toEqual(
      [],
    );
  });
});
