// All versions and corrections of one entry, in whatever order they arrived.
import { describe, expect, it } from 'vitest';
import { fold, versionsOf } from '../../src/stand/index.ts';
import { uuid } from './entries.ts';
import { type Line, written } from './group-story.ts';

const amendment = (replaces: number, text: string): Line => [
  'entry-amended',
  {
    replaces: uuid(replaces),
    type: 'note-written',
    v: 1,
    body: { text },
    happenedAt: { at: '2026-03-02T09:01:00-05:00', precision: 'minute' },
    reason: 'misheard',
  },
];
const strike = (strikes: number): Line => [
  'entry-struck',
  { strikes: uuid(strikes), reason: 'not said at all' },
];
const log = written(['note-written', { text: 'a' }], amendment(1, 'b'), amendment(2, 'c'), [
  'note-written',
  { text: 'another' },
]);
const told = (entries: typeof log, id: number) =>
  versionsOf(uuid(id), fold(entries)).map(({ entry, did, of, inForce }) => [
    entry.seq,
    did,
    of === undefined ? 0 : Number.parseInt(of.slice(-12), 16),
    inForce,
  ]);

describe('the versions of an entry', () => {
  const all = [
    [1, 'recorded', 0, false],
    [2, 'amended', 1, false],
    [3, 'amended', 2, true],
  ];
  it('are the entry and every amendment of an amendment', () => {
    expect(told(log, 1)).toEqual(all);
  });
  it('are the same when a later amendment arrived first', () => {
    expect(told([...log].reverse(), 1)).toEqual(all);
  });
  it('are found from any of them', () => {
    expect(told(log, 3)).toEqual(all);
  });
  it('are one alone when nothing was put right', () => {
    expect(told(log, 4)).toEqual([[4, 'recorded', 0, true]]);
  });
  it('hold the strike; then none is in force', () => {
    expect(
      told([...log, ...written(...Array<Line>(4).fill(['note-written', {}]), strike(3)).slice(4)], 1),
    ).toEqual([
      [1, 'recorded', 0, false],
      [2, 'amended', 1, true],
      [3, 'amended', 2, false],
      [5, 'struck', 3, false],
    ]);
  });
  it('of an entry that is not here yet are its corrections', () => {
    expect(told(log.slice(1, 3), 2)).toEqual([
      [2, 'amended', 1, false],
      [3, 'amended', 2, false],
    ]);
    expect(versionsOf(uuid(99), fold(log))).toEqual([]);
  });
});
