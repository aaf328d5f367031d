// For each finding a story in which it comes up: what went otherwise, the entries it must name, and what it says.
import type { FindingCode } from '../../src/stand/index.ts';
import { device, uuid } from './entries.ts';
import { closing, group, type Line, leave, other, sapling, stem, without, work } from './group-story.ts';

const holder = uuid(0x51_0004);

export const at = (text: string, precision: 'instant' | 'minute' | 'day' = 'minute') => ({
  at: text,
  precision,
});
const inches = (value: string) => ({ text: value, value, unit: 'in' });
const fiveFeetFrom = (from: string) => ({
  how: 'offset',
  from: { stem: from },
  azimuth: { text: '90 true', value: '90', reference: 'true' },
  distance: { text: '5 ft', value: '5', unit: 'ft' },
});
/** A place on a grid in metres, to the decimetre; the west line of the block runs along easting 620000. */
const onGrid = (easting: string, northing: string) => ({
  how: 'grid',
  crs: 'EPSG:32617',
  easting,
  northing,
  accuracy: { text: '0.1 m', value: '0.1', unit: 'm' },
});
const surveyedBlock: Line = [
  'block-laid-out',
  {
    block: uuid(0xb1_0001),
    name: 'North cove',
    boundary: [
      onGrid('620000', '3950000'),
      onGrid('620000', '3950100'),
      onGrid('620100', '3950100'),
      onGrid('620100', '3950000'),
    ],
    boundaryFrom: 'surveyed',
  },
];
const nearLine = (easting: string): Line => [
  'stem-marked',
  { stem: other, mark: 'cut', tag: 'B7', block: uuid(0xb1_0001), position: onGrid(easting, '3950050') },
];
const amendment = (replaces: number, tag: string): Line => [
  'entry-amended',
  {
    replaces: uuid(replaces),
    type: 'stem-marked',
    v: 1,
    body: { stem, mark: 'cut', tag, group },
    happenedAt: at('2026-03-02T09:02:00-05:00'),
    reason: 'tag misread',
  },
];

/** What went otherwise, and the other entries that the finding must name (by number, the last line is named always). */
export const cases: Readonly<
  Record<FindingCode, { log: Line[]; names: number[]; says: RegExp; also?: FindingCode[] }>
