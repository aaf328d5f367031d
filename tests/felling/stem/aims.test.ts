// Which way a stem can be aimed. The limits are the defaults of the assumptions: common practice or guesses, no source.
import { describe, expect, test } from 'vitest';
import { assume, type GroupStem } from '../../../src/felling/index.ts';
import { filled } from '../../../src/felling/model/filled.ts';
import { aimAt, type Site } from '../../../src/felling/stem/aims.ts';

const assumed = assume();
/** 24 m high and 30 cm thick: 80 segments. */
const stem = (more: Partial<GroupStem>) =>
  filled({ id: 'A', label: 'A', x: 0, y: 0, dbh: 0.3, height: 24, ...more }, assumed);
const lean = (amount: number, amountError = 0) => ({
  lean: { amount, azimuth: 0, reference: 'true' as const, amountError },
});
const at = (given: Partial<GroupStem>, aim: number, site: Site = {}) =>
  aimAt(stem(given), aim, site, assumed);

test('with the lean up to 45° off, and further only with wedges', () => {
  expect(at(lean(0.4), 45)).toMatchObject({ method: 'with the lean', fromLean: 45, backLean: 0 });
  expect(at(lean(0.4), 315)).toMatchObject({ method: 'with the lean', fromLean: -45 });
  expect(at(lean(0.4), 50)).toMatchObject({ method: 'wedges' });
  expect(at(lean(0.4), 50, { tools: { wedges: false } })).toMatchObject({ why: 'back lean, no wedges' });
});

describe('straight against the lean', () => {
  test('1 m back lean is under half of what the table gives, and is worked out', () => {
    // OSHA table, 80 segments: 11 ft = 3.3528 m; half of it 1.6764 m. Lift 1 m ÷ (24 m ÷ (0.75 × 0.3 m)) = 9.375 mm.
    const aim = at(lean(1), 180);
    expect(aim).toMatchObject({ method: 'wedges', backLean: 1 });
    expect('wedges' in aim && aim.wedges?.allowed).toBeCloseTo(1.6764, 4);
    expect('wedges' in aim && aim.wedges?.lift).toBeCloseTo(0.009375, 6);
    // 6° and 1° for the 4.17 % of back lean each, and 1° for wedging: a guess.
    expect('directionError' in aim && aim.directionError).toBeCloseTo(6 + 100 / 24 + 1, 9);
  });

  test('the lean counts at its upper error', () => {
    expect(at(lean(1.4, 0.2), 180)).toMatchObject({ method: 'wedges' });
    expect(at(lean(1.4, 0.3), 180)).toMatchObject({ why: 'back lean beyond wedges' });
  });

  test('a stem too stout for the table gets no figure', () => {
    // 24 m ÷ 0.85 m = 28.2 segments; the first row is 30.
    expect(at({ ...lean(0.5), dbh: 0.85 }, 180)).toMatchObject({ why: 'back lean, no figure' });
  });

  test('a winch takes more, up to its own limit, and then with the pull', () => {
    const winch = { tools: { winch: true } };
    expect(at(lean(1.15), 180, winch)).toMatchObject({ method: 'wedges' });
    expect(at({ ...lean(1.15), dbh: 0.85 }, 180, winch)).toMatchObject({ method: 'winch', pull: 1.15 / 48 });
    expect(at({ ...lean(1.3), dbh: 0.85 }, 180, winch)).toMatchObject({ why: 'back lean beyond the winch' });
  });
});

test('side lean has a limit of its own: 2 % of the height', () => {
  // 1 m × sin 28° = 0.469 m is under 0.48 m, 1 m × sin 29° = 0.485 m over it.
  expect(at(lean(1), 28)).toMatchObject({ method: 'with the lean' });
  expect(at(lean(1), 29)).toMatchObject({ why: 'side lean' });
});

describe('decayed, seamed, forked and dead stems', () => {
  test.each([
    { decayed: true },
    { decay: { shell: 0.05 } },
    { seam: 90 },
    { fork: true },
    { deadTop: true },
    { dead: true },
  ])('go within 25° of their lean and nowhere else: %o', (weak) => {
    expect(at({ ...lean(0.5), ...weak }, 25)).toMatchObject({ method: 'with the lean' });
    expect(at({ ...lean(0.5), ...weak }, 30)).toMatchObject({ why: 'narrow band' });
    expect(at({ ...lean(0.5), ...weak }, 180, { tools: { winch: true } })).toMatchObject({
      why: 'narrow band',
    });
  });

  test('go nowhere where nobody noted the lean', () => {
    for (let aim = 0; aim < 360; aim += 5)
      expect(at({ decayed: true }, aim)).toMatchObject({ why: 'narrow band' });
  });

  test('fall less truly', () => {
    const error = (more: Partial<GroupStem>) => {
      const aim = at({ ...lean(0.5), ...more }, 0);
      return 'directionError' in aim ? aim.directionError : Number.NaN;
    };
    expect(error({})).toBe(6);
    expect(error({ decayed: true })).toBe(9);
    expect(error({ dead: true })).toBe(7.5);
  });
});

test('an upright stem goes any way with wedges, for what nobody measured of its lean', () => {
  for (let aim = 0; aim < 360; aim += 15)
    expect(at({}, aim)).toMatchObject({ method: 'wedges', backLean: 0.48 });
});

test('wind widens the error', () => {
  expect(at(lean(0.5), 0, { wind: 4 })).toMatchObject({ directionError: 8 });
});

test('on steep ground nothing is aimed up the slope, and what lies there can roll or slide', () => {
  const slope = { percent: 35, aspect: 180 };
  expect(at(lean(0.4), 0, { slope })).toMatchObject({ why: 'uphill' });
  expect(at({}, 90, { slope })).toMatchObject({ afterwards: ['can roll'] });
  expect(at({}, 180, { slope })).toMatchObject({ afterwards: ['can slide'] });
  expect(at({}, 180, { slope: { percent: 10, aspect: 180 } })).toMatchObject({ afterwards: [] });
});
