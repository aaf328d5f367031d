// Positions in the five forms in which people have them, kept as they were given; and what is said when one is unclear.
import { describe, expect, it } from 'vitest';
import { readPosition, readRing } from '../../src/events/position.ts';
import { block, find, stake, stem } from './typing.ts';

function read(text: string, units: 'us' | 'metric' = 'us') {
  const reading = readPosition(text, units, find);
  return reading.ok ? reading.value : reading.remedy;
}

describe('a position', () => {
  it('is a fix with the time it was taken and the receiver, as they were written', () => {
    expect(read('35.7121, -81.6834 +-4 m, fixed 09:05, source handheld receiver')).toEqual({
      how: 'fix',
      lat: '35.7121',
      lon: '-81.6834',
      accuracy: { text: '4 m', value: '4', unit: 'm' },
      fixedAt: '09:05',
      source: 'handheld receiver',
    });
  });

  it('is a fix: latitude first, with its accuracy', () => {
    expect(read('35.7121, -81.6834 +-4 m')).toEqual({
      how: 'fix',
      lat: '35.7121',
      lon: '-81.6834',
      accuracy: { text: '4 m', value: '4', unit: 'm' },
    });
    expect(read('fix 35.71210,-81.68340')).toEqual({ how: 'fix', lat: '35.71210', lon: '-81.68340' });
    expect(read('35.7121, -81.6834 ± 12')).toMatchObject({ accuracy: { text: '12', unit: 'ft' } });
    expect(read('35.7121, -81.6834 ± 4', 'metric')).toMatchObject({ accuracy: { unit: 'm' } });
  });

  it('is projected coordinates with the code of their system: easting first', () => {
    expect(read('epsg:2264 1209000.5, 741000')).toEqual({
      how: 'grid',
      crs: 'EPSG:2264',
      easting: '1209000.5',
      northing: '741000',
    });
    expect(read('EPSG:26917 437500 3952000 +- 0.5 m')).toMatchObject({
      crs: 'EPSG:26917',
      accuracy: { value: '0.5', unit: 'm' },
    });
  });

  it('is an azimuth and a distance from a stake or a stem, down or up a slope', () => {
    expect(read('135 mag, 42 ft from stake A')).toEqual({
      how: 'offset',
      from: { stake },
      azimuth: { text: '135 mag', value: '135', reference: 'mag' },
      distance: { text: '42 ft', value: '42', unit: 'ft' },
    });
    expect(read('40 grid EPSG:2264, 12.5 m, slope 35 % from stem A12')).toMatchObject({
      from: { stem },
      azimuth: { reference: 'grid', crs: 'EPSG:2264' },
      distance: { value: '12.5', unit: 'm' },
      slope: { text: '35 %', value: '35', unit: '%' },
    });
    expect(read('135 mag, 42 from stake A', 'metric')).toMatchObject({ distance: { unit: 'm' } });
  });

  it("is x and y on a block's own axes", () => {
    expect(read('x 12 m, y -30 m in block North')).toEqual({
      how: 'local',
      block,
      x: { text: '12 m', value: '12', unit: 'm' },
      y: { text: '-30 m', value: '-30', unit: 'm' },
    });
    expect(read('x 12, y 30 in North')).toMatchObject({ x: { unit: 'ft' }, y: { unit: 'ft' } });
  });

  it('may be unknown', () => {
    expect(read('unknown')).toEqual({ how: 'unknown' });
    expect(read('Later')).toEqual({ how: 'unknown' });
  });
});

describe('an unclear position is refused, and the part at fault named', () => {
  it.each([
    ['-101.6834, 35.7121', /-101.6834 is no latitude; are latitude and longitude swapped\?/],
    ['1209000, 741000', /1209000 is no latitude; projected coordinates need their EPSG code/],
    ['35.7, 181', /181 is no longitude/],
    ['35.7121, -81.6834 +- wide', /^accuracy: /],
    ['EPSG:2264 1209000, 741000 +- 3 hands', /^accuracy: "hands" is no unit here/],
    ['135, 42 ft from stake A', /^azimuth: say what it is counted from/],
    ['135 mag, far from stake A', /^distance: write a number with a unit/],
    ['135 mag, 42 ft, slope 35 from stake A', /^slope: add a unit; use one of %, deg/],
    ['135 mag, 42 ft from stake Z', /there is no stake called Z/],
    ['135 mag, 42 ft from stem A13', /there is no stem called A13/],
    ['x wide, y 3 m in block North', /^x: /],
    ['x 3 m, y high in block North', /^y: /],
    ['x 3 m, y 4 m in block South', /there is no block called South/],
    ['EPSG:2264', /^write "35.7121, -81.6834/],
    ['by the big rock', /^write "35.7121, -81.6834/],
    ['', /^write "35.7121, -81.6834/],
  ])('%s', (text, remedy) => {
    expect(read(text)).toMatch(remedy);
  });
});

describe('an edge', () => {
  it('is positions with semicolons between them, each in any form', () => {
    const edge = readRing('135 mag, 42 ft from stake A; 35.7, -81.6; unknown;', 'us', find);
    expect(edge.ok && edge.value.map(({ how }) => how)).toEqual(['offset', 'fix', 'unknown']);
  });

  it('has at least three corners', () => {
    expect(readRing('35.7, -81.6; 35.8, -81.6', 'us', find)).toEqual({
      ok: false,
      remedy: 'an edge has at least three corners, with semicolons between them',
    });
  });

  it('names the corner that cannot be read', () => {
    expect(readRing('35.7, -81.6; 35.8; 35.9, -81.5', 'us', find)).toMatchObject({
      ok: false,
      remedy: expect.stringMatching(/^corner 2 \("35.8"\): write /) as string,
    });
  });
});
