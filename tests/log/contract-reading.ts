// The part of the contract about reading: times, pages, keys, tree and proofs.
import { describe, expect } from 'vitest';
import { fromHex, verifyConsistency, verifyInclusion } from '../../src/log/entry/index.ts';
import type { Log, Stored } from '../../src/log/store/index.ts';
import { eachWith } from './contract.ts';
import { all, entries, entryWithBody, idOf, noon } from './made-up.ts';
import { leafText } from './memory-log.ts';
import { sha256, slowRoot } from './slow-tree.ts';

const hexRoot = (stored: readonly Stored[]): string =>
  Buffer.from(slowRoot(stored.map(leafText))).toString('hex');

export function readingContract(name: string, make: () => Promise<Log>): void {
  const logged = eachWith(make);

  describe(`${name}: time of receipt`, () => {
    logged('never goes back, so that "known then" is a size', async (log) => {
      const times = ['2026-03-14T10:00:00Z', '2026-03-14T09:00:00Z', '2026-03-14T12:30:00.250+01:00'];
      for (const [index, time] of times.entries()) await log.append(entries(index + 1, index + 1), time);
      expect((await all(log)).map(({ receivedAt }) => receivedAt)).toEqual([
        '2026-03-14T10:00:00.000Z',
        '2026-03-14T10:00:00.000Z',
        '2026-03-14T11:30:00.250Z',
      ]);
    });

    logged('gives how many entries had been received by a time', async (log) => {
      expect(await log.sizeReceivedBy(noon)).toBe(0);
      for (let hour = 10; hour < 20; hour += 1)
        await log.append(entries(2 * hour, 2 * hour + 1), `2026-03-14T${hour}:00:00Z`);
      expect(await log.sizeReceivedBy('2026-03-14T09:59:59.999Z')).toBe(0);
      expect(await log.sizeReceivedBy('2026-03-14T10:00:00Z')).toBe(2);
      expect(await log.sizeReceivedBy('2026-03-14T08:30:00-05:00')).toBe(8);
      expect(await log.sizeReceivedBy('2026-03-14T13:00:00+01:00')).toBe(6);
      expect(await log.sizeReceivedBy('2030-01-01T00:00:00Z')).toBe(20);
      await expect(log.sizeReceivedBy('yesterday')).rejects.toThrow(RangeError);
    });
  });

  describe(`${name}: reading`, () => {
    logged('gives pages of at most 1,000 in order, from and up to a position', async (log) => {
      await log.append(entries(1, 2345), noon);
      const pages: number[] = [];
      for await (const page of log.read()) pages.push(page.length);
      expect(pages).toEqual([1000, 1000, 345]);
      expect((await all(log, { from: 998, to: 1003 })).map(({ position }) => position)).toEqual([
        998, 999, 1000, 1001, 1002,
      ]);
      expect(await all(log, { from: 2345 })).toEqual([]);
      expect(await all(log, { from: 7, to: 7 })).toEqual([]);
      expect((await log.at(2344))?.id).toBe(idOf(2345));
      expect(await log.at(2345)).toBeUndefined();
      expect(await log.get(idOf(0))).toBeUndefined();
    });

    logged('finds by keys just what a scan finds, while the log grows', async (log) => {
      const keysOf = ({ bytes }: Stored): string[] => {
        const number = bytes.length % 3;
        return [`by length ${number}`, 'every', 'every'];
      };
      const lookup = log.lookup(keysOf, 'lengths 1');
      for (const [from, to] of [
        [1, 12],
        [13, 13],
        [14, 1100],
      ] as const) {
        await log.append(
          Array.from({ length: to - from + 1 }, (_, index) => ({
            bytes: entryWithBody(from + index, { text: 'x'.repeat((from + index) % 7) }),
          })),
          noon,
        );
        for (const keys of [
          ['by length 0'],
          ['by length 1', 'by length 2'],
          ['every', 'every'],
          ['none'],
          [],
        ]) {
          const scanned = (await all(log)).filter((one) => keysOf(one).some((key) => keys.includes(key)));
          expect(await lookup.positions(keys)).toEqual(scanned.map(({ position }) => position));
          expect(await lookup.entries(keys)).toEqual(scanned);
        }
      }
    });
  });

  describe(`${name}: the tree`, () => {
    logged('has at every size the root that RFC 9162 gives its leaves', async (log) => {
      expect(await log.head()).toEqual({ size: 0, root: Buffer.from(sha256(Buffer.of())).toString('hex') });
      let next = 1;
      for (const length of [1, 1, 2, 3, 1, 8, 20]) {
        await log.append(entries(next, next + length - 1), noon);
        next += length;
        const stored = await all(log);
        expect(await log.head()).toEqual({ size: stored.length, root: hexRoot(stored) });
      }
      const stored = await all(log);
      for (let size = 0; size <= stored.length; size += 1)
        expect(await log.rootAt(size)).toBe(hexRoot(stored.slice(0, size)));
      await expect(log.rootAt(stored.length + 1)).rejects.toThrow(RangeError);
      await expect(log.rootAt(-1)).rejects.toThrow(RangeError);
      await expect(log.rootAt(0.5)).rejects.toThrow(RangeError);
    });

    logged('proves that an entry is in it and that it begins with what it was', async (log) => {
      await log.append(entries(1, 21), noon);
      const root = fromHex((await log.head()).root) ?? new Uint8Array();
      for (const { position, ...stored } of await all(log)) {
        const leaf = sha256(Buffer.concat([Buffer.of(0), leafText({ position, ...stored })]));
        const proof = await log.inclusionProof(position, 21);
        expect(verifyInclusion(leaf, position, 21, proof, root)).toBe(true);
        expect(verifyInclusion(sha256(leaf), position, 21, proof, root)).toBe(false);
      }
      for (let from = 1; from <= 21; from += 1) {
        const old = fromHex(await log.rootAt(from)) ?? new Uint8Array();
        expect(verifyConsistency(from, 21, old, root, await log.consistencyProof(from, 21))).toBe(true);
      }
      await expect(log.inclusionProof(3, 22)).rejects.toThrow(RangeError);
    });
  });

  describe(`${name}: backups`, () => {
    logged('remembers the last one', async (log) => {
      expect(await log.lastBackup()).toBeUndefined();
      const head = await log.head();
      for (const at of ['2026-03-14T18:00:00Z', '2026-03-15T18:00:00Z'])
        await log.noteBackup({ at, name: 'woods.backup', head });
      expect(await log.lastBackup()).toEqual({ at: '2026-03-15T18:00:00Z', name: 'woods.backup', head });
    });
  });
}
