// What must hold for every log, whatever it says: the fold is total, deterministic and forgets what is struck.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EventType } from '../../src/events/index.ts';
import {
  type FindingCode,
  type Folded,
  fold,
  isCorrection,
  type LogEntry,
  playBack,
  startFolding,
} from '../../src/stand/index.ts';
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

  it('plays back to the stand that the fold gives', () => {
    fc.assert(
      fc.property(randomLog, (log) => {
        const folded = fold(log);
        const played = [...playBack(folded.happenings)];
        expect(played.map(({ happening }) => happening)).toEqual(folded.happenings);
        const last = played.at(-1)?.stand ?? fold([]).stand;
        expect(visible({ ...folded, stand: last })).toEqual(visible(folded));
      }),
      runs,
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
    const logs = fc.sample(randomLog, { numRuns: 300, seed: runs.seed });
    const seen = Object.entries(awkward).map(([name, comesUp]) => [name, logs.filter(comesUp).length]);
    expect(seen.filter(([, count]) => Number(count) < 20)).toEqual([]);
  });
});

/** What a log may hold that a fold could stumble over, and how to tell that it does. */
const awkward: Readonly<Record<string, (log: readonly LogEntry[]) => boolean>> = {
  'two devices': (log) => new Set(log.map(({ device }) => device)).size === 2,
  'equal times': (log) => new Set(log.map(({ happenedAt }) => happenedAt.at)).size < log.length,
  'known to the day only': (log) => log.some(({ happenedAt }) => happenedAt.precision === 'day'),
  'a clock that runs backwards': raises('clock-ran-backwards'),
  'a clock offset': (log) => log.some(({ type }) => type === 'clock-offset-noted'),
  'a missing target': raises('missing-target'),
  'two corrections of one version': raises('two-corrections'),
  'a strike of a strike': corrects('entry-struck', 'entry-struck'),
  'a strike of an amendment': corrects('entry-struck', 'entry-amended'),
  'an amendment of an amendment': corrects('entry-amended', 'entry-amended'),
};

function raises(code: FindingCode) {
  return (log: readonly LogEntry[]) => fold(log).findings.some((finding) => finding.code === code);
}

function corrects(correction: EventType, target: EventType) {
  return (log: readonly LogEntry[]) =>
    log.some(
      ({ type, body }) =>
        type === correction && log.find(({ id }) => id === (body.strikes ?? body.replaces))?.type === target,
    );
}
