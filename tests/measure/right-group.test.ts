// Was it the right group to take? What is said, what is not, and what is refused.
import { describe, expect, it } from 'vitest';
import { compareDecay, type ExaminedStump } from '../../src/measure/right-group.ts';

const stumps = (decayed: number, sound: number): ExaminedStump[] => [
  ...Array.from({ length: decayed }, () => ({ decayed: true })),
  ...Array.from({ length: sound }, () => ({ decayed: false })),
];
const lengths = (...feet: number[]): ExaminedStump[] =>
  feet.map((upTheButt) => ({ decayed: true, upTheButt }));

describe('decay at the stumps of a group against the other examined stumps', () => {
  // Counts from the percentages of the study in North. J. Appl. For. 24(2), 2007 (abstract): red spruce, balsam fir.
  // Odds ratio, p value and interval are what R 4.2.2 gives for these counts: fixtures/statistics.
  it('finds in published counts of red spruce the odds ratio 3.66, from 1.97 to 6.83', () => {
    const { frequency } = compareDecay(stumps(25, 416), stumps(23, 1403), 'ft');
    expect(frequency).toMatchObject({
      group: { decayed: 25, examined: 441 },
      others: { decayed: 23, examined: 1426 },
      test: { p: expect.closeTo(1.597874e-5, 11) as number },
      sentence:
        'Decay was found at 25 of 441 examined stumps of the group and at 23 of 1426 others. The odds of decay in the group are 3.7 times (95 % interval 2 to 6.8) those of the others, p < 0.0001. Chance alone would seldom make such a difference.',
    });
  });

  it('finds in published counts of balsam fir the odds ratio 3.16, from 2.27 to 4.36', () => {
    const { frequency } = compareDecay(stumps(66, 353), stumps(138, 2333), 'ft');
    if ('notEnough' in frequency) throw new Error(frequency.notEnough);
    expect(frequency.test.oddsRatio).toBeCloseTo(3.159, 3);
    expect(frequency.test.interval.low).toBeCloseTo(2.27, 2);
    expect(frequency.test.interval.high).toBeCloseTo(4.364, 2);
  });

  it('says that no difference fits the numbers too when the interval has 1 in it', () => {
    const { frequency } = compareDecay(stumps(3, 2), stumps(4, 6), 'ft');
    expect(frequency).toMatchObject({
      sentence: expect.stringContaining('no difference fits these numbers too') as string,
    });
  });

  it('has no upper end of the odds where all stumps of the group and none of the others are decayed', () => {
    const { frequency } = compareDecay(stumps(4, 0), stumps(0, 4), 'ft');
    expect(frequency).toMatchObject({ test: { p: expect.closeTo(2 / 70, 12) as number } });
    expect(frequency).toMatchObject({ sentence: expect.stringContaining('no upper end') as string });
  });

  it('says that the groups do not differ when nothing was found anywhere', () => {
    const { frequency } = compareDecay(stumps(0, 6), stumps(0, 9), 'ft');
    expect(frequency).toMatchObject({ sentence: expect.stringContaining('do not differ') as string });
  });

  it('says "too few to say" with three on either side, where not even the most extreme outcome would be rare', () => {
    expect(compareDecay(stumps(3, 0), stumps(0, 30), 'ft').frequency).toEqual({
      notEnough:
        'not enough data: too few to say: 3 in the group and 30 elsewhere; examined stumps are needed, 4 at least on either side.',
    });
  });

  it('compares how far up the butt the decay goes at the stumps where it was found and measured', () => {
    const group = [...lengths(3, 4, 5.5, 6), ...stumps(1, 3)];
    const others = [...lengths(0.5, 1, 2, 2.5), ...stumps(0, 5)];
    const { length } = compareDecay(group, others, 'ft');
    // All sixteen differences, by hand: the two in the middle are 3 and 3.5, the least 0.5, the greatest 5.5.
    expect(length).toMatchObject({
      group: { measured: 4, decayed: 5, median: 4.75 },
      others: { measured: 4, decayed: 4, median: 1.5 },
      test: { shift: 3.25, u: 16, interval: { low: 0.5, high: 5.5 } },
      sentence:
        'Where decay was measured, at 4 stumps of the group and 4 others, it goes 3.3 ft farther up the butt in the group (97.1 % interval of the difference 0.5 to 5.5 ft), p = 0.029. Chance alone would seldom make such a difference.',
    });
  });

  it('says always that groups were not chosen at random and that stumps not examined say nothing', () => {
    const { remarks } = compareDecay([], [], 'ft');
    expect(remarks.join(' ')).toMatch(/not chosen at random.*nobody examined say nothing/);
  });

  it('refuses a negative length, naming it', () => {
    expect(() => compareDecay(lengths(-1), [], 'ft')).toThrow('upTheButt: -1 is no length');
  });

  it('gives no verdict in any of its sentences', () => {
    const { frequency, length } = compareDecay(lengths(3, 4, 5, 6), lengths(1, 1.5, 2, 2.5), 'ft');
    expect(JSON.stringify([frequency, length])).not.toMatch(/\b(right|wrong|good|bad|should|justified)\b/i);
  });
});
