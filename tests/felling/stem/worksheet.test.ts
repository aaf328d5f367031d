// The worksheet of a stem: notch, hinge, sapling at the stump, ways out.
import { describe, expect, test } from 'vitest';
import {
  assume,
  escapeRoutes,
  type GroupStem,
  hingeWorksheet,
  sawSides,
} from '../../../src/felling/index.ts';
import { filled } from '../../../src/felling/model/filled.ts';

const INCH = 0.0254;
const stem = (more: Partial<GroupStem> = {}) =>
  filled({ id: 'A', label: 'A', x: 0, y: 0, dbh: 0.4, height: 22, ...more }, assume());

describe('a sound stem', () => {
  // Hinge about 10 % thick and 80 % long: advice printed at loggingon.net; for 15 in it names a hinge of 12 in.
  test.each([
    [8, 0.8, 6.4],
    [12, 1.2, 9.6],
    [15, 1.5, 12],
    [16, 1.6, 12.8],
    [20, 2, 16],
  ])('%i in thick: hinge %d in thick and %d in long', (diameter, thick, long) => {
    const { hinge, stop, objections } = hingeWorksheet(stem({ dbh: diameter * INCH }), 90);
    expect(hinge.thickness / INCH).toBeCloseTo(thick, 9);
    expect(hinge.wanted / INCH).toBeCloseTo(long, 9);
    expect(hinge.sound).toBeCloseTo(hinge.wanted, 6);
    expect([...stop, ...objections]).toEqual([]);
  });

  test('a notch of a quarter of the diameter, its opening by the method, and never deeper than a third', () => {
    const open = hingeWorksheet(stem(), 0, 'open face');
    expect(open.notch).toEqual({ depth: 0.1, usual: 0.1, most: 0.4 / 3, opening: 70 });
    expect(hingeWorksheet(stem(), 0, 'conventional').notch.opening).toBe(45);
    // OSHA directive CPL 2-1.22: a Humboldt notch is usually not above 45°, and the rule on the back cut above it holds.
    const humboldt = hingeWorksheet(stem(), 0, 'humboldt');
    expect(humboldt.notch.opening).toBeLessThanOrEqual(45);
    expect(humboldt.cutAbove).toBeGreaterThan(0);
  });

  test('a bore behind the hinge leaves a strap at the back, and the three make up the diameter with the notch', () => {
    const { notch, hinge, bore } = hingeWorksheet(stem(), 0);
    expect(notch.depth + hinge.thickness + (bore?.through ?? 0) + (bore?.strap ?? 0)).toBeCloseTo(0.4, 9);
    expect(bore?.strapIsSound).toBe(true);
  });
});

