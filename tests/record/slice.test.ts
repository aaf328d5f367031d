// Deciding from a slice of the logbook gives what deciding from the whole of it would give. The slice only
// saves time; here random logs are asked the same thing both ways.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Draft, Recorded } from '../../src/record/index.ts';
import { recordDraft } from '../../src/record/index.ts';
import { emptyWoods, type Woods } from './woods.ts';

const tag = fc.constantFrom('A1', 'a1', 'A2', 'A3', 'L1');
const group = fc.constantFrom('G1', 'G2');
const sapling = fc.constantFrom('s1', 's2');
const number = fc.integer({ min: 0, max: 30 }).map(String);
const answers = ['anyway', 'keep-both'];

function draft(kind: string, fields: Record<string, fc.Arbitrary<string>>): fc.Arbitrary<Draft> {
  return fc.record(fields).map((given) => ({ kind, fields: given }));
}

const drafts: fc.Arbitrary<Draft> = fc.oneof(
  draft('stem-marked', { mark: fc.constantFrom('cut', 'leave'), tag, group }),
  draft('stem-marked', {
    mark: fc.constant('cut'),
    tag,
    position: tag.map((from) => `40 mag, 12 ft from stem ${from}`),
  }),
  draft('stem-felled', { stem: tag, came: fc.constantFrom('down', 'hung-up') }),
  draft('stem-felled', { stem: tag, came: fc.constant('hung-up'), hungOn: tag }),
  draft('stake-set', { label: fc.constantFrom('S1', 's1') }),
  draft('hang-up-cleared', { stem: tag }),
  draft('stem-found-down', { stem: tag }),
  draft('tag-replaced', { stem: tag, tag }),
  draft('tag-lost', { stem: tag }),
  draft('group-laid-out', { label: group }),
  draft('sapling-protected', { label: sapling, group }),
  draft('sapling-checked', { sapling, condition: fc.constantFrom('unharmed', 'broken') }),
  draft('hazard-noted', { what: fc.constant('hanging-limb'), stem: tag, group }),
  draft('hazard-cleared', { hazard: tag }),
  draft('hazard-cleared', { hazard: number.map((position) => `entry ${position}`) }),
  draft('opening-closed', { group }),
  draft('opening-reopened', { group, reason: fc.constant('more to do') }),
  draft('entry-amended', { replaces: number, reason: fc.constant('misread'), tag }),
  draft('entry-amended', {
    replaces: number,
    reason: fc.constant('measured'),
    note: fc.constant('looked again'),
  }),
  draft('entry-amended', { replaces: number, reason: fc.constant('another group'), group }),
  draft('entry-struck', { strikes: number, reason: fc.constant('twice') }),
);

/** A desk whose lookup gives every entry for every key: its slice is the whole logbook. */
function withWhole({ desk, log }: Woods): Woods['desk'] {
  const entries = async () => {
    const all = [];
    for await (const page of log.read()) all.push(...page);
    return all;
  };
  return {
    ...desk,
    // Looked at and not appended: both ways start from the same log.
    log: { ...log, compose: async () => [] },
    lookup: { entries, positions: async () => (await entries()).map(({ position }) => position) },
  };
}

/** What a person would read; ids that are made anew by every try are left out. */
function told(recorded: Recorded): unknown {
  if (recorded.outcome === 'problems') return recorded.problems;
  if (recorded.outcome === 'questions') return recorded.questions;
  return recorded.outcome;
}

it('the slice asks and refuses what the whole logbook would', async () => {
  const outcomes = new Map<string, number>();
  await fc.assert(
    fc.asyncProperty(fc.array(drafts, { minLength: 8, maxLength: 24 }), async (log) => {
      const here = await emptyWoods();
      for (const label of ['G1', 'G2']) await here.record('group-laid-out', { label });
      await here.record('stem-marked', { mark: 'cut', tag: 'A1', group: 'G1' });
      await here.record('stem-marked', { mark: 'leave', tag: 'L1', group: 'G2' });
      for (const one of log) {
        const bySlice = await recordDraft(
          { ...here.desk, log: { ...here.log, compose: async () => [] } },
          one,
        );
        const byWhole = await recordDraft(withWhole(here), one);
        expect(told(bySlice), JSON.stringify(one)).toEqual(told(byWhole));
        outcomes.set(bySlice.outcome, (outcomes.get(bySlice.outcome) ?? 0) + 1);
        await recordDraft(here.desk, { ...one, answers });
      }
    }),
    { numRuns: 25 },
  );
  // Each of the three ways came up, or nothing was compared.
  expect([...outcomes.keys()].sort()).toEqual(['problems', 'questions', 'recorded']);
});
