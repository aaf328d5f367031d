// What is dangerous now, for every list and page: hung-up stems and open hazards, and how they are told apart.
import { describe, expect, it, test } from 'vitest';
import { dangersIn, fold, hazardWords, timeText } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { group, hazard, other, work, written } from './group-story.ts';

const elsewhere = uuid(0x53_0002);
const wire = uuid(0x55_0002);
const stake = uuid(0x56_0001);
const hung = uuid(0x51_0009);

describe('what can hurt somebody now', () => {
  const { stand } = fold(
    written(
      ...work.slice(0, 6),
      ['hazard-noted', { hazard: wire, what: 'wire-or-line' }],
      ['group-laid-out', { group: elsewhere, label: 'G2' }],
      ['stem-marked', { stem: hung, mark: 'cut', tag: 'B1', group: elsewhere }],
      ['stem-felled', { stem: hung, came: 'hung-up' }],
    ),
  );

  it('is every hung-up stem and open hazard of the stand', () => {
    const { hungUp, hazards } = dangersIn(stand);
    expect(hungUp.map(({ id }) => id)).toEqual([hung]);
    expect(hazards.map(({ id }) => id)).toEqual([hazard, wire]);
  });

  it('of one group is what is in it and at its stems', () => {
    expect(dangersIn(stand, group)).toMatchObject({ hungUp: [], hazards: [{ id: hazard }] });
    expect(dangersIn(stand, elsewhere)).toMatchObject({ hungUp: [{ id: hung }], hazards: [] });
  });

  it('is over when the stem is down and the hazard cleared', () => {
    const after = fold(written(...work)).stand;
    expect(dangersIn(after)).toEqual({ hungUp: [], hazards: [] });
    expect(dangersIn(after, group)).toEqual({ hungUp: [], hazards: [] });
  });
});

describe('hazards of one kind are told apart', () => {
  const quantity = { text: '150 ft', value: '150', unit: 'ft' };
  const position = {
    how: 'offset',
    from: { stake },
    azimuth: { text: '40 mag', value: '40', reference: 'mag' },
    distance: { text: '60', value: '60', unit: 'ft' },
  };
  const words = (...lines: Parameters<typeof written>) => {
    const { stand } = fold(written(...lines));
    return [...stand.hazards.values()].map((one) => hazardWords(stand, one));
  };

  it('by how far to keep away, their group, their place and what was noted', () => {
    expect(
      words(
        ['stake-set', { stake, label: 'A' }],
        ['group-laid-out', { group, label: 'G1' }],
        ['stem-marked', { stem: other, mark: 'leave', tag: 'L1' }],
        ['hazard-noted', { hazard, what: 'insects', group, radius: quantity, note: 'wasps, red ribbon' }],
        ['hazard-noted', { hazard: wire, what: 'insects', position }],
        ['hazard-noted', { hazard: uuid(0x55_0003), what: 'dead-top', stem: other }],
      ),
    ).toEqual([
      'insects, keep away 150 ft, in G1, wasps, red ribbon',
      'insects, 60 ft at 40 mag from stake A',
      'dead top at L1',
    ]);
  });
  it.each([
    [{ how: 'fix', lat: '35.71210', lon: '-81.68340' }, 'footing, at 35.71210, -81.68340'],
    [
      { how: 'grid', crs: 'EPSG:2264', easting: '1200000', northing: '700000' },
      'footing, at 1200000, 700000 in EPSG:2264',
    ],
    [{ how: 'unknown' }, 'footing'],
  ])('%o is told as it was entered', (where, said) => {
    expect(words(['hazard-noted', { hazard, what: 'footing', position: where }])).toEqual([said]);
  });
});

test('a time is told as finely as it is known', () => {
  expect(timeText({ at: '2026-03-14T00:00:00-04:00', precision: 'day' })).toBe('2026-03-14');
  expect(timeText({ at: '2026-03-14T09:30:00-04:00', precision: 'minute' })).toBe('2026-03-14 09:30');
});
