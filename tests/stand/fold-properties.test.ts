// What must hold for every log, whatever it says: the fold is total, deterministic and forgets what is struck.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Folded, fold, isCorrection, type LogEntry, startFolding } from '../../src/stand/index.ts';
import { randomLog, uuid } from './entries.ts';

const runs = { numRuns: 1500, seed: 20260302 };

/** Everything a reader can see of a folded log. */
function visible({ stand, findings, happenings, standings }: Folded): unknown {
  return {
    stand: Object.fromEntries(
      Object.entries(stand).map(([key, value]) => [key, value instanceof Map ? sorted(value) : value]),
    ),
    findings,
    order: happenings.map(({ entry, version }) => [entry.id, version]),
    standings: sorted(standings),
  };
}

function sorted(map: ReadonlyMap<string, unknown>): unknown[] {
  return [...map]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, value]) => [key, value instanceof Set ? [...(value as Set<string>)].sort() : value]);
}

describe('the fold', () => {
  it('gives the same stand in whatever order the entries arrived', () => {
    fc.assert(
      fc.property(
        randomLog.chain((log) =>
          fc.tuple(
            fc.constant(log),
            fc.shuffledSubarray(log, { minLength: log.length, maxLength: log.length }),
          ),
        ),
        ([log, shuffled]) => {
          expect(visible(fold(shuffled))).toEqual(visible(fold(log)));
        },
      ),
      runs,
    );
  });

  it('gives the same when entries are added one batch after the other as when it is built anew', () => {
    fc.assert(
      fc.property(randomLog, fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 1 }), (log, sizes) => {
        const folding = startFolding();
        for (let at = 0, turn = 0; at < log.length; turn += 1) {
          const size = sizes[turn % sizes.length] ?? 1;
          folding.add(log.slice(at, at + size));
          at += size;
          expect(visible(folding.folded())).toEqual(visible(fold(log.slice(0, at))));
        }
      }),
      { ...runs, numRuns: 500 },
    );
  });

  it('is not changed by an entry that comes twice', () => {
    fc.assert(
      fc.property(randomLog, (log) => {
        expect(visible(fold([...log, ...log]))).toEqual(visible(fold(log)));
      }),
      runs,
    );
  });

  it('forgets a struck entry as if it had never been recorded, apart from the history', () => {
    fc.assert(
      fc.property(randomLog, fc.nat(), (log, pick) => {
        const bare = log.filter(({ type }) => !isCorrection(type));
        const victim = bare[pick % Math.max(1, bare.length)];
        if (victim === undefined) return;
        const strike: LogEntry = {
          ...victim,
          id: uuid(0xee_0000),
          seq: 1_000,
          device: uuid(0xdd_0001),
          type: 'entry-struck',
          body: { strikes: victim.id, reason: 'never happened' },
        };
        const without = bare.filter(({ id }) => id !== victim.id);
        const woods = (entries: LogEntry[]) =>
          visible({ ...fold(entries), findings: [], standings: new Map() });
        expect(woods([...bare, strike])).toEqual(woods(without));
      }),
      runs,
    );
  });

  it('comes upon every awkward case while these properties are tested', () => {
    const seen = {
      twoDevices: 0,
      equalTimes: 0,
      backwards: 0,
      missingTarget: 0,
      strikeOfStrike: 0,
      amendmentOfAmendment: 0,
      clockOffset: 0,
      twoCorrections: 0,
    };
    for (const log of fc.sample(randomLog, { numRuns: 300, seed: runs.seed })) {
      const byId = new Map(log.map((entry) => [entry.id, entry]));
      const codes = new Set(fold(log).findings.map(({ code }) => code));
      if (new Set(log.map((entry) => entry.device)).size === 2) seen.twoDevices += 1;
      if (new Set(log.map((entry) => entry.happenedAt.at)).size < log.length) seen.equalTimes += 1;
      if (codes.has('clock-ran-backwards')) seen.backwards += 1;
      if (codes.has('two-corrections')) seen.twoCorrections += 1;
      if (codes.has('missing-target')) seen.missingTarget += 1;
      for (const { type, body } of log) {
        if (type === 'entry-struck' && byId.get(String(body.strikes))?.type === 'entry-struck')
          seen.strikeOfStrike += 1;
        if (type === 'entry-amended' && byId.get(String(body.replaces))?.type === 'entry-amended')
          seen.amendmentOfAmendment += 1;
        if (type === 'clock-offset-noted') seen.clockOffset += 1;
      }
    }
    for (const [name, count] of Object.entries(seen)) expect(count, name).toBeGreaterThan(10);
  });
});
