import { describe, expect, test } from 'vitest';
import type { BlockAxes, LonLat, PositionContext, PositionEntered, Resolved } from '../../src/place/index.ts';
import {
  COMPASS_AND_TAPE,
  declination,
  destination,
  distanceAndAzimuth,
  GUIDE_METRES,
  isUnresolved,
  project,
  resolvePosition,
  toTrueAzimuth,
} from '../../src/place/index.ts';

const STAKE: LonLat = { lat: 35.75, lon: -81.5 };

const NORTH: BlockAxes = {
  origin: { at: STAKE, standardError: 2, via: 'GNSS fix' },
  yAzimuthTrue: 30,
  azimuthDegrees: 0.5,
};

const context: PositionContext = {
  anchor: (reference) =>
    'stake' in reference && reference.stake === 'A'
      ? { at: STAKE, standardError: 2, via: 'GNSS fix' }
      : { why: 'That anchor has no position.' },
  nameOf: (reference) => ('stake' in reference ? `stake ${reference.stake}` : `stem ${reference.stem}`),
  axes: (block) => (block === 'north' ? NORTH : undefined),
  when: '2026-03-04T15:00:00Z',
};

function place(entered: PositionEntered, given: PositionContext = context): Resolved {
  const answer = resolvePosition(entered, given);
  if (isUnresolved(answer)) throw new Error(answer.why);
  return answer;
}

function offset(changes: Partial<Extract<PositionEntered, { how: 'offset' }>> = {}): PositionEntered {
  return {
    how: 'offset',
    from: { stake: 'A' },
    azimuth: { text: '135° mag', value: '135', reference: 'mag' },
    distance: { text: '42 ft', value: '42', unit: 'ft' },
    ...changes,
  };
}

describe('a fix', () => {
  test('with an accuracy of 0 is not taken for exact: the guide value stands in, and it says so', () => {
    const accuracy = { text: '0 m', value: '0', unit: 'm' };
    expect(place({ how: 'fix', lat: '35.75', lon: '-81.5', accuracy })).toEqual({
      at: STAKE,
      standardError: GUIDE_METRES,
      errorIsGuide: true,
      via: `GNSS fix, accuracy 0 m says nothing, taken as ±${GUIDE_METRES} m`,
    });
  });

  test('is taken as it is, with its accuracy in metres', () => {
    const accuracy = { text: '12 ft', value: '12', unit: 'ft' };
    expect(place({ how: 'fix', lat: '35.75', lon: '-81.5', accuracy })).toEqual({
      at: STAKE,
      standardError: expect.closeTo(3.6576, 9) as unknown,
      via: 'GNSS fix, accuracy 12 ft',
    });
  });

  test('without an accuracy is taken as good as the guide value, and says so', () => {
    expect(place({ how: 'fix', lat: '35.75', lon: '-81.5' })).toEqual({
      at: STAKE,
      standardError: GUIDE_METRES,
      errorIsGuide: true,
      via: 'GNSS fix, no accuracy given, taken as ±5 m',
    });
  });

  // 3 and 2 are the legs of a right triangle with a hypotenuse of 3.606.
  test.each(['NAD83', 'NAD83(2011)', 'ETRS89'])(
    'in a logbook that works on %s is 1-2 m worse, and it is printed',
    (datum) => {
      const accuracy = { text: '3 m', value: '3', unit: 'm' };
      const answer = place({ how: 'fix', lat: '35.75', lon: '-81.5', accuracy }, { ...context, datum });
      expect(answer.standardError).toBeCloseTo(3.606, 3);
      expect(answer.via).toBe(`GNSS fix, accuracy 3 m; WGS 84 taken as ${datum}, 1–2 m more`);
    },
  );

  test('and an offset from it carry the same error on', () => {
    const accuracy = { text: '3 m', value: '3', unit: 'm' };
    const fix = { how: 'fix', lat: '35.75', lon: '-81.5', accuracy } as const;
    const working = { ...context, datum: 'NAD83' };
    const anchor = () => resolvePosition(fix, working);
    expect(place(offset(), { ...working, anchor }).standardError).toBeGreaterThan(3.606);
  });

  test.each([
    ['91', '-81.5', /latitude "91"/],
    ['35.75', '-181', /longitude "-181"/],
    ['35,75', '-81.5', /latitude "35,75"/],
    ['NaN', '-81.5', /latitude "NaN"/],
    ['', '-81.5', /latitude ""/],
    ['1e1', '-81.5', /latitude "1e1"/],
  ])('at "%s", "%s" is refused and says what is wrong', (lat, lon, why) => {
    expect(resolvePosition({ how: 'fix', lat, lon }, context)).toEqual({
      why: expect.stringMatching(why) as unknown,
    });
  });
});

