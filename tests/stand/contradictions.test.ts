// Entries that cannot be true together with others: none is refused, none changes the stand in silence, and
// the finding calls things as they are called now.
import { describe, expect, it } from 'vitest';
import { fold } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { type Line, other, stem, work, written } from './group-story.ts';

describe('what cannot be true together is kept and asked about', () => {
  const laid = { text: '40 mag', value: '40', reference: 'mag' };
  it.each<[string, Line[], RegExp]>([
    [
      'a stem that stands is brought down',
      [
        ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
        ['hang-up-cleared', { stem }],
      ],
      /^A12 is recorded as brought down, but was not recorded as hung up then\.$/,
    ],
    [
      'a felled stem is found down',
      [...work, ['stem-found-down', { stem }]],
      /^A12 is recorded as found down, but was felled before\.$/,
    ],
    [
      'a hung-up stem is found down: it counts as hung up until it is cleared',
      [...work.slice(0, 7), ['stem-found-down', { stem }]],
      /^A12 is recorded as found down while it was hung up; it still counts as hung up\.$/,
    ],
    [
      'a felled stem is found dead on its feet',
      [...work, ['stem-found-dead', { stem }]],
      /^A12 is recorded as dead on its feet, but was down before\.$/,
    ],
    [
      'a stem hangs in itself',
      [
        ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
        ['stem-felled', { stem, came: 'hung-up', hungOn: stem }],
      ],
      /^A12 is recorded as hung up in itself\.$/,
    ],
    [
      'a stem hangs in one that is down',
      [
        ...work,
        ['stem-marked', { stem: other, mark: 'cut', tag: 'A14' }],
        ['stem-felled', { stem: other, came: 'hung-up', hungOn: stem }],
      ],
      /^A14 is recorded as hung up in A12, which was down already\.$/,
    ],
    [
      'a logbook is opened twice',
      [
        ['logbook-opened', { name: 'Cold Spring', zone: 'UTC', units: 'us', crs: 'EPSG:2264' }],
        ['logbook-opened', { name: 'Warm Spring', zone: 'UTC', units: 'us', crs: 'EPSG:2264' }],
      ],
      /^The logbook is recorded as opened a second time, as Warm Spring; the first entry holds\.$/,
    ],
  ])('%s', (_what, log, sentence) => {
    expect(fold(written(...log)).findings).toMatchObject([
      { code: 'contradiction', sentence: expect.stringMatching(sentence) as string },
    ]);
  });

  it('and the lay of a stem that was not hung up stays as it was measured', () => {
    const { stand } = fold(
      written(
        ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
        ['stem-felled', { stem, came: 'down', lay: laid }],
        ['hang-up-cleared', { stem, lay: { ...laid, text: '90 mag', value: '90' } }],
      ),
    );
    expect(stand.stems.get(stem)?.felling).toMatchObject({ lay: laid });
    expect(stand.stems.get(stem)?.felling?.clearedBy).toBeUndefined();
  });

  it.each<[string, Line[]]>([
    [
      'block',
      [
        ['block-laid-out', { block: uuid(1), name: 'North cove' }],
        ['block-laid-out', { block: uuid(2), name: 'north cove' }],
      ],
    ],
    [
      'stake',
      [
        ['stake-set', { stake: uuid(1), label: 'A' }],
        ['stake-set', { stake: uuid(2), label: 'a' }],
      ],
    ],
  ])('two %ss of one name', (noun, log) => {
    expect(fold(written(...log)).findings).toMatchObject([
      {
        code: 'label-used-twice',
        entries: [uuid(1), uuid(2)],
        sentence: expect.stringMatching(noun) as string,
      },
    ]);
    expect(fold(written(...log.slice(0, 1), ...log.slice(0, 1))).findings).toEqual([]);
  });
});

describe('a finding is told with the labels that things carry now', () => {
  const felled: Line[] = [['stem-felled', { stem, came: 'down' }]];
  const first = (...log: Line[]) =>
    fold(written(...log)).findings.find(({ about }) => about.stem === stem)?.sentence;

  it('and says when the mark is dated later than the felling', () => {
    expect(first(...felled)).toMatch(/^an untagged stem \(.{6}\) was felled without a mark\.$/);
    expect(first(...felled, ['stem-marked', { stem, mark: 'cut', tag: 'A12' }])).toBe(
      'A12 was felled without a mark; its mark is dated later.',
    );
    expect(
      first(['stem-marked', { stem, mark: 'leave', tag: 'L1' }], ...felled, [
        'mark-changed',
        { stem, mark: 'cut' },
      ]),
    ).toBe('L1 was to stay and was felled; the change of its mark is dated later.');
  });
});
