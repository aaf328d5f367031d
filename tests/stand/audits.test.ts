// What an audit of stumps does not bring up. What it does stands in findings.test.ts.
import { expect, test } from 'vitest';
import { type FindingCode, fold } from '../../src/stand/index.ts';
import { group, type Line, other, stem, work, written } from './group-story.ts';

test.each<[string, FindingCode, Line[]]>([
  ['a felled stem of a group in which nobody audited a stump', 'felled-without-stump', work],
  [
    'a felled stem whose stump was found by its tag, in small letters',
    'felled-without-stump',
    [...work, ['stump-audited', { tag: 'a12', group }]],
  ],
  [
    'a stump with the tag that its stem lost before it was felled',
    'stump-without-stem',
    [
      ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
      ['tag-replaced', { stem, tag: 'B7' }],
      ['stem-felled', { stem, came: 'down' }],
      ['stump-audited', { tag: 'A12' }],
    ],
  ],
  [
    'a stem that was felled after the last stump of its group was audited',
    'felled-without-stump',
    [
      ...work,
      ['stump-audited', { stem, group }],
      ['stem-marked', { stem: other, mark: 'cut', tag: 'A14', group }],
      ['stem-felled', { stem: other, came: 'down' }],
    ],
  ],
  [
    'a stump whose felling was recorded afterwards',
    'stump-of-standing-stem',
    [
      ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
      ['stump-audited', { stem }],
      ['stem-felled', { stem, came: 'down' }],
    ],
  ],
])('%s: no %s', (_what, code, log) => {
  expect(fold(written(...log)).findings.map((finding) => finding.code)).not.toContain(code);
});

test('a stump without a tag, or with one that two felled stems carried, is explained by none of them', () => {
  const twice: Line[] = [
    ['stem-felled', { stem, came: 'down', tag: 'U1' }],
    ['stem-felled', { stem: other, came: 'down', tag: 'U1' }],
  ];
  for (const stump of [{}, { tag: 'U1' }]) {
    const { findings } = fold(written(...twice, ['stump-audited', stump]));
    expect(findings.map(({ code }) => code)).toContain('stump-without-stem');
  }
});

test('a stump with a tag that a standing stem carries too is that of the felled one', () => {
  const log = written(
    ['stem-marked', { stem: other, mark: 'leave', tag: 'A12' }],
    ['stem-felled', { stem, came: 'down', tag: 'A12' }],
    ['stump-audited', { tag: 'A12' }],
  );
  const codes = fold(log).findings.map(({ code }) => code);
  expect(codes).not.toContain('stump-of-standing-stem');
  expect(codes).not.toContain('stump-without-stem');
});