describe('coordinates of a grid', () => {
  test('in US survey feet come back to where they were', () => {
    const { x, y } = project('EPSG:2264', STAKE);
    const answer = place({ how: 'grid', crs: 'EPSG:2264', easting: x.toFixed(4), northing: y.toFixed(4) });
    expect(distanceAndAzimuth(answer.at, STAKE).metres).toBeLessThan(0.0001);
    expect(answer.via).toContain('NAD83 / North Carolina (ftUS)');
  });

  test('with easting and northing swapped are questioned, not believed', () => {
    const { x, y } = project('EPSG:26917', STAKE);
    const swapped = { how: 'grid', crs: 'EPSG:26917', easting: `${y}`, northing: `${x}` } as const;
    expect(resolvePosition(swapped, context)).toEqual({
      why: expect.stringContaining('easting first') as unknown,
    });
  });

  test('in feet given to a system in metres are questioned when they fall far outside', () => {
    const { x, y } = project('EPSG:2264', STAKE);
    const feet = { how: 'grid', crs: 'EPSG:32119', easting: `${x}`, northing: `${y}` } as const;
    expect(resolvePosition(feet, context)).toEqual({
      why: expect.stringContaining('the unit (m)') as unknown,
    });
  });

  test.each([
    ['EPSG:27700', /OSGB36.*exact shift/],
    ['EPSG:26717', /NAD27.*exact shift/],
    ['EPSG:28355', /GDA94.*exact shift/],
    ['EPSG:2802', /NAD83\(HARN\).*exact shift/],
    ['EPSG:3857', /web Mercator.*stretches/],
    ['EPSG:4326', /give them as a fix/],
    ['EPSG:1000', /not among the reference systems/],
    ['Texas', /no EPSG code/],
  ])('in %s are refused, and the reason is said', (crs, why) => {
    expect(resolvePosition({ how: 'grid', crs, easting: '500000', northing: '4000000' }, context)).toEqual({
      why: expect.stringMatching(why) as unknown,
    });
  });

  test.each(['Infinity', '1e400', '', 'abc'])('that are no numbers ("%s") are refused', (easting) => {
    const answer = resolvePosition({ how: 'grid', crs: 'EPSG:26917', easting, northing: '4000000' }, context);
    expect(answer).toEqual({ why: expect.stringContaining('easting') as unknown });
  });

  test('beyond the projection are refused without throwing', () => {
    const far = `${'9'.repeat(30)}`;
    for (const crs of ['EPSG:26917', 'EPSG:2264', 'EPSG:3035', 'EPSG:26931']) {
      expect(resolvePosition({ how: 'grid', crs, easting: far, northing: far }, context)).toHaveProperty(
        'why',
      );
    }
  });
});

