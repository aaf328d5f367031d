// One group from marking to closing, kept as it should be: no findings. Then, for each finding, what went
// otherwise; the finding comes up, names its entries, and says what to do.
import { describe, expect, it, test } from 'vitest';
import type { JsonObject } from '../../src/events/index.ts';
import { type FindingCode, findingCodes, fold, isAboutRecord, type LogEntry } from '../../src/stand/index.ts';
import { device, uuid } from './entries.ts';
import { at, cases } from './finding-cases.ts';
import { closing, group, type Line, other, patch, sapling, stem, work, written } from './group-story.ts';

function codes(log: LogEntry[]): FindingCode[] {
  return fold(log).findings.map(({ code }) => code);
}

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
