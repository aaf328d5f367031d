// From a group to the numbers that its order is computed from. The groups are invented; what is expected follows from geometry.
import { describe, expect, test } from 'vitest';
import {
  ASSUMPTION_NAMES,
  ASSUMPTIONS,
  assume,
  buildModel,
  changedAssumptions,
  explain,
  FellingError,
  type GroupInputs,
  type GroupStem,
  planOrder,
} from '../../../src/felling/index.ts';
import { hangUpChance } from '../../../src/felling/model/hang-up.ts';
import { seeded } from '../../../src/felling/order/random.ts';

const stem = (id: string, x: number, y: number, more: Partial<GroupStem> = {}): GroupStem => ({
  id,
  label: id,
  x,
  y,
  dbh: 0.35,
  height: 20,
  ...more,
});
const leaning = (azimuth: number, amount = 0.8) => ({
  lean: { amount, azimuth, reference: 'true' as const },
});
const group = (stems: readonly GroupStem[], more: Partial<GroupInputs> = {}): GroupInputs => ({
  id: 'g',
  label: 'G1',
  stems,
  ...more,
});
const choicesOf = (inputs: GroupInputs, index = 0) => buildModel(inputs).problem.stems[index]?.choices ?? [];

/** A group of eight with everything around it, turned about the origin. */
function turnedBy(degrees: number): GroupInputs {
  const random = seeded(777);
  const radians = (degrees * Math.PI) / 180;
  const place = (size: number) => {
    const [x, y] = [size * (random() - 0.5), size * (random() - 0.5)];
    return {
      x: x * Math.cos(radians) + y * Math.sin(radians),
      y: y * Math.cos(radians) - x * Math.sin(radians),
    };
  };
  const stems = Array.from({ length: 8 }, (_, index) => {
    const { x, y } = place(26);
    return stem(`s${index}`, x, y, {
      ...leaning(360 * random() + degrees, 0.3 + random()),
      height: 16 + 8 * random(),
    });
  });
  return group(stems, {
    saplings: Array.from({ length: 12 }, (_, index) => ({
      id: `p${index}`,
      label: `p${index}`,
      ...place(40),
      radius: 0.3,
    })),
    leaveTrees: Array.from({ length: 5 }, (_, index) => ({
      id: `l${index}`,
      label: `l${index}`,
      ...place(50),
      dbh: 0.4,
    })),
    patches: [{ id: 'r', label: 'r', value: 6, ring: [place(30), place(30), place(30)] }],
    lines: [{ id: 't', label: 't', kind: 'trail', points: [place(60), place(60)] }],
    slope: { percent: 20, aspect: 100 + degrees },
  });
}

test.each([45, 90, 217, 300])('turning a whole group by %i° turns its aims and changes no chance', (by) => {
  const [still, turned] = [buildModel(turnedBy(0)), buildModel(turnedBy(by))];
  still.problem.stems.forEach(({ choices }, index) => {
    expect(choices.length).toBeGreaterThan(3);
    const others = turned.problem.stems[index]?.choices ?? [];
    expect(others).toHaveLength(choices.length);
    for (const choice of choices) {
      const aim = (choice.aim + by) % 360;
      const same = others.find((other) => Math.abs(((other.aim - aim + 540) % 360) - 180) < 1e-6);
      expect(same?.loss).toBeCloseTo(choice.loss, 3);
      const chance = hangUpChance(choice.segments, () => true);
      expect(hangUpChance(same?.segments ?? [], () => true)).toBeCloseTo(chance, 9);
    }
  });
});

describe('what stands in the way', () => {
  const two = group([stem('A', 0, 0, leaning(0)), stem('B', 0, 8, leaning(0))]);

  test('is in the segments of the one that falls towards it, and not the other way round', () => {
    const [toward] = choicesOf(two, 0);
    expect(toward?.aim).toBeCloseTo(0);
    expect(hangUpChance(toward?.segments ?? [], () => true)).toBeGreaterThan(0.1);
    expect(hangUpChance(toward?.segments ?? [], () => false)).toBe(0);
    const [away] = choicesOf(two, 1);
    expect(hangUpChance(away?.segments ?? [], () => true)).toBeLessThan(1e-6);
  });

  test('is no pole under 0.35 of the falling diameter: that is broken over, and said', () => {
    const model = buildModel(
      group([stem('A', 0, 0, leaning(0)), stem('B', 0, 8, { dbh: 0.12, ...leaning(0) })]),
    );
    expect(hangUpChance(model.problem.stems[0]?.choices[0]?.segments ?? [], () => true)).toBe(0);
    const { risks } = explain(model, 0, 0, () => true) ?? { risks: [] };
    expect(risks.map(({ what, label }) => `${what} ${label}`)).toContain('broken over B');
    expect(explain(model, 0, 0, (index) => index === 0)?.risks).toEqual([]);
  });

  test('is a leave tree whatever the order, and it is harmed as well', () => {
    const [choice] = choicesOf(
      group([stem('A', 0, 0, leaning(0))], { leaveTrees: [{ id: 'L', label: 'L', x: 0, y: 9, dbh: 0.4 }] }),
    );
    expect(choice?.loss).toBeGreaterThan(0.5);
    expect(hangUpChance(choice?.segments ?? [], () => false)).toBeGreaterThan(0.1);
  });
});

