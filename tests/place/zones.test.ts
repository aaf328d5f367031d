// Which zone: from a boundary or a place, at zone edges, in Norway, and what a letter behind the number means.
import { describe, expect, test } from 'vitest';
import { explainZone, type LonLat, proposeZones } from '../../src/place/index.ts';

describe('the letter behind a zone', () => {
  // Bands of 8° from 80° S, lettered C to X without I and O; X has 12° (DMA TM 8358.1, from memory).
  test.each([
    ['17S', /^17S is either zone 17 in the latitude band S \(32° to 40° N\), or zone 17 of the southern/],
    ['17 N', /^17N is either zone 17 in the latitude band N \(0° to 8° N\), or .* both are north/],
    ['19T', /^Zone 19 in the latitude band T \(40° to 48° N\), so north of the equator\.$/],
    ['55H', /^Zone 55 in the latitude band H \(32° to 40° S\), so south of the equator\.$/],
    ['33X', /\(72° to 84° N\)/],
    ['31C', /\(72° to 80° S\)/],
    ['zone 18 south', /^Zone 18 of the southern hemisphere\.$/],
    ['18', /^Zone 18: EPSG:32618 north of the equator, EPSG:32718 south of it\.$/],
  ])('%s', (written, words) => {
    const answer = explainZone(written);
    expect(answer.ok ? answer.words : answer.remedy).toMatch(words);
  });

  test('17S is settled by where the block lies', () => {
    const carolina: LonLat = { lat: 35.7, lon: -81.7 };
    expect(explainZone('17S', carolina)).toMatchObject({
      codes: ['EPSG:32617'],
      words: expect.stringMatching(/lies north of the equator, so it is EPSG:32617\.$/) as unknown,
    });
    const ecuador: LonLat = { lat: -2, lon: -79 };
    expect(explainZone('17S', ecuador)).toMatchObject({ codes: ['EPSG:32717'] });
  });

  test.each([
    ['61N', /1 to 60/],
    ['0', /1 to 60/],
    ['17I', /no latitude band/],
    ['17O', /no latitude band/],
    ['17A', /no latitude band/],
    ['Texas', /1 to 60/],
    ['', /1 to 60/],
  ])('"%s" is refused', (written, remedy) => {
    expect(explainZone(written)).toEqual({ ok: false, remedy: expect.stringMatching(remedy) as unknown });
  });
});

describe('zones proposed', () => {
  const codes = (places: readonly LonLat[]) => proposeZones(places).utm.map(({ code }) => code);

  test('for a block in North Carolina: zone 17, and State Plane in metres and US survey feet', () => {
    const proposed = proposeZones([
      { lat: 35.71, lon: -81.69 },
      { lat: 35.717, lon: -81.681 },
    ]);
    expect(proposed.utm.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['EPSG:26917', 'EPSG:32617']),
    );
    expect(proposed.statePlane.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['EPSG:2264', 'EPSG:32119']),
    );
  });

  test('for a block over 72° W: one zone for everything, that of its middle', () => {
    const proposed = proposeZones([
      { lat: 44, lon: -72.001 },
      { lat: 44, lon: -71.99 },
    ]);
    expect(proposed.utm.map(({ code }) => code)).toContain('EPSG:32619');
    expect(proposed.remarks.join(' ')).toContain(
      'between UTM zones 18 and 19 runs through it: use one of them, zone 19',
    );
  });

  test('near an edge the neighbour is named', () => {
    expect(proposeZones([{ lat: 44, lon: -71.95 }]).remarks.join(' ')).toContain('close to UTM zone 18');
    expect(proposeZones([{ lat: 44, lon: -71.5 }]).remarks.join(' ')).not.toContain('close to');
  });

  test('for Bergen and Svalbard: zones of their own widths', () => {
    expect(codes([{ lat: 60.39, lon: 5.32 }])).toEqual(expect.arrayContaining(['EPSG:32632', 'EPSG:25832']));
    expect(codes([{ lat: 78.2, lon: 15.6 }])).toContain('EPSG:32633');
    expect(proposeZones([{ lat: 60.39, lon: 5.32 }]).remarks.join(' ')).toContain('Norway');
  });

  test('across the antimeridian: Fiji is in zones 60 and 1', () => {
    const proposed = proposeZones([
      { lat: -17, lon: 179.99 },
      { lat: -17, lon: -179.98 },
    ]);
    expect(proposed.utm.map(({ code }) => code)).toContain('EPSG:32701');
    expect(proposed.remarks.join(' ')).toContain('zones 1 and 60');
  });

  test('beyond the ends of UTM there is none, and it is said', () => {
    expect(proposeZones([{ lat: 85, lon: 0 }])).toMatchObject({
      utm: [],
      remarks: [expect.stringMatching(/UTM ends/)],
    });
    expect(proposeZones([]).remarks).toEqual(['There is no place to look at.']);
  });
});
