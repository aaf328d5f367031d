// What entries do to the stand: later ones say more, and take nothing back that they do not speak of.
import { describe, expect, it, test } from 'vitest';
import { fold } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { closing, group, hazard, type Line, other, patch, stem, work, written } from './group-story.ts';

const block = uuid(0xb1);
const state = (...lines: Line[]) => fold(written(...lines)).stand;

describe('a stem', () => {
  it('keeps what was known of it when it is measured again', () => {
    const dbh = { text: '14 in', value: '14', unit: 'in' };
    const height = { text: '74 ft', value: '74', unit: 'ft' };
    const stand = state(['stem-marked', { stem, mark: 'cut', dbh }], ['stem-measured', { stem, height }]);
    expect(stand.stems.get(stem)).toMatchObject({ dbh, height, mark: 'cut', entries: [uuid(1), uuid(2)] });
  });

  it('that is to be cut after all has no purpose any more', () => {
    const kept: Line = ['stem-marked', { stem, mark: 'leave', purpose: 'cavity' }];
    expect(state(kept).stems.get(stem)).toMatchObject({ mark: 'leave', purpose: 'cavity' });
    const changed = state(kept, ['mark-changed', { stem, mark: 'cut' }]).stems.get(stem);
    expect(changed).toMatchObject({ mark: 'cut', markedBy: uuid(2) });
    expect(changed?.purpose).toBeUndefined();
  });

  it('that lost its tag has one again when it is replaced', () => {
    const tagged: Line[] = [
      ['stem-marked', { stem, mark: 'cut', tag: 'A12' }],
      ['tag-lost', { stem }],
    ];
    expect(state(...tagged).stems.get(stem)).toMatchObject({ tag: 'A12', tagLost: true });
    expect(state(...tagged, ['tag-replaced', { stem, tag: 'B7' }]).stems.get(stem)).toMatchObject({
      tag: 'B7',
      tagLost: false,
      earlierTags: ['A12'],
    });
  });

  it('that was felled was not found down, whatever somebody says who finds it later', () => {
    const felled: Line = ['stem-felled', { stem, came: 'hung-up', tag: 'A12' }];
    expect(state(felled, ['stem-found-down', { stem }]).stems.get(stem)?.status).toBe('hung-up');
    expect(state(['stem-found-down', { stem }]).stems.get(stem)?.status).toBe('found-down');
  });

  it('that is down or hung up is not dead on its feet', () => {
    expect(state(['stem-found-dead', { stem }]).stems.get(stem)?.status).toBe('dead');
    for (const came of ['down', 'hung-up'])
      expect(
        state(['stem-felled', { stem, came }], ['stem-found-dead', { stem }]).stems.get(stem)?.status,
      ).not.toBe('dead');
  });

  it('that was never marked is brought in by its felling, which does not overrule what was known', () => {
    const felled: Line = ['stem-felled', { stem, came: 'down', tag: 'U1', group: other }];
    expect(state(felled).stems.get(stem)).toMatchObject({ tag: 'U1', group: other });
    expect(
      state(['stem-marked', { stem, mark: 'cut', tag: 'A12', group }], felled).stems.get(stem),
    ).toMatchObject({
      tag: 'A12',
      group,
    });
  });
});

test('the first logbook opened is the one; a second one changes nothing', () => {
  const opened = (name: string): Line => [
    'logbook-opened',
    { name, zone: 'America/New_York', units: 'us', crs: 'EPSG:2264' },
  ];
  expect(state(opened('Cold Spring woods'), opened('Other woods')).logbook?.body.name).toBe(
    'Cold Spring woods',
  );
});

test('a block laid out again keeps its prescription and tally scope', () => {
  const stand = state(
    ['block-laid-out', { block, name: 'North cove' }],
    ['prescription-set', { block, objective: 'release oak' }],
    ['tally-scope-set', { block, coverage: 'partial' }],
    ['block-laid-out', { block, name: 'North cove, surveyed' }],
  );
  expect(stand.blocks.get(block)).toMatchObject({
    name: 'North cove, surveyed',
    prescription: { body: { objective: 'release oak' } },
    tallyScope: { body: { coverage: 'partial' } },
    entries: [1, 2, 3, 4].map(uuid),
  });
});

test('an opening is open once the first stem of its group is felled, and closed when somebody says so', () => {
  const opening = (...lines: Line[]) => state(...lines).groups.get(group)?.opening;
  expect(opening(...work.slice(0, 6))).toBe('not cut yet');
  expect(opening(...work)).toBe('open');
  expect(opening(...work, closing)).toBe('closed');
  expect(opening(...work, closing, ['opening-reopened', { group, reason: 'more' }])).toBe('open');
});

test('closing also asks after patches, and after hazards that are known only by their stem', () => {
  const codes = (...lines: Line[]) =>
    fold(written(...lines)).findings.map(({ code, about }) => ({ code, about }));
  const before = work.slice(0, 3);
  expect(codes(...before.slice(0, 1), ['patch-protected', { patch, group }], closing)).toEqual([
    { code: 'sapling-not-checked', about: { patch, group } },
  ]);
  expect(
    codes(
      ...before,
      ['hazard-noted', { hazard, what: 'hanging-limb', stem }],
      ['stem-felled', { stem, came: 'down' }],
      closing,
    ),
  ).toEqual([{ code: 'hazard-open-at-closing', about: { hazard, group } }]);
  // A hazard at a stem of another group is no matter of this one.
  expect(
    codes(
      ...before.slice(0, 1),
      ['stem-marked', { stem: other, mark: 'leave' }],
      ['hazard-noted', { hazard, what: 'dead-top', stem: other }],
      closing,
    ),
  ).toEqual([]);
});

test('who was erased is still counted among the people, without a name to look up', () => {
  const stand = state(
    ['person-named', { person: other, name: 'a'.repeat(64), part: 'feller' }],
    ['photo-taken', { photo: 'b'.repeat(64), mediaType: 'image/jpeg' }],
    ['personal-data-erased', { person: other, reason: 'asked for' }],
  );
  expect(stand.people.get(other)).toMatchObject({ erased: true, part: 'feller' });
  expect(stand.photos).toMatchObject([{ erased: false }]);
});
