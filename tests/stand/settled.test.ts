// Findings that later entries settled: they stay, and say by which entry.
import { describe, expect, it } from 'vitest';
import { type Finding, type FindingCode, fold, type LogEntry, openFindings } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import {
  closing,
  group,
  hazard,
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
const second = uuid(0x53_0002);

describe('a finding that later entries settled says so, and by which', () => {
  const settledBy = (log: LogEntry[], code: FindingCode): Finding['settled'] =>
    fold(log).findings.find((finding) => finding.code === code)?.settled;
  const unchecked: Line[] = [
    ...work.filter(([, body]) => body.sapling === undefined || body.condition === undefined),
    closing,
  ];
  const standing = [...without('stem-felled', 'hang-up-cleared'), closing];

  const twoTags: Line[] = [...work, ['stem-marked', { stem: other, mark: 'leave', tag: 'a12' }]];
  const cutLater: Line[] = [
    ...work,
    closing,
    ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group }],
    ['stem-felled', { stem: other, came: 'down' }],
  ];
  const why = (about: string): Line => ['note-written', { text: 'the wind had broken it', stem: about }];

  it.each<[FindingCode, Line[], Line]>([
    ['marked-but-standing', standing, ['stem-felled', { stem, came: 'down' }]],
    ['marked-but-standing', standing, ['mark-changed', { stem, mark: 'leave' }]],
    ['marked-but-standing', standing, ['stem-found-down', { stem }]],
    ['hung-up-stem-left', [...without('hang-up-cleared'), closing], ['hang-up-cleared', { stem }]],
    ['hazard-open-at-closing', [...without('hazard-cleared'), closing], ['hazard-cleared', { hazard }]],
    ['tag-used-twice', twoTags, ['tag-replaced', { stem: other, tag: 'A15' }]],
    [
      'label-used-twice',
      [...work, ['group-laid-out', { group: second, label: 'G1' }]],
      ['group-laid-out', { group: second, label: 'G2' }],
    ],
    ['cut-in-closed-opening', cutLater, ['opening-reopened', { group, reason: 'two more' }]],
    ['felled-without-mark', [...work, ['stem-felled', { stem: other, came: 'down', tag: 'U1' }]], why(other)],
    ['leave-tree-felled', [...work, ['stem-felled', { stem: leave, came: 'down' }]], why(leave)],
    ['felled-twice', [...work, ['stem-felled', { stem, came: 'down' }]], why(stem)],
    ['contradiction', [...work, ['stem-found-down', { stem }]], why(stem)],
    ['felled-without-stump', [...work, ['stump-audited', { tag: 'Z9', group }]], why(stem)],
    ['stump-of-standing-stem', [...work, ['stump-audited', { stem: leave, group }]], why(leave)],
    [
      'sapling-harmed',
      [...work, ['sapling-checked', { sapling, condition: 'broken' }]],
      ['note-written', { text: 'the top turned', sapling }],
    ],
    [
      'sapling-harmed',
      [...work, ['sapling-checked', { patch, condition: 'crushed' }]],
      ['note-written', { text: 'the top turned', patch }],
    ],
    [
      'holding-tree-felled',
      [
        ...work,
        ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group }],
        ['stem-felled', { stem: other, came: 'hung-up', hungOn: holder }],
        ['stem-marked', { stem: holder, mark: 'cut', tag: 'A15', group }],
        ['stem-felled', { stem: holder, came: 'down' }],
      ],
      ['hang-up-cleared', { stem: other }],
    ],
    ['sapling-not-checked', unchecked, ['sapling-checked', { sapling, condition: 'unharmed' }]],
  ])('%s', (code, before, line) => {
    const log = written(...before, line, ['note-written', { text: 'later' }], ['stem-measured', { stem }]);
    const settling = log[before.length];
    expect(settledBy(log.slice(0, before.length), code)).toBeUndefined();
    expect(settledBy(log, code)).toBe(settling?.id);
    expect(openFindings(fold(log).findings).map((finding) => finding.code)).not.toContain(code);
  });

  it('but a note from before it, or about something else, explains nothing', () => {
    const unmarked: Line = ['stem-felled', { stem: other, came: 'down', tag: 'U1' }];
    expect(settledBy(written(...work, why(other), unmarked), 'felled-without-mark')).toBeUndefined();
    expect(settledBy(written(...work, unmarked, why(stem)), 'felled-without-mark')).toBeUndefined();
  });

  it('and is open again when what settled it is struck', () => {
    const log = written(
      ...standing,
      ['stem-felled', { stem, came: 'down' }],
      ['entry-struck', { strikes: uuid(standing.length + 1), reason: 'another stem' }],
    );
    expect(settledBy(log, 'marked-but-standing')).toBeUndefined();
    expect(openFindings(fold(log).findings).map((finding) => finding.code)).toContain('marked-but-standing');
  });

  it('a hung-up stem that was felled again and came down is no longer left', () => {
    const log = written(
      ...without('hang-up-cleared'),
      closing,
      ['hang-up-cleared', { stem }],
      ['stem-felled', { stem, came: 'down' }],
    );
    expect(settledBy(log, 'hung-up-stem-left')).toBeDefined();
  });
});