describe('rot in the section', () => {
  // A chord at distance y from the middle is 2√(R² − y²) long; of it 2√(c² − y²) is core. R = 0.2 m.
  const chord = (radius: number, y: number) => 2 * Math.sqrt(Math.max(0, radius ** 2 - y ** 2));

  test('a core leaves what chords of two circles leave, and strength by t/R = 0.3 is 76 %', () => {
    const sheet = hingeWorksheet(stem({ decay: { shell: 0.06 } }), 0);
    const depths = [0, 0.25, 0.5, 0.75, 1].map((part) => 0.2 - sheet.notch.depth - part * 0.04);
    const left = Math.min(...depths.map((y) => chord(0.2, y) - chord(0.14, y)));
    expect(sheet.hinge.sound).toBeCloseTo(Math.min(0.32, left), 2);
    // Huang et al. 2017, R. Soc. Open Sci. 4:160972, Fig. 6.
    expect(sheet.shell?.strengthLeft).toBeCloseTo(0.76, 3);
    expect(sheet.objections.join(' ')).toMatch(/shorter in sound wood/);
  });

  test('a thin shell is a reason to stop, and to get help', () => {
    const { stop } = hingeWorksheet(stem({ decay: { shell: 0.02 } }), 0);
    expect(stop.join(' ')).toMatch(/% of the wanted hinge is sound wood.*Stop.*trained/);
  });

  test('a pocket towards the aim: the notch goes through it, up to its limit', () => {
    const pocket = (pocketDepth: number) =>
      hingeWorksheet(stem({ decay: { pocketAzimuth: 90, pocketDepth, pocketWidth: 60 } }), 90);
    const near = pocket(0.11);
    expect(near.notch.depth).toBeGreaterThan(near.notch.usual);
    expect(near.notch.depth).toBeLessThanOrEqual(near.notch.most);
    expect(near.hinge.sound).toBeCloseTo(near.hinge.wanted, 2);
    expect(near.objections.join(' ')).toMatch(/deeper than usual/);
    // Twice as deep it cannot be passed: the notch stays within its limit, and the hinge is short.
    const deep = pocket(0.19);
    expect(deep.notch.depth).toBeLessThanOrEqual(deep.notch.most);
    expect(deep.hinge.sound).toBeLessThan(deep.hinge.wanted);
  });

  test('a pocket at the back rots the strap, and leaves the hinge', () => {
    const sheet = hingeWorksheet(
      stem({ decay: { pocketAzimuth: 270, pocketDepth: 0.08, pocketWidth: 120 } }),
      90,
    );
    expect(sheet.hinge.sound).toBeCloseTo(sheet.hinge.wanted, 6);
    expect(sheet.bore?.strapIsSound).toBe(false);
  });

  test('the notch passes one seam that the hinge would cross; of two, one to each side, it leaves what geometry leaves', () => {
    // Aimed north, seams at 60° and 300°. A seam of 5° to each side at 60° takes from x = y tan 55° to x = y tan 65° on a line
    // y ahead of the middle, as far as the line goes.
    const tan = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
    const left = (depth: number, seams: number) =>
      Math.min(
        0.32,
        ...[0, 0.25, 0.5, 0.75, 1].map((part) => {
          const y = 0.2 - depth - part * 0.04;
          const half = chord(0.2, y) / 2;
          return 2 * half - seams * Math.max(0, Math.min(half, y * tan(65)) - y * tan(55));
        }),
      );
    const one = hingeWorksheet(stem({ seam: [60] }), 0);
    expect(left(one.notch.usual, 1)).toBeLessThan(0.315);
    expect(one.notch.depth).toBeGreaterThan(one.notch.usual);
    expect(one.hinge.sound).toBeCloseTo(0.32, 2);
    const two = hingeWorksheet(stem({ seam: [60, 300] }), 0);
    expect(two.notch.depth).toBeGreaterThan(one.notch.usual);
    expect(two.hinge.sound).toBeCloseTo(left(two.notch.depth, 2), 2);
    expect(two.hinge.sound).toBeLessThan(0.3);
    expect(two.objections.join(' ')).toMatch(/shorter in sound wood/);
  });

  test('decay that nobody measured, and a seam that nobody knows the side of, are reasons to stop', () => {
    expect(hingeWorksheet(stem({ decayed: true }), 0).stop.join(' ')).toMatch(/nobody measured/);
    expect(hingeWorksheet(stem({ seam: true }), 0).stop.join(' ')).toMatch(/which way it faces/);
    expect(hingeWorksheet(stem({ seam: 90 }), 0).objections.join(' ')).toMatch(/split upward/);
  });
});

