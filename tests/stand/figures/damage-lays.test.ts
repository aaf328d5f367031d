// Damage along the lays and margins of wounds. Places are from one stake by azimuth and distance, so that distances to a
// lay follow from plane trigonometry; the limit of 100 in² is 645.16 cm² (Good Forestry in the Granite State, 2010).
import { describe, expect, it } from 'vitest';
import type { JsonObject } from '../../../src/events/index.ts';
import { damageFigures } from '../../../src/stand/figures/damage.ts';
import { fold } from '../../../src/stand/index.ts';
import { uuid } from '../entries.ts';
import { type Line, written } from '../group-story.ts';

const q = (value: string, unit: string) => ({ text: `${value} ${unit}`, value, unit });
const stake = uuid(0x59_0001);
const stem = (number: number) => uuid(0x58_0000 + number);
const azimuth = (degrees: string) => ({ text: `${degrees} true`, value: degrees, reference: 'true' });
const at = (degrees: string, feet: string): JsonObject => ({
  how: 'offset',
  from: { stake },
  azimuth: azimuth(degrees),
  distance: q(feet, 'ft'),
});
const marked = (number: number, mark: string, position: JsonObject): Line => [
  'stem-marked',
  { stem: stem(number), mark, tag: `T${number}`, position },
];
const hurt = (number: number, area: string, unit = 'in2'): Line => [
  'damage-noted',
  {
    damage: uuid(0x57_0000 + number),
    to: 'leave-tree',
    stem: stem(number),
    woundArea: q(area, unit),
    byStem: stem(1),
  },
];

// T1 stands on the stake and lies 100 ft to the north. T2 is 10 ft east of its line half way up, T3 is 30 ft east of it,
// T4 10 ft beyond its tip, T5 has no place.
const story: Line[] = [
  [
    'stake-set',
    {
      stake,
      label: 'A',
      position: { how: 'fix', lat: '35.7', lon: '-81.7' },
    },
  ],
  marked(1, 'cut', at('0', '0')),
  marked(2, 'leave', at('11.31', '50.99')),
  marked(3, 'leave', at('30.96', '58.31')),
  marked(4, 'leave', at('0', '110')),
  ['stem-marked', { stem: stem(5), mark: 'leave', tag: 'T5' }],
  ['stem-felled', { stem: stem(1), came: 'down', lay: azimuth('0'), layLength: q('100', 'ft') }],
  hurt(2, '99.96'),
  hurt(4, '645.16', 'cm2'),
];

describe('damage along the lays', () => {
  it('is the share of the trees near them, held against the others; a tree without a place is in neither', () => {
    expect(damageFigures(fold(written(...story))).lays).toMatchObject({
      within: { value: 20, unit: 'ft' },
      lays: 1,
      near: { trees: 2, damaged: 2, byNumber: { value: 1, unit: 'share' } },
      others: { trees: 1, damaged: 0, byNumber: { value: 0 } },
      without: 1,
      perStem: { value: 2, unit: 'damages per felled stem' },
    });
  });

  it('goes by the distance that is asked for', () => {
    const { lays } = damageFigures(fold(written(...story)), { within: { value: 9.8, unit: 'ft' } });
    expect(lays).toMatchObject({ near: { trees: 0 }, others: { trees: 3, damaged: 2 } });
  });

  it('says what is missing where nothing was felled, or no lay was measured', () => {
    const standing = story.slice(0, 6);
    expect(damageFigures(fold(written(...standing))).lays).toEqual({
      notEnough: 'not enough data: no stem was felled.',
    });
    const unmeasured: Line[] = [...standing, ['stem-felled', { stem: stem(1), came: 'down' }]];
    expect(damageFigures(fold(written(...unmeasured))).lays).toEqual({
      notEnough: 'not enough data: no felled stem has a measured lay, a length and a place.',
    });
  });
});

it('a wound has its margin to the limit, unrounded: 645.16 cm² is at it, 99.96 in² is 0.04 in² under it', () => {
  expect(damageFigures(fold(written(...story))).wounds).toMatchObject([
    { label: 'T2', atLeast: false, margin: { value: expect.closeTo(-0.04, 9) as number, unit: 'in2' } },
    { label: 'T4', atLeast: true, margin: { value: 0 }, area: { value: 645.16, unit: 'cm2' } },
  ]);
});