test('the loss of a choice is the sum of its risks, to the part in a thousand that is not printed', () => {
  const model = buildModel(turnedBy(0));
  model.problem.stems.forEach(({ choices }, index) => {
    choices.forEach(({ loss }, choice) => {
      const risks = explain(model, index, choice, () => true)?.risks ?? [];
      expect(Math.abs(loss - risks.reduce((sum, risk) => sum + risk.loss, 0))).toBeLessThan(0.02);
    });
  });
});

test('a sapling nearer to the aim widens the loss, and bounds the band to its side', () => {
  const inputs = (bearing: number) =>
    group([stem('A', 0, 0, leaning(0))], {
      saplings: [
        {
          id: 'p',
          label: 'maple',
          x: 10 * Math.sin((bearing * Math.PI) / 180),
          y: 10 * Math.cos((bearing * Math.PI) / 180),
        },
      ],
    });
  const losses = [0, 5, 15, 30].map((bearing) => choicesOf(inputs(bearing))[0]?.loss ?? 0);
  expect(losses).toEqual(losses.toSorted((a, b) => b - a));
  const said = explain(buildModel(inputs(15)), 0, 0, () => true);
  // asin(0.175 / 10) = 1.0027°, half the bole as seen at 10 m.
  expect(said?.band.right.degrees).toBeCloseTo(15 - 1.0027, 3);
  expect(said?.band.right.reaches?.label).toBe('maple');
  expect(said?.band.left).toEqual({ degrees: 90 });
  expect(said?.landmark).toBeUndefined();
});

test('a stump on the line is what to aim at', () => {
  const model = buildModel(group([stem('A', 0, 0, leaning(0)), stem('14', 0.5, 11.6)]));
  const { landmark } = explain(model, 0, 0, (index) => index === 0) ?? {};
  expect(landmark).toMatchObject({ kind: 'stump', label: '14' });
  expect(landmark?.distance).toBeCloseTo(11.61, 2);
  expect(landmark?.off).toBeCloseTo(-2.47, 2);
});

describe('what forbids a direction, or a stem', () => {
  test('a power line within reach takes every aim towards it', () => {
    const line = {
      id: 'w',
      label: 'the line',
      kind: 'power line' as const,
      points: [
        { x: -60, y: 15 },
        { x: 60, y: 15 },
      ],
    };
    const { stems } = buildModel(group([stem('A', 0, 0)], { lines: [line] }));
    expect(stems[0]?.aims.every(({ aim }) => Math.cos((aim * Math.PI) / 180) < 0.5)).toBe(true);
    expect(stems[0]?.aims.length).toBeGreaterThan(5);
    expect(stems[0]?.forbidden.some(({ aim, risk }) => aim === 0 && risk.what === 'power line')).toBe(true);
  });

  test('somebody at work within two lengths, a hung-up stem, and consent that is missing withhold the stem', () => {
    const at = { id: 'w', label: 'The landing', x: 0, y: 39 };
    expect(buildModel(group([stem('A', 0, 0)], { workPlaces: [at] })).stems[0]?.withheld).toMatch(
      /The landing/,
    );
    expect(
      buildModel(group([stem('A', 0, 0)], { workPlaces: [{ ...at, y: 41 }] })).stems[0]?.withheld,
    ).toBeUndefined();
    const hung = { id: 'h', label: 'A7', kind: 'hung-up' as const, x: 10, y: 0, height: 18 };
    const { stems, problem } = buildModel(group([stem('A', 0, 0), stem('B', 60, 0)], { hazards: [hung] }));
    expect(stems[0]?.withheld).toMatch(/hung-up stem \(A7\)/);
    expect(problem.stems.map(({ choices }) => choices.length > 0)).toEqual([false, true]);
    expect(buildModel(group([stem('A', 0, 0, { withheld: 'No consent yet.' })])).stems[0]?.withheld).toBe(
      'No consent yet.',
    );
  });
});

