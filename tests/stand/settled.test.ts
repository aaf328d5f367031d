// Findings that later entries settled: they stay, and say by which entry.
import { describe, expect, it } from 'vitest';
import { type Finding, type FindingCode, fold, type LogEntry, openFindings } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { closing, hazard, type Line, sapling, stem, without, work, written } from './group-story.ts';

describe('a finding that later entries settled says so, and by which', () => {
  const settledBy = (log: LogEntry[], code: FindingCode): Finding['settled'] =>
    fold(log).findings.find((finding) => finding.code === code)?.settled;
  const unchecked: Line[] = [
    ...work.filter(([, body]) => body.sapling === undefined || body.condition === undefined),
    closing,
  ];
  const standing = [...without('stem-felled', 'hang-up-cleared'), closing];

  it.each<[FindingCode, Line[], Line]>([
    ['marked-but-standing', standing, ['stem-felled', { stem, came: 'down' }]],
    ['marked-but-standing', standing, ['mark-changed', { stem, mark: 'leave' }]],
    ['marked-but-standing', standing, ['stem-found-down', { stem }]],
    ['hung-up-stem-left', [...without('hang-up-cleared'), closing], ['hang-up-cleared', { stem }]],
    ['hazard-open-at-closing', [...without('hazard-cleared'), closing], ['hazard-cleared', { hazard }]],
    ['sapling-not-checked', unchecked, ['sapling-checked', { sapling, condition: 'unharmed' }]],
  ])('%s', (code, before, line) => {
    const log = written(...before, line, ['note-written', { text: 'later' }], ['stem-measured', { stem }]);
    const settling = log[before.length];
    expect(settledBy(log.slice(0, before.length), code)).toBeUndefined();
    expect(settledBy(log, code)).toBe(settling?.id);
    expect(openFindings(fold(log).findings).map((finding) => finding.code)).not.toContain(code);
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
