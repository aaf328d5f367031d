// Quantities and azimuths: kept as they were written, and refused with a remedy when they are unclear.
import { describe, expect, it, test } from 'vitest';
import { kinds, readAzimuth, readQuantity, typeBody } from '../../src/events/index.ts';
import { lengthIn } from '../../src/measure/index.ts';
import { stem, typingIn } from './typing.ts';

const lengths = ['in', 'ft', 'us-ft', 'yd', 'ch', 'mm', 'cm', 'm'];

function read(text: string, units: readonly string[] = lengths, defaultUnit?: string) {
  const reading = readQuantity(text, units, defaultUnit);
  return reading.ok ? reading.value : reading.remedy;
}

describe('a length as entered', () => {
  it.each([
    ['14.2 in', '14.2', 'in'],
    ['14.0 in', '14.0', 'in'],
    ['14in', '14', 'in'],
    ['14.2"', '14.2', 'in'],
    ['36 cm', '36', 'cm'],
    ['0.62 m', '0.62', 'm'],
    ['.62 m', '0.62', 'm'],
    ['-.5 ft', '-0.5', 'ft'],
    ['+3 ft', '3', 'ft'],
    ["32'", '32', 'ft'],
    ['2 chains', '2', 'ch'],
    ['66 US-FT', '66', 'us-ft'],
    ['  8  IN ', '8', 'in'],
  ])('%s is %s %s, with the text as it was written', (text, value, unit) => {
    expect(read(text)).toEqual({ text: text.trim(), value, unit });
  });

  // 12 inches to the foot: NIST Handbook 44, Appendix C (General Tables of Units of Measurement).
  it.each([
    ['6 ft 3 in', '75'],
    [`6' 3"`, '75'],
    ['6ft3in', '75'],
    ['0 ft 9.5 in', '9.5'],
    ['6 ft 3.25 in', '75.25'],
    ['999999999 ft 0 in', '11999999988'],
  ])('%s is %s inches', (text, value) => {
    expect(read(text)).toEqual({ text, value, unit: 'in' });
  });

  it('means what the handbook says: 6 ft 3 in is 1.905 m (25.4 mm to the inch, NIST HB 44 App. C)', () => {
    const height = readQuantity('6 ft 3 in', lengths, undefined);
    expect(height.ok && lengthIn(Number(height.value.value), 'in', 'm')).toBeCloseTo(1.905, 12);
  });

  it('without a unit takes the one that applies, and stores which that was', () => {
    expect(read('14', lengths, 'in')).toEqual({ text: '14', value: '14', unit: 'in' });
    expect(read('14', lengths, 'cm')).toEqual({ text: '14', value: '14', unit: 'cm' });
  });

  it('without a unit is refused where none applies', () => {
    expect(read('14', ['%', 'deg'])).toBe('add a unit; use one of %, deg');
  });

  it('with an unknown unit is refused, and the units are listed', () => {
    expect(read('14 hands')).toBe('"hands" is no unit here; use one of in, ft, us-ft, yd, ch, mm, cm, m');
    expect(read('14 ac')).toBe('"ac" is no unit here; use one of in, ft, us-ft, yd, ch, mm, cm, m');
    expect(read('6 ft 3 in', ['cm'])).toContain('use one of cm');
  });

  it.each(['', 'wide', 'in', '1,200 ft', '14.2.3 in', '1e3 ft', '-6 ft 3 in', '14 5/8 in', 'NaN', '--3 ft'])(
    '"%s" is refused and never half read',
    (text) => expect(read(text, lengths, 'ft')).toBeTypeOf('string'),
  );

  it('has no more digits than can be kept exactly', () => {
    expect(read('1234567890123 ft')).toBe('write a plain decimal number');
    expect(read('1.1234567890123 ft')).toBe('write a plain decimal number');
  });
});

describe('a bare number takes the unit of the logbook, by what is measured', () => {
  const felled = { stem: 'A12', came: 'down', stumpHeight: '8', stumpDiameter: '15.5', layLength: '68' };
  it.each([
    ['us', 'in', 'in', 'ft'],
    ['metric', 'cm', 'cm', 'm'],
  ] as const)('in %s units: stump %s and %s, lay %s', (units, small, diameter, distance) => {
    expect(typeBody(kinds['stem-felled'], felled, typingIn(units))).toMatchObject({
      ok: true,
      body: {
        stem,
        stumpHeight: { text: '8', value: '8', unit: small },
        stumpDiameter: { text: '15.5', unit: diameter },
        layLength: { text: '68', unit: distance },
      },
    });
  });

  it('a share of a patch can only be a percentage, so a bare number is one', () => {
    const patch = '01970000-0000-7000-8000-0000000000a4';
    const typing = typingIn('us', { find: () => ({ ok: true, value: patch }) });
    expect(
      typeBody(kinds['sapling-checked'], { patch: 'p1', condition: 'bent', share: '20' }, typing),
    ).toMatchObject({ ok: true, body: { share: { value: '20', unit: '%' } } });
  });

  it('an area could be acres or square feet, so a bare number is asked back', () => {
    expect(typeBody(kinds['group-laid-out'], { label: 'G1', plannedArea: '0.25' }, typingIn())).toMatchObject(
      {
        ok: false,
        problems: [{ field: 'plannedArea', value: '0.25', remedy: 'add a unit; use one of ft2, ac, m2, ha' }],
      },
    );
  });
});

test('an azimuth keeps its degrees and says what they are counted from', () => {
  const value = (text: string) => {
    const reading = readAzimuth(text);
    return reading.ok ? reading.value : reading.remedy;
  };
  expect(value('135 mag')).toEqual({ text: '135 mag', value: '135', reference: 'mag' });
  expect(value('135.5° Magnetic')).toEqual({
    text: '135.5° Magnetic',
    value: '135.5',
    reference: 'mag',
  });
  expect(value('0 true')).toMatchObject({ value: '0', reference: 'true' });
  expect(value('360 deg true')).toMatchObject({ value: '360', reference: 'true' });
  expect(value('40 grid epsg:2264')).toEqual({
    text: '40 grid epsg:2264',
    value: '40',
    reference: 'grid',
    crs: 'EPSG:2264',
  });
});

test.each([
  ['135', 'say what it is counted from: 135 mag, 135 true or 135 grid EPSG:…'],
  ['361 mag', 'an azimuth is from 0 to 360 degrees'],
  ['-5 mag', 'write degrees and what they are counted from, such as 135 mag'],
  ['N45E', 'write degrees and what they are counted from, such as 135 mag'],
  ['40 grid', 'name the grid, such as 40 grid EPSG:2264'],
  ['40 mag EPSG:2264', 'only a grid azimuth names a CRS'],
])('the azimuth "%s" is refused: %s', (text, remedy) => {
  expect(readAzimuth(text)).toEqual({ ok: false, remedy });
});
