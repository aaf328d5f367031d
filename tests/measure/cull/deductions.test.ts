// Defects: never less than nothing, never more than the log.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Cull,
  crook,
  doyle,
  interiorDefect,
  lengthCut,
  netVolume,
  scribnerDecimalC,
  sectorCut,
  soundShell,
  squaredDefect,
  sweep,
} from '../../../src/measure/index.ts';
import { given, missing, number } from '../figures.ts';

const inches = fc.double({ min: 0.1, max: 60, noNaN: true });
const feet = fc.double({ min: 0.1, max: 40, noNaN: true });

const anyCull = fc
  .record({
    affected: feet,
    length: feet,
    one: inches,
    other: inches,
    smallEnd: inches,
    degrees: fc.integer({ min: 0, max: 360 }),
  })
  .chain(({ affected, length, one, other, smallEnd, degrees }) =>
    fc.constantFrom<Cull>(
      given(lengthCut({ affected, length })),
      given(sectorCut({ affected, length }, degrees)),
      given(sweep(one, smallEnd)),
      given(crook({ affected, length }, one, smallEnd)),
      given(interiorDefect({ affected, length }, { across: one, other }, smallEnd)),
    ),
  );

test('any single defect takes between nothing and all of the log', () => {
  fc.assert(
    fc.property(anyCull, ({ value }) => {
      expect(value).toBeGreaterThanOrEqual(0);
      expect(value).toBeLessThanOrEqual(1);
    }),
  );
});

test('defects together take between nothing and the gross, and net and deduction make up the gross', () => {
  fc.assert(
    fc.property(fc.array(anyCull, { maxLength: 5 }), inches, (culls, diameter) => {
      const gross = given(doyle(diameter, 16));
      const { deducted, net } = given(netVolume(gross, culls));
      expect(deducted.value).toBeGreaterThanOrEqual(0);
      expect(deducted.value).toBeLessThanOrEqual(gross.value);
      expect(net.value).toBeGreaterThanOrEqual(0);
      expect(net.value + deducted.value).toBeCloseTo(gross.value, 9);
    }),
  );
});

describe('an interior defect', () => {
  test('wider than the small end less 2 in takes the affected length whole', () => {
    const along = { affected: 16, length: 16 };
    expect(number(interiorDefect(along, { across: 10.1, other: 3 }, 12))).toBe(1);
    expect(number(interiorDefect(along, { across: 3, other: 10.1 }, 12))).toBe(1);
    expect(number(interiorDefect({ affected: 4, length: 16 }, { across: 11, other: 11 }, 12))).toBe(0.25);
    expect(number(interiorDefect(along, { across: 9.9, other: 3 }, 12))).toBeLessThan(1);
  });

  test('takes no less when it is wider or longer', () => {
    fc.assert(
      fc.property(inches, inches, feet, feet, inches, (one, other, part, more, smallEnd) => {
        const [narrow, wide] = [Math.min(one, other), Math.max(one, other)];
        const of = (core: number, affected: number) =>
          number(interiorDefect({ affected, length: 40 }, { across: core, other: core }, smallEnd));
        expect(of(wide, part)).toBeGreaterThanOrEqual(of(narrow, part) - 1e-12);
        expect(of(wide, part + more)).toBeGreaterThanOrEqual(of(wide, part) - 1e-12);
      }),
    );
  });

  test('of no size takes nothing', () => {
    expect(number(interiorDefect({ affected: 8, length: 16 }, { across: 0, other: 0 }, 12))).toBe(0);
  });
});

test('sweep of up to 2 in takes nothing', () => {
  expect([0, 1, 2].map((departure) => number(sweep(departure, 12)))).toEqual([0, 0, 0]);
});

describe('net volume', () => {
  const gross = given(scribnerDecimalC(16, 16));

  test('takes a squared defect in board feet of the same rule', () => {
    const square = given(squaredDefect({ width: 4, height: 4, length: 8 }, 'scribner-decimal-c'));
    expect(number(given(netVolume(gross, [square])).net)).toBeCloseTo(160 - 13.333, 3);
  });

  test('refuses a deduction by another rule', () => {
    const square = given(squaredDefect({ width: 4, height: 4, length: 8 }, 'scribner'));
    // @ts-expect-error A deduction by Scribner is none by Decimal C.
    expect(missing(netVolume(gross, [square]))).toContain(
      'scaled by Scribner Decimal C, the deduction by Scribner',
    );
  });

  test('says how it came about, and hands on what is missing', () => {
    const { net, deducted } = given(
      netVolume(gross, [given(lengthCut({ affected: 4, length: 16 })), given(sweep(5, 16))]),
    );
    expect(net.value).toBeCloseTo(160 * (1 - 0.25 - 3 / 16), 9);
    expect(net.method).toContain('less length cut, l / L; less sweep');
    expect(deducted.source).toContain('from memory');
    expect(missing(netVolume(gross, [lengthCut({ affected: 4, length: 0 })]))).toContain('length of the log');
    expect(number(given(netVolume(gross, [])).net)).toBe(160);
  });
});

describe('the sound shell', () => {
  test('loses area before it loses strength', () => {
    fc.assert(
      fc.property(inches, fc.double({ min: 0, max: 1, noNaN: true }), (diameter, share) => {
        const shell = given(soundShell(diameter, (diameter / 2) * share));
        expect(shell.strengthLeft).toBeGreaterThanOrEqual(1 - shell.hollowShare - 1e-12);
        expect(shell.strengthLeft).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('thicker than the stem is refused', () => {
    expect(missing(soundShell(10, 5.1))).toContain('over 5');
  });
});