describe('a hazard in the group comes down first', () => {
  // Two tree lengths: US 29 CFR 1910.266(d)(6) and (h)(1), paragraph numbers from memory. All stems are 20 m tall.
  const inputs = (hazard: Partial<GroupStem>) =>
    group([stem('H', 0, 0, { hazardFirst: true, ...hazard }), stem('A', 0, 39), stem('B', 0, 41)]);

  test('before what stands within two tree lengths, of its own or of theirs', () => {
    expect(buildModel(inputs({})).problem.before).toEqual([[0, 1]]);
    expect(buildModel(inputs({ height: 21 })).problem.before).toEqual([
      [0, 1],
      [0, 2],
    ]);
  });

  test('and where it cannot be felled they stay too, and what is farther away is planned', () => {
    const { problem } = buildModel(inputs({ withheld: 'No consent yet.' }));
    const plan = planOrder(problem);
    expect(plan.steps.map(({ id }) => id)).toEqual(['B']);
    expect(plan.aside.find(({ id }) => id === 'A')).toMatchObject({ reason: 'waits', causes: [0] });
  });
});

describe('bad input is answered with what to do', () => {
  const message = (inputs: GroupInputs): string => {
    try {
      buildModel(inputs);
    } catch (error) {
      if (error instanceof FellingError) return `${error.field}: ${error.message}`;
      throw error;
    }
    return 'nothing';
  };
  const { height: _, ...unmeasured } = stem('A', 0, 0);
  test.each([
    ['no height and no curve', group([unmeasured]), /^height: Stem A has no height.*Measure it/],
    [
      'stems at the same point',
      group([stem('A', 1, 1), stem('B', 1, 1)]),
      /A and B stand at the same point.*again/,
    ],
    [
      'a sapling inside a stem',
      group([stem('A', 0, 0)], { saplings: [{ id: 'p', label: 'P', x: 0.1, y: 0 }] }),
      /P stands inside stem A.*6\.9 in \(18 cm\)/,
    ],
    [
      'a lean larger than the height',
      group([stem('A', 0, 0, leaning(0, 21))]),
      /^lean: Stem A leans 68\.9 ft \(21\.0 m\), and it is 65\.6 ft \(20\.0 m\)/,
    ],
    [
      'an azimuth without its north',
      group([stem('A', 0, 0, { lean: { amount: 1, azimuth: 10 } as never })]),
      /which north.*declination/,
    ],
    ['a closed group', group([stem('A', 0, 0)], { closed: true }), /G1 is closed/],
    ['a place that is no number', group([stem('A', Number.NaN, 0)]), /^position: A has no position/],
    [
      'an order for a stem that is not there',
      group([stem('A', 0, 0)], { before: [['A', 'Z']] }),
      /no stem Z/,
    ],
  ])('%s', (_name, inputs, expected) => {
    expect(message(inputs)).toMatch(expected);
  });
});

describe('assumptions', () => {
  test('each default lies in its own range and says what it rests on', () => {
    for (const name of ASSUMPTION_NAMES) {
      const one = ASSUMPTIONS[name];
      expect(one.value, name).toBeGreaterThanOrEqual(one.least);
      expect(one.value, name).toBeLessThanOrEqual(one.most);
      expect(one.says.endsWith('.'), name).toBe(true);
      expect('source' in one, name).toBe(one.basis === 'source');
    }
  });

  test('own values are laid over the defaults, and named', () => {
    const own = assume({ directionError: 8, hangUpLimit: 0.25 });
    expect(own.directionError).toBe(8);
    expect(changedAssumptions(own)).toMatchObject([{ name: 'directionError', value: 8, usual: 6 }]);
  });

  test('a name that is none and a value out of range are refused with the remedy', () => {
    expect(() => assume({ sigma: 4 })).toThrow(/no assumption called sigma.*directionError/);
    expect(() => assume({ wedgeShare: 1.5 })).toThrow(/wedgeShare of 1.5 is out of range.*Give 0.1 to 1/);
    expect(() => assume({ wedgeShare: Number.NaN })).toThrow(FellingError);
  });
});
