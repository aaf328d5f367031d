// The habits that a plan is compared with, and what a change of one measurement tells.
import { describe, expect, it } from 'vitest';
import {
  bestOfRandom,
  carefulGreedy,
  judged,
  mostTelling,
  planOrder,
  toTheOpenSide,
  withTheLean,
} from '../../../src/felling/index.ts';
import { inventedGroup } from './woods.ts';

const group = inventedGroup(9, 7);
const plan = planOrder(group);
const felled = plan.steps.map(({ stem }) => stem);
/** The middle aim of an invented group is its lean. */
const at = group.stems.map(({ choices }, stem) => ({
  x: 3 * (stem % 3),
  y: 3 * Math.floor(stem / 3),
  lean: choices[9]?.aim ?? 0,
}));

describe('a habit', () => {
  it('fells each stem once, and never beats the least sum of hang-up chances without a fall over the limit', () => {
    let within = 0;
    for (const sequence of [
      withTheLean(group, at, felled),
      toTheOpenSide(group, at, felled),
      bestOfRandom(group, felled, 1),
      carefulGreedy(group, felled),
    ]) {
      expect(sequence.map(({ stem }) => stem).sort((a, b) => a - b)).toEqual(
        felled.toSorted((a, b) => a - b),
      );
      const { hangUps, overLimit } = judged(group, sequence);
      if (overLimit > 0) continue;
      within += 1;
      expect(hangUps).toBeGreaterThanOrEqual(plan.levels.hangUps.found - 1e-9);
    }
    expect(within).toBeGreaterThan(0);
  });

  it('fells with the lean, and next the nearest', () => {
    const sequence = withTheLean(group, at, [0, 1, 2]);
    expect(sequence).toEqual([
      { stem: 0, choice: 9 },
      { stem: 1, choice: 9 },
      { stem: 2, choice: 9 },
    ]);
  });

  it('is judged as the plan judges itself', () => {
    const { hangUps, loss, without, overLimit } = judged(group, plan.steps);
    expect(hangUps).toBeCloseTo(plan.totals.hangUps, 9);
    expect(loss).toBeCloseTo(plan.totals.loss, 9);
    expect(without).toBeCloseTo(plan.totals.without, 9);
    expect(overLimit).toBe(0);
  });
});

describe('of two measurements', () => {
  it('the one that puts a planned fall over the limit is told before the one that changes nothing', () => {
    const first = plan.steps[0]?.stem ?? 0;
    const worse = () => ({
      ...group,
      stems: group.stems.map((one, stem) =>
        stem === first
          ? {
              ...one,
              choices: one.choices.map((choice) => ({
                ...choice,
                segments: [{ weight: 1, always: 0.5, holds: [] }],
              })),
            }
          : one,
      ),
    });
    const [telling, silent] = mostTelling(plan, [
      { what: 'height of the last', outcomes: [{ how: 'as it is', rebuild: () => group }] },
      {
        what: 'lean of the first',
        outcomes: [
          { how: 'less', rebuild: () => group },
          { how: 'more', rebuild: worse },
        ],
      },
    ]);
    const id = group.stems[first]?.id;
    expect(telling).toMatchObject({
      what: 'lean of the first',
      how: 'more',
      overLimit: [id],
      setAside: [id],
      changed: true,
    });
    expect(silent).toEqual({
      what: 'height of the last',
      how: 'as it is',
      overLimit: [],
      lost: [],
      setAside: [],
      takenUp: [],
      kept: { hangUps: expect.closeTo(0, 9) as number, loss: expect.closeTo(0, 9) as number },
      more: { hangUps: 0, loss: 0 },
      changed: false,
    });
  });
});
