// Entries about things that no entry brings in: perhaps another device has not sent its own yet.
import { expect, test } from 'vitest';
import { fold } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { type Line, other, written } from './group-story.ts';

test.each<[string, Line]>([
  ['group', ['group-widened', { group: other, reason: 'more' }]],
  ['sapling', ['sapling-checked', { sapling: other, condition: 'unharmed' }]],
  ['patch', ['sapling-checked', { patch: other, condition: 'unharmed' }]],
  ['hazard', ['hazard-cleared', { hazard: other }]],
  ['block', ['prescription-set', { block: other }]],
])('an entry about a %s that nobody brought in is a finding', (noun, line) => {
  const findings = fold(written(line)).findings;
  expect(findings).toMatchObject([
    {
      code: 'missing-target',
      entries: [uuid(1)],
      sentence: `An entry is about a ${noun} that this log does not hold.`,
    },
  ]);
});
