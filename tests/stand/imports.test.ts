// What came with a file is taken out by one strike of its import, in whatever order the entries arrive.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Folded, fold, type LogEntry, startFolding } from '../../src/stand/index.ts';
import { device, pen, uuid } from './entries.ts';

const write = pen();
const stem = (number: number) => uuid(0x51_0000 + number);
const batch = { recordedAt: '2026-03-02T12:00:00Z' };
const mark = (number: number, tag: string, written = {}) =>
  write('stem-marked', { stem: stem(number), mark: 'cut', tag }, written);

const before = mark(1, 'A1');
const made = write(
  'import-made',
  { file: 'tally.csv', sha256: 'ab'.repeat(32), format: 'CSV', as: 'stems', entries: 3 },
  batch,
);
const brought = [mark(2, 'B2', batch), mark(3, 'B3', batch), mark(4, 'B4', batch)];
const after = mark(5, 'A5');
/** Another device that has come as far in its own counting, at the same moment. */
const other = mark(6, 'A6', { ...batch, device: device.b, seq: brought[0]?.seq });
const strike = write('entry-struck', { strikes: made.id, reason: 'the wrong woods' });
const restore = write('entry-struck', { strikes: strike.id, reason: 'they were the right ones' });
const amended = write('entry-amended', {
  replaces: brought[1]?.id ?? '',
  type: 'stem-marked',
  v: 1,
  happenedAt: { at: '2026-03-02T12:00:00Z', precision: 'minute' },
  reason: 'misread',
  body: { stem: stem(3), mark: 'leave', tag: 'B3' },
});
const felled = write('stem-felled', { stem: stem(4), came: 'down' });

const tags = ({ stand }: Folded) => [...stand.stems.values()].flatMap(({ tag = [] }) => tag).sort(inOrder);
function inOrder(one: string, another: string): number {
  return one.localeCompare(another);
}

/** What is left, as it comes out of every order: built at once, and taken in one by one. */
function inAnyOrder(entries: readonly LogEntry[], wanted: readonly string[]): void {
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...entries], { minLength: entries.length, maxLength: entries.length }),
      (arrived) => {
        expect(tags(fold(arrived))).toEqual(wanted);
        const folding = startFolding();
        for (const entry of arrived) folding.add([entry]);
        expect(tags(folding.folded())).toEqual(wanted);
        expect(folding.folded().findings).toEqual(fold(entries).findings);
      },
    ),
    { numRuns: 200 },
  );
}

const all = [before, made, ...brought, after, other];

it('a strike of an import takes out what came with it, and nothing of another device or of later', () => {
  inAnyOrder([...all, strike], ['A1', 'A5', 'A6']);
});

it('a strike of that strike brings all of it back', () => {
  inAnyOrder([...all, strike, restore], ['A1', 'A5', 'A6', 'B2', 'B3', 'B4']);
});

it('an amendment of what came with the file goes with it, and comes back with it', () => {
  inAnyOrder([...all, amended, strike], ['A1', 'A5', 'A6']);
  inAnyOrder([...all, amended, strike, restore], ['A1', 'A5', 'A6', 'B2', 'B3', 'B4']);
  expect(fold([...all, amended, strike, restore]).stand.stems.get(stem(3))?.mark).toBe('leave');
});

it('a tree of the file that was felled since stays in the stand, since it was felled', () => {
  const folded = fold([...all, felled, strike]);
  expect(folded.stand.stems.get(stem(4))?.felling?.came).toBe('down');
  expect(folded.stand.stems.get(stem(4))?.mark).toBeUndefined();
});

it('a strike that arrives before its import waits for it', () => {
  const early = fold([before, strike]);
  expect(early.findings.map(({ code }) => code)).toContain('missing-target');
  const folding = startFolding();
  folding.add([before, strike]);
  folding.add([brought[0] ?? before, made]);
  expect(tags(folding.folded())).toEqual(['A1']);
});
