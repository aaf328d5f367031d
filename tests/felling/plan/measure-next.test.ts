// What to measure first: against everything made anew by another road, and where it is plain which measurement decides.
import { describe, expect, test } from 'vitest';
import {
  assume,
  buildModel,
  type FellingModel,
  type GroupInputs,
  type OrderPlan,
  planOrder,
  seeded,
} from '../../../src/felling/index.ts';
import { inputsOtherwise, modelOtherwise } from '../../../src/felling/model/otherwise.ts';
import { heldAgainst } from '../../../src/felling/plan/held.ts';
import { measurables } from '../../../src/felling/plan/measurable.ts';
import { measureFirst } from '../../../src/felling/plan/measure-next.ts';

/** An invented group of three or four stems among leave trees and saplings, hardly anything of it measured well. */
function invented(seed: number): GroupInputs {
  const random = seeded(seed);
  for (let skip = 0; skip < 10; skip += 1) random();
  const place = (room: number) => ({ x: room * random(), y: room * random() });
  return {
    id: 'G',
    label: 'G',
    stems: Array.from({ length: 3 + (seed % 2) }, (_, index) => ({
      ...place(9),
      id: `${index}`,
      label: `${index}`,
      positionError: 0.4,
      dbh: 0.25 + 0.2 * random(),
      height: 15 + 8 * random(),
      ...(random() < 0.5 ? { fork: true as const } : {}),
      ...(random() < 0.6 ? { heightEstimated: true as const } : {}),
      ...(random() < 0.5 ? { crownRadius: 2 + 2 * random() } : {}),
      ...(random() < 0.7
        ? { lean: { amount: 0.8 * random(), azimuth: 360 * random(), reference: 'true' as const } }
        : {}),
    })),
    leaveTrees: Array.from({ length: 24 }, (_, index) => ({
      ...place(30),
      id: `L${index}`,
      label: `L${index}`,
      dbh: 0.3,
      positionError: 0.3,
    })).map(({ x, y, ...tree }) => ({ ...tree, x: x - 10, y: y - 10 })),
    saplings: [{ id: 's', label: 's', x: 4, y: 13, positionError: 0.5 }],
  };
}

const keptAims = ({ inputs }: FellingModel, { steps }: OrderPlan) =>
  new Map(steps.map(({ stem, aim }) => [inputs.stems[stem]?.id ?? '', aim]));

describe('against everything made anew', () => {
  test.each([1, 2, 3, 4])(
    'the whole model built again for each outcome is the one that was put together, group %i',
    (seed) => {
      const model = buildModel(invented(seed));
      const plan = planOrder(model.problem);
      const aims = keptAims(model, plan);
      const all = measurables(model, new Set(['s', 'L0', 'L1']));
      expect(all.length).toBeGreaterThan(8);
      for (const { what, outcomes } of all)
        for (const { how, change } of outcomes) {
          const whole = buildModel(inputsOtherwise(model.inputs, change), model.assumed, aims).problem;
          const parts = modelOtherwise(model, change, aims)?.problem;
          expect(parts, `${what.what} of ${what.label} ${how.says}`).toEqual(whole);
        }
    },
  );

  test.each([8, 12, 14])('the ranking is the one of plans made anew and compared here, group %i', (seed) => {
    const model = buildModel(invented(seed));
    const plan = planOrder(model.problem);
    const { measurements, lookedAt, plannedAnew } = measureFirst(model, plan, ({ problem }) => problem);
    expect(plannedAnew).toBe(lookedAt);
    const brute = new Map<string, Weights>();
    const reached = new Set(measurements.map(({ what }) => what.id));
    for (const { what, outcomes } of measurables(model, reached)) {
      const weights = outcomes.map(({ change }) =>
        weightsOf(model, plan, inputsOtherwise(model.inputs, change)),
      );
      brute.set(`${what.what} of ${what.id}`, weights.sort(heavier)[0] as Weights);
    }
    const told = measurements.map(({ what }) => `${what.what} of ${what.id}`);
    expect(told.length).toBeGreaterThanOrEqual(4);
    const ranked = told.map((name) => brute.get(name) as Weights);
    ranked.slice(1).forEach((weights, index) => {
      const before = ranked[index] as Weights;
      expect(heavier(before, weights), `${told[index]} before ${told[index + 1]}`).toBeLessThanOrEqual(1e-9);
    });
    // And nothing heavier was left out.
    for (const [name, weights] of brute)
      if (!told.includes(name)) expect(Math.max(...weights), name).toBeLessThan(0.0051);
  });

  test('held against an outcome without planning anew, the same falls are over the limit and as many hang-ups are expected', () => {
    const model = buildModel(invented(10));
    const plan = planOrder(model.problem);
    let compared = 0;
    for (const { what, outcomes } of measurables(model, new Set(['L0', 'L1'])))
      for (const { how, change } of outcomes) {
        const held = heldAgainst(model, plan, change);
        const [over] = weightsOf(model, plan, inputsOtherwise(model.inputs, change));
        const name = `${what.what} of ${what.label} ${how.says}`;
        expect(held.overLimit.length, name).toBe(over);
        if (over === 0) expect(held.hangUps, name).toBeCloseTo(keptHangUps - plan.totals.hangUps, 9);
        compared += 1;
      }
    expect(compared).toBeGreaterThan(20);
  });
});

/** Falls over the limit, stems set aside or taken up, and what keeping to the plan costs: hang-ups and loss. */
type Weights = readonly [number, number, number, number];
/** What the plan that was kept to costs under the weights worked out last. */
let keptHangUps = 0;