describe('an offset', () => {
  test('by compass and tape lies on the magnetic azimuth turned by the declination of its day', () => {
    const answer = place(offset());
    const way = distanceAndAzimuth(STAKE, answer.at);
    const turned = declination(STAKE, context.when);
    if (isUnresolved(turned)) throw new Error(turned.why);
    expect(way.metres).toBeCloseTo(12.8016, 6);
    expect(way.azimuthTrue).toBeCloseTo(135 + turned.value, 5);
    expect(turned.words).toMatch(/west$/);
    expect(answer.via).toBe(
      `magnetic azimuth 135°, declination ${turned.words} on 2026-03-04 (WMM-2025); 42 ft from stake A`,
    );
  });

  test("takes the logbook's own declination before the model's", () => {
    const answer = place(offset(), { ...context, declination: -5 });
    expect(distanceAndAzimuth(STAKE, answer.at).azimuthTrue).toBeCloseTo(130, 5);
    expect(answer.via).toContain('5.0° west as the logbook gives it');
  });

  test('up or down a slope reaches less far than its tape', () => {
    // 66 ft along 35 % are 62.295 ft level: trigonometry.
    const answer = place(
      offset({
        distance: { text: '1 ch', value: '1', unit: 'ch' },
        slope: { text: '35 %', value: '35', unit: '%' },
      }),
    );
    expect(distanceAndAzimuth(STAKE, answer.at).metres / 0.3048).toBeCloseTo(62.295, 3);
    expect(answer.via).toContain('1 ch on a slope of 35 % from stake A');
  });

  test('from grid north is turned by the convergence of its grid', () => {
    const azimuth = { text: '0 grid', value: '0', reference: 'grid', crs: 'EPSG:2264' } as const;
    const answer = place(offset({ azimuth, distance: { text: '100 m', value: '100', unit: 'm' } }));
    const from = project('EPSG:2264', STAKE);
    const to = project('EPSG:2264', answer.at);
    expect(to.x - from.x).toBeCloseTo(0, 2);
    expect(to.y - from.y).toBeGreaterThan(328);
  });

  test.each([
    [{ text: '90 grid', value: '90', reference: 'grid' }, /names no grid/],
    [{ text: '90 grid', value: '90', reference: 'grid', crs: 'EPSG:3035' }, /does not keep angles/],
    [{ text: '90 grid', value: '90', reference: 'grid', crs: 'EPSG:27700' }, /OSGB36/],
    [{ text: '361', value: '361', reference: 'true' }, /not from 0 to 360/],
    [{ text: '-5', value: '-5', reference: 'true' }, /not from 0 to 360/],
    [{ text: 'NW', value: 'NW', reference: 'true' }, /not from 0 to 360/],
  ] as const)('along %o is refused', (azimuth, why) => {
    expect(resolvePosition(offset({ azimuth }), context)).toEqual({
      why: expect.stringMatching(why) as unknown,
    });
    expect(toTrueAzimuth(azimuth, STAKE, context.when)).toEqual({
      why: expect.stringMatching(why) as unknown,
    });
  });

  test.each([
    [{ distance: { text: '-3 m', value: '-3', unit: 'm' } }, /negative/],
    [{ distance: { text: '3 paces', value: '3', unit: 'paces' } }, /no length/],
    [{ distance: { text: 'far', value: 'far', unit: 'm' } }, /no number/],
    [{ slope: { text: '95 deg', value: '95', unit: 'deg' } }, /vertical or beyond/],
    [{ slope: { text: '3 m', value: '3', unit: 'm' } }, /use % or deg/],
    [{ slope: { text: 'steep', value: 'steep', unit: '%' } }, /no number/],
    [{ from: { stem: 'x' } }, /anchor has no position/],
  ])('with %o is refused', (changes, why) => {
    expect(resolvePosition(offset(changes), context)).toEqual({ why: expect.stringMatching(why) as unknown });
  });

  test('read outside the years of the magnetic models asks for a declination', () => {
    const answer = resolvePosition(offset(), { ...context, when: '2031-01-01T12:00:00Z' });
    expect(answer).toEqual({ why: expect.stringContaining('give the logbook a declination') as unknown });
  });

  test('is known worse than its anchor, by compass, tape and the thickness of a stake', () => {
    const metres = 12.8016;
    const across = metres * Math.tan((COMPASS_AND_TAPE.azimuthDegrees * Math.PI) / 180);
    const along = metres * COMPASS_AND_TAPE.distanceShare;
    const expected = Math.sqrt(2 ** 2 + across ** 2 + along ** 2 + COMPASS_AND_TAPE.pointMetres ** 2);
    expect(place(offset()).standardError).toBeCloseTo(expected, 3);
  });

  test('is known better where the logbook says that its compass and tape are good', () => {
    const compassAndTape = { azimuthDegrees: 0, distanceShare: 0, pointMetres: 0 };
    expect(place(offset(), { ...context, compassAndTape }).standardError).toBe(2);
  });

  test('from an anchor whose accuracy is a guide value says so too', () => {
    const guessed = { at: STAKE, standardError: 5, errorIsGuide: true, via: 'sketch' } as const;
    expect(place(offset(), { ...context, anchor: () => guessed }).errorIsGuide).toBe(true);
  });
});

describe("x and y on a block's own axes", () => {
  const local = (block: string, x: string, y: string): PositionEntered => ({
    how: 'local',
    block,
    x: { text: `${x} m`, value: x, unit: 'm' },
    y: { text: `${y} m`, value: y, unit: 'm' },
  });

  test('y runs along the axis and x a quarter turn clockwise of it', () => {
    expect(distanceAndAzimuth(STAKE, place(local('north', '0', '20')).at)).toEqual({
      metres: expect.closeTo(20, 6) as unknown,
      azimuthTrue: expect.closeTo(30, 6) as unknown,
    });
    expect(distanceAndAzimuth(STAKE, place(local('north', '15', '0')).at).azimuthTrue).toBeCloseTo(120, 6);
    expect(place(local('north', '-3', '4')).at).toEqual(
      destination(STAKE, 30 + (Math.atan2(-3, 4) * 180) / Math.PI, 5),
    );
  });

  test('need a block that has axes', () => {
    expect(resolvePosition(local('south', '1', '1'), context)).toEqual({
      why: expect.stringContaining('no axes') as unknown,
    });
  });
});

test('an unknown position says how to add one', () => {
  expect(resolvePosition({ how: 'unknown' }, context)).toEqual({
    why: expect.stringContaining('add one') as unknown,
  });
});
