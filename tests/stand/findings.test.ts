// One group from marking to closing, kept as it should be: no findings. Then, for each finding, what went
// otherwise; the finding comes up, names its entries, and says what to do.
import { describe, expect, it, test } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import { type FindingCode, findingCodes, fold, isAboutRecord, type LogEntry } from '../../src/stand/index.ts';
import { device, uuid } from './entries.ts';
import {
  closing,
  group,
  type Line,
  leave,
  other,
  patch,
  sapling,
  stem,
  without,
  work,
  written,
} from './group-story.ts';

const holder = uuid(0x51_0004);

function codes(log: LogEntry[]): FindingCode[] {
  return fold(log).findings.map(({ code }) => code);
}

const at = (text: string, precision: 'instant' | 'minute' | 'day' = 'minute') => ({ at: text, precision });
const inches = (value: string) => ({ text: value, value, unit: 'in' });
const fiveFeetFrom = (from: string) => ({
  how: 'offset',
  from: { stem: from },
  azimuth: { text: '90 true', value: '90', reference: 'true' },
  distance: { text: '5 ft', value: '5', unit: 'ft' },
});
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
const cases: Readonly<
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

test('a group that was marked, felled, looked after and closed as it should be gives no findings', () => {
  expect(fold(written(...work, closing)).findings).toEqual([]);
});

describe.each(findingCodes)('%s', (code) => {
  const { log, names, says, also = [] } = cases[code];
  const entries = written(...log);
  const findings = fold(entries).findings;

  it('comes up when it should, and nothing else does', () => {
    expect([...new Set(findings.map((finding) => finding.code))].sort()).toEqual([code, ...also].sort());
    expect(findings.filter((finding) => finding.code === code)).toHaveLength(1);
  });

  it('does not come up without the entries that it names last', () => {
    const last = uuid(Math.max(...names));
    expect(codes(entries.filter(({ id }) => id !== last))).not.toContain(code);
  });

  it('names its entries and says what is the matter and what to do', () => {
    const finding = findings.find((one) => one.code === code);
    expect(finding?.entries).toEqual(names.map(uuid));
    expect(finding?.sentence).toMatch(says);
    expect(finding?.remedy).toMatch(/^[A-Z].*\.$/);
    expect(finding).not.toHaveProperty('settled');
  });
});

describe('a finding stays away where it has no place', () => {
  it.each<[string, FindingCode, Line[]]>([
    [
      'a felling after the mark was changed to cut',
      'leave-tree-felled',
      [
        ['stem-marked', { stem, mark: 'leave' }],
        ['mark-changed', { stem, mark: 'cut' }],
        ['stem-felled', { stem, came: 'down' }],
      ],
    ],
    ['a leave tree that stands at closing', 'marked-but-standing', [...work, closing]],
    [
      'a stem marked to cut that was found down',
      'marked-but-standing',
      [
        ['group-laid-out', { group, label: 'G1' }],
        ['stem-marked', { stem, mark: 'cut', group }],
        ['stem-found-down', { stem }],
        closing,
      ],
    ],
    [
      'work after the opening was reopened',
      'cut-in-closed-opening',
      [
        ...work,
        closing,
        ['opening-reopened', { group, reason: 'one more' }],
        ['stem-marked', { stem: other, mark: 'cut', group }],
        ['stem-felled', { stem: other, came: 'down' }],
      ],
    ],
    [
      'a tag that was taken off its first stem',
      'tag-used-twice',
      [
        ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
        ['tag-replaced', { stem, tag: 'B7' }],
        ['stem-marked', { stem: other, mark: 'cut', tag: 'A12' }],
      ],
    ],
    [
      'the same stem marked again with another tag, and its old tag given to another',
      'tag-used-twice',
      [
        ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
        ['stem-marked', { stem, mark: 'cut', tag: 'B7' }],
        ['stem-marked', { stem: other, mark: 'cut', tag: 'A12' }],
      ],
    ],
    [
      'a felled stem that was never marked and is brought in by its felling',
      'missing-target',
      [['stem-felled', { stem, came: 'down', tag: 'U1' }]],
    ],
    [
      'an entry of the same day, known to the day only',
      'late-entry',
      [['note-written', { text: 'frost' }, { happenedAt: at('2026-03-02T00:00:00-05:00', 'day') }]],
    ],
    [
      'an entry of the same evening, though it is the next day in Greenwich',
      'late-entry',
      [
        [
          'note-written',
          { text: 'owl' },
          { happenedAt: at('2026-03-02T18:00:00-05:00'), recordedAt: '2026-03-02T23:00:00-05:00' },
        ],
      ],
    ],
    [
      'a time typed to the minute that is a minute ahead',
      'date-in-future',
      [
        [
          'note-written',
          { text: 'now' },
          { happenedAt: at('2026-03-02T09:01:00-05:00'), recordedAt: '2026-03-02T09:00:01-05:00' },
        ],
      ],
    ],
    [
      'two devices whose clocks differ',
      'clock-ran-backwards',
      [
        ['note-written', { text: 'a' }, { recordedAt: '2026-03-02T09:05:00-05:00' }],
        [
          'note-written',
          { text: 'b' },
          { recordedAt: '2026-03-02T09:01:00-05:00', device: device.b, seq: 1 },
        ],
      ],
    ],
  ])('%s: no %s', (_what, code, log) => {
    expect(codes(written(...log))).not.toContain(code);
  });
});

test.each<[string, JsonObject, RegExp]>([
  ['patch', { patch, condition: 'crushed' }, /^p1 was crushed\.$/],
  ['sapling that is not found', { sapling, condition: 'not-found', byStem: stem }, /^s1 was not found\.$/],
])('a harmed %s is a finding', (_what, body, sentence) => {
  const findings = fold(written(...work, ['sapling-checked', body])).findings;
  expect(findings).toMatchObject([
    { code: 'sapling-harmed', sentence: expect.stringMatching(sentence) as string },
  ]);
});

test('findings about how the log was kept are told apart from those about the woods', () => {
  const about = findingCodes.filter((code) => {
    const finding = fold(written(...cases[code].log)).findings.find((one) => one.code === code);
    return finding !== undefined && isAboutRecord(finding);
  });
  expect(about).toEqual([
    'late-entry',
    'amended-entry',
    'struck-entry',
    'two-corrections',
    'missing-target',
    'clock-ran-backwards',
    'date-in-future',
    'entry-of-revoked-device',
  ]);
});