/** All is built and planned anew, and both plans are priced here from their segments. */
function weightsOf(model: FellingModel, plan: OrderPlan, inputs: GroupInputs): Weights {
  const { problem } = buildModel(inputs, model.assumed, keptAims(model, plan));
  const fresh = planOrder(problem);
  const price = (steps: readonly { id: string; aim: number }[]) => {
    const standing = new Set(problem.stems.map((_, stem) => stem));
    let [over, hangUps, loss] = [0, 0, 0];
    for (const { id, aim } of steps) {
      const at = problem.stems.findIndex((one) => one.id === id);
      standing.delete(at);
      const off = (one: { aim: number }) => Math.abs(((one.aim - aim + 540) % 360) - 180);
      const [nearest] = [...(problem.stems[at]?.choices ?? [])].sort((a, b) => off(a) - off(b));
      if (nearest === undefined) {
        over += 1;
        continue;
      }
      let through = 1;
      for (const { weight, always, holds } of nearest.segments)
        through -=
          weight *
          (1 -
            holds
              .filter(({ stem }) => standing.has(stem))
              .reduce((past, { survival }) => past * survival, always));
      if (off(nearest) > 5 || 1 - through > problem.limit + 1e-9) over += 1;
      hangUps += 1 - through;
      loss += nearest.loss;
    }
    return { over, hangUps, loss };
  };
  const [old, anew] = [price(plan.steps), price(fresh.steps)];
  keptHangUps = old.hangUps;
  const aside = (one: OrderPlan) => one.aside.map(({ id }) => id);
  const moved = [...aside(plan), ...aside(fresh)].filter(
    (id) => !(aside(plan).includes(id) && aside(fresh).includes(id)),
  );
  const same = plan.steps.length === fresh.steps.length && moved.length === 0;
  const more = (now: number, then: number) => (same ? Math.max(0, now - then) : 0);
  return [old.over, moved.length, more(old.hangUps, anew.hangUps), more(old.loss, anew.loss)];
}

function heavier(a: Weights, b: Weights): number {
  for (const index of [0, 1, 2, 3] as const) {
    const apart = b[index] - a[index];
    if (Math.abs(apart) > 1e-9) return apart;
  }
  return 0;
}

describe('where it is plain', () => {
  // A rotten stem that can only go north, and a row of leave trees just beyond its tip; another stem stands far off.
  const group: GroupInputs = {
    id: 'G',
    label: 'G',
    stems: [
      {
        id: 'A',
        label: 'A14',
        x: 0,
        y: 0,
        dbh: 0.4,
        height: 20,
        heightEstimated: true,
        crownRadius: 2,
        decayed: true,
        lean: { amount: 1, azimuth: 0, reference: 'true', amountError: 0.05 },
      },
      {
        id: 'B',
        label: 'B',
        x: 100,
        y: 0,
        dbh: 0.4,
        height: 20,
        crownRadius: 2,
        lean: { amount: 1, azimuth: 0, reference: 'true', amountError: 0.05 },
      },
    ],
    leaveTrees: Array.from({ length: 41 }, (_, index) => {
      const azimuth = ((index - 20) * 3 * Math.PI) / 180;
      return {
        id: `L${index}`,
        label: `L${index}`,
        x: 22.5 * Math.sin(azimuth),
        y: 22.5 * Math.cos(azimuth),
        dbh: 0.7,
        crownRadius: 2,
      };
    }),
  };

  test('the height of a stem that would reach a row of trees if it were higher is told first, and what it would do', () => {
    const model = buildModel(group, assume({ boleHolds: 0.9 }));
    const plan = planOrder(model.problem);
    expect(plan.steps).toHaveLength(2);
    const [first, ...others] = measureFirst(model, plan, ({ problem }) => problem).measurements;
    expect(first).toMatchObject({
      what: { id: 'A', label: 'A14', what: 'height', basis: 'from the curve', value: 20 },
      how: { says: 'is one error higher' },
      overLimit: ['A'],
      setAside: ['A'],
    });
    // sqrt(0.12² − 0.07²): what measuring takes away of the error of the felled length.
    expect(first?.what.error).toBeCloseTo(20 * 0.09747, 3);
    for (const { overLimit } of others) expect(overLimit).toEqual([]);
  });

  test.each([
    [10, 6],
    [15, 0],
  ])(
    'it is told first among %i falls too, where the plan is made anew for %i things or for none',
    (falls, anew) => {
      const [, far] = group.stems;
      const more = Array.from({ length: falls - 2 }, (_, index) => ({
        ...(far as GroupInputs['stems'][number]),
        id: `F${index}`,
        label: `F${index}`,
        x: 200 + 100 * index,
      }));
      const model = buildModel({ ...group, stems: [...group.stems, ...more] }, assume({ boleHolds: 0.9 }));
      const plan = planOrder(model.problem);
      expect(plan.steps).toHaveLength(falls);
      const { measurements, lookedAt, plannedAnew } = measureFirst(model, plan, ({ problem }) => problem);
      expect(lookedAt).toBeGreaterThan(6);
      expect(plannedAnew).toBe(anew);
      expect(measurements[0]).toMatchObject({
        what: { id: 'A', what: 'height' },
        how: { says: 'is one error higher' },
        overLimit: ['A'],
        setAside: anew === 0 ? [] : ['A'],
      });
    },
  );

  test('once it is measured it is not asked for any more', () => {
    const [{ heightEstimated: _, ...measured }, ...rest] = group.stems as [GroupInputs['stems'][number]];
    const model = buildModel({ ...group, stems: [measured, ...rest] }, assume({ boleHolds: 0.9 }));
    const { measurements } = measureFirst(model, planOrder(model.problem), ({ problem }) => problem);
    expect(measurements.filter(({ what }) => what.what === 'height')).toEqual([]);
  });
});