describe('a sapling at the stump', () => {
  const sides = (
    x: number,
    y: number,
    more: Partial<GroupStem> = {},
    slope?: { percent: number; aspect: number },
  ) => {
    const one = stem(more);
    const { routes } = escapeRoutes(one.stem, 0, [{ label: 'B', x: -3, y: -3, radius: 0.2 }], slope);
    return sawSides(one, hingeWorksheet(one, 0), [{ id: 'p', label: 'maple', x, y }], {
      routes,
      ...(slope === undefined ? {} : { slope }),
    })[0];
  };

  test('ahead of the hinge no side of the saw keeps it', () => {
    expect(sides(0.05, 0.3)).toMatchObject({ lies: 'ahead', on: 'right' });
    expect(sides(0.05, 0.3)?.from).toBeUndefined();
  });

  test('beside or behind it, the bore comes from the other side', () => {
    expect(sides(0.3, 0.08)).toMatchObject({ lies: 'beside', on: 'right', from: 'left' });
    expect(sides(0.2, -0.25)).toMatchObject({ lies: 'behind', on: 'right', from: 'left' });
    expect(sides(-0.2, -0.25)).toMatchObject({ lies: 'behind', on: 'left', from: 'right' });
  });

  test('what speaks against that side is said: lean, slope, a blocked way out', () => {
    const lean = { amount: 0.6, azimuth: 270, reference: 'true' as const };
    const { against } =
      sides(0.3, -0.1, { lean, above: ['hanging limb'] }, { percent: 25, aspect: 270 }) ?? {};
    const left = against?.left.join(' ');
    expect(left).toMatch(/leans 23\.6 in \(60 cm\) to the left/);
    expect(left).toMatch(/downhill/);
    expect(left).toMatch(/way out to the left is blocked by B/);
    expect(left).toMatch(/Noted above it: hanging limb/);
    // The other side has its own: the sapling, and what hangs above hangs there too.
    const right = against?.right.join(' ');
    expect(right).toMatch(/maple stands on that side/);
    expect(right).toMatch(/hanging limb/);
    expect(right).not.toMatch(/downhill|leans|blocked/);
    expect(sides(0.3, -0.1)?.against.left.join(' ')).toMatch(/Nobody noted which way/);
  });

  test('farther off it is no matter of the saw', () => {
    expect(sides(1.5, 0)).toBeUndefined();
  });

  test('nothing that is said calls a side safe', () => {
    const words = [sides(0.05, 0.3), sides(0.3, 0.08), sides(-0.2, -0.25)]
      .flatMap((side) => [side?.note ?? '', ...(side?.against.left ?? []), ...(side?.against.right ?? [])])
      .join(' ');
    expect(words).not.toMatch(/\bsafe/i);
  });
});

describe('ways out', () => {
  test('lead 45° to both sides of straight back, 25 ft (Oregon OAR 437-007-0810)', () => {
    const { routes, noneClear } = escapeRoutes({ x: 0, y: 0 }, 30, []);
    expect(routes.map(({ side, azimuth }) => `${side} ${azimuth}`)).toEqual(['left 255', 'right 165']);
    expect(routes[0].length / 0.3048).toBeCloseTo(25, 9);
    expect(noneClear).toBeUndefined();
  });

  test('are blocked by what stands in them, and where both are, that is said', () => {
    // Aiming north the ways lead south-west (left) and south-east (right).
    const near = { label: 'B', x: -3, y: -3.3, radius: 0.2 };
    const one = escapeRoutes({ x: 0, y: 0 }, 0, [near, { label: 'far', x: -7, y: -7, radius: 0.2 }]);
    expect(one.routes[0].blockedBy.map(({ label }) => label)).toEqual(['B']);
    expect(one.routes[1].blockedBy).toEqual([]);
    expect(one.noneClear).toBeUndefined();
    const both = escapeRoutes({ x: 0, y: 0 }, 0, [near, { label: 'C', x: 4, y: -4, radius: 0.2 }]);
    expect(both.noneClear).toMatch(/Neither way out is clear/);
  });

  test('are not blocked by what grows at the other side of the stump', () => {
    // Aiming north the ways lead south-west and south-east; a sapling close by in the south-east is in the second only.
    const near = { label: 's1', x: 0.32, y: -0.28, radius: 0 };
    const { routes } = escapeRoutes({ x: 0, y: 0 }, 0, [near, { label: 's2', x: -0.1, y: 0.4, radius: 0 }]);
    expect(routes.map(({ blockedBy }) => blockedBy.map(({ label }) => label))).toEqual([[], ['s1']]);
  });

  test('that climb steeply count as no way out', () => {
    const up = escapeRoutes({ x: 0, y: 0 }, 0, [], { percent: 40, aspect: 0 });
    expect(up.routes.map(({ steep }) => steep)).toEqual([true, true]);
    expect(up.noneClear).toBeDefined();
  });
});