> = {
  'felled-without-mark': {
    log: [...work, ['stem-felled', { stem: other, came: 'down', tag: 'U1', group }]],
    names: [12],
    says: /^U1 was felled without a mark\.$/,
  },
  'leave-tree-felled': {
    log: [...work, ['stem-felled', { stem: leave, came: 'down' }]],
    names: [3, 12],
    says: /^L3 was to stay \(seed\) and was felled\.$/,
  },
  'felled-twice': {
    log: [...work, ['stem-felled', { stem, came: 'down' }]],
    names: [7, 12],
    says: /^A12 is recorded as felled twice\.$/,
  },
  'holding-tree-felled': {
    log: [
      ...work,
      ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group }],
      ['stem-felled', { stem: other, came: 'hung-up', hungOn: holder }],
      ['stem-marked', { stem: holder, mark: 'cut', tag: 'A15', group }],
      ['stem-felled', { stem: holder, came: 'down' }],
    ],
    names: [13, 15],
    says: /^A15 was felled while A14 hung in it\.$/,
  },
  contradiction: {
    log: [...work, ['hang-up-cleared', { stem }]],
    names: [8, 12],
    says: /^A12 is recorded as brought down, but was not recorded as hung up then\.$/,
  },
  'label-used-twice': {
    log: [...work, ['group-laid-out', { group: uuid(0x53_0002), label: 'g1' }]],
    names: [1, 12],
    says: /^Two groups are called g1\.$/,
  },
  'felled-without-stump': {
    log: [
      ...work,
      ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group }],
      ['stem-felled', { stem: other, came: 'down' }],
      ['stump-audited', { stem: other, group }],
    ],
    names: [7, 14],
    says: /^A12 is recorded as felled, and no stump was found for it when those of G1 were audited\.$/,
  },
  'stump-without-stem': {
    log: [...work, ['stump-audited', { tag: 'Z9' }]],
    names: [12],
    says: /^A stump with the tag Z9 was found, and no felled stem of the log explains it\.$/,
  },
  'stump-of-standing-stem': {
    log: [...work, ['stump-audited', { stem: leave }]],
    names: [3, 12],
    says: /^A stump was found for L3, which is not recorded as felled\.$/,
    also: ['felled-without-stump'],
  },
  'measures-contradict': {
    log: [...work, ['stem-measured', { stem: leave, dbh: inches('20'), height: inches('40') }]],
    names: [3, 12],
    says: /^L3: A height of 40 in is under breast height \(4\.5 ft\), yet there is a DBH\.$/,
  },
  'call-not-made': {
    log: [
      ...work,
      ['call-expected', { due: at('2026-03-02T17:00:00-05:00') }],
      ['note-written', { text: 'frost' }, { happenedAt: at('2026-03-03T08:00:00-05:00', 'instant') }],
    ],
    names: [12],
    says: /^The call that was expected by 2026-03-02 17:00 was not made on that day, as far as is recorded\.$/,
  },
  'marked-but-standing': {
    log: [...without('stem-felled', 'hang-up-cleared'), closing],
    names: [2, 10],
    says: /^A12 is marked to be cut and was standing when G1 was closed\.$/,
  },
  'sapling-harmed': {
    log: [...work, ['sapling-checked', { sapling, condition: 'broken', byStem: stem }]],
    names: [12],
    says: /^s1 was broken by A12\.$/,
  },
  'sapling-not-checked': {
    log: [...work.filter(([, body]) => body.sapling === undefined || body.condition === undefined), closing],
    names: [11],
    says: /^s1 was not checked before G1 was closed\.$/,
  },
  'hazard-open-at-closing': {
    log: [...without('hazard-cleared'), closing],
    names: [6, 11],
    says: /^A hazard \(hanging limb at A12\) was open when G1 was closed\.$/,
  },
  'hung-up-stem-left': {
    log: [...without('hang-up-cleared'), closing],
    names: [7, 11],
    says: /^A12 was left hung up when G1 was closed\.$/,
  },
  'cut-in-closed-opening': {
    log: [
      ...work,
      closing,
      ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group }],
      ['stem-felled', { stem: other, came: 'down' }],
    ],
    names: [12, 14],
    says: /^A14 was felled in G1, whose opening was closed\.$/,
  },
  'tag-used-twice': {
    log: [...work, ['stem-marked', { stem: other, mark: 'leave', tag: 'a12' }]],
    names: [2, 12],
    says: /^Tag a12 is on two stems\.$/,
  },
  'late-entry': {
    log: [
      ...work,
      ['note-written', { text: 'frost' }, { happenedAt: at('2026-03-01T00:00:00-05:00', 'day') }],
    ],
    names: [12],
    says: /^"note written" of 2026-03-01 was recorded on 2026-03-02\.$/,
  },
  'amended-entry': {
    log: [...work, amendment(2, 'A21')],
    names: [2, 12],
    says: /^An entry "stem marked" was amended: tag misread$/,
  },
  'struck-entry': {
    log: [
      ...work,
      ['note-written', { text: 'rain' }],
      ['entry-struck', { strikes: uuid(12), reason: 'dry' }],
    ],
    names: [12, 13],
    says: /^An entry "note written" was struck: dry$/,
  },
  'two-corrections': {
    log: [...work, amendment(2, 'A21'), amendment(2, 'A22')],
    names: [12, 13],
    says: /^2 corrections were made of one version; the later one applies: tag misread$/,
    also: ['amended-entry'],
  },
  'line-tree-felled-without-consent': {
    log: [...work, surveyedBlock, nearLine('619997'), ['stem-felled', { stem: other, came: 'down' }]],
    names: [13, 14],
    says: /^B7 was felled; it stands 3\.0 m outside of line 1 of North cove, and nobody beyond it had agreed\.$/,
  },
  'doubtful-line-tree': {
    log: [...work, surveyedBlock, nearLine('620000.2')],
    names: [13],
    says: /^B7 is marked to be cut and is doubtful \(0\.2 m inside\) to line 1 of North cove\.$/,
  },
  'offsets-in-a-circle': {
    log: [
      ...work,
      ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group, position: fiveFeetFrom(holder) }],
      ['stem-marked', { stem: holder, mark: 'cut', tag: 'A15', group, position: fiveFeetFrom(other) }],
    ],
    names: [12, 13],
    says: /^A14, A15 were measured from each other in a circle, so nobody can tell where they are\.$/,
  },
  'missing-target': {
    log: [...work, ['tag-lost', { stem: other }]],
    names: [12],
    says: /^An entry is about a stem that this log does not hold\.$/,
  },
  'clock-ran-backwards': {
    log: [...work, ['note-written', { text: 'rain' }, { recordedAt: '2026-03-02T09:05:00-05:00' }]],
    names: [11, 12],
    says: /^The clock of a device ran backwards: 2026-03-02T14:11:00.000Z was followed by 2026-03-02T09:05:00-05:00\.$/,
    also: ['date-in-future'],
  },
  'date-in-future': {
    log: [...work, ['note-written', { text: 'rain' }, { happenedAt: at('2026-03-03T09:00:00-05:00') }]],
    names: [12],
    says: /^"note written" is dated 2026-03-03T09:00:00-05:00, after it was recorded \(2026-03-02T14:12:00.000Z\)\.$/,
  },
  'entry-of-revoked-device': {
    log: [
      ...work,
      ['device-paired', { device: device.b, label: "Jo's phone", person: uuid(0xc0_0001) }],
      ['device-revoked', { device: device.b, reason: 'lost' }],
      ['note-written', { text: 'rain' }, { device: device.b, seq: 1 }],
    ],
    names: [13, 14],
    says: /^1 entry of Jo's phone was recorded after that device was revoked \(2026-03-02\)\.$/,
  },
};
