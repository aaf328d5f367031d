// The part of the contract about appending: outcomes, batches, numbers of devices.
import { describe, expect } from 'vitest';
import type { Incoming, Log, Receipt } from '../../src/log/store/index.ts';
import { eachWith, only } from './contract.ts';
import { all, deviceA, deviceB, entries, entryOf, idOf, noon, sealedRow, signatureOf } from './made-up.ts';

export function appendingContract(name: string, make: () => Promise<Log>): void {
  const logged = eachWith(make);

  describe(`${name}: what becomes of an entry`, () => {
    logged('a new entry is recorded at the next position and told when it was received', async (log) => {
      expect(log.facts().logbook).toBeUndefined();
      const receipts = await log.append(entries(1, 3), '2026-03-14T12:00:00-05:00');
      expect(receipts).toEqual(
        [1, 2, 3].map((number) => ({
          outcome: 'recorded',
          id: idOf(number),
          position: number - 1,
          receivedAt: noon,
        })),
      );
      expect(log.facts().logbook).toBe(idOf(1));
      expect((await all(log)).map(({ bytes }) => Buffer.from(bytes).toString())).toEqual(
        [1, 2, 3].map((number) => Buffer.from(entryOf(number)).toString()),
      );
    });

    logged('the same id with the same bytes is there already, with the first receipt', async (log) => {
      await log.append(entries(1, 3), noon);
      const before = await log.head();
      expect(only(await log.append(entries(2, 2), '2026-03-15T09:00:00Z'))).toEqual({
        outcome: 'already-recorded',
        id: idOf(2),
        position: 1,
        receivedAt: noon,
      });
      expect(await log.head()).toEqual(before);
    });

    logged('the same id with other bytes is a conflict; both are kept', async (log) => {
      await log.append(entries(1, 3), noon);
      const other = entryOf(2, { body: { tag: 'B2' } });
      expect(only(await log.append([{ bytes: other }], noon))).toEqual({
        outcome: 'conflict',
        id: idOf(2),
        position: 1,
        aside: 1,
      });
      expect(Buffer.from((await log.get(idOf(2)))?.bytes ?? [])).toEqual(Buffer.from(entryOf(2)));
      const [aside] = await log.aside();
      expect(aside?.conflictsWith).toBe(1);
      expect(Buffer.from(aside?.bytes ?? [])).toEqual(Buffer.from(other));
      expect(aside).not.toHaveProperty('settledBy');
    });

    logged('within one batch too, an id can be there already or conflict', async (log) => {
      const receipts = await log.append(
        [...entries(1, 1), ...entries(1, 1), { bytes: entryOf(1, { body: {} }) }, ...entries(2, 2)],
        noon,
      );
      expect(receipts.map(({ outcome }) => outcome)).toEqual([
        'recorded',
        'already-recorded',
        'conflict',
        'recorded',
      ]);
      expect((await log.head()).size).toBe(2);
    });

    logged(
      'what cannot be read names field and remedy; its bytes are kept, the others go in',
      async (log) => {
        const bytes = Buffer.from('{"id":"stem A12 is down"}');
        const receipts = await log.append([...entries(1, 1), { bytes }, ...entries(2, 2)], noon);
        expect(receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'unreadable', 'recorded']);
        expect(receipts[1]).toMatchObject({ issue: { field: 'type' }, aside: 1 });
        expect((await all(log)).map(({ position }) => position)).toEqual([0, 1]);
        expect(Buffer.from((await log.aside())[0]?.bytes ?? [])).toEqual(bytes);
      },
    );

    logged('a body that the caller refuses is kept aside like any other', async (log) => {
      const issue = { field: 'tag', value: 'A2', remedy: 'no such tag' };
      const receipts = await log.append(entries(1, 3), noon, {
        check: ({ body }) => (body.tag === 'A2' ? issue : undefined),
      });
      expect(receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'unreadable', 'recorded']);
      expect(receipts[1]).toMatchObject({ issue });
    });

    logged(
      'a signature belongs to the entry; one that is none is kept aside to the last letter',
      async (log) => {
        const signature = signatureOf('entry 1');
        const odd = { keyId: 'key with spaces', signature: 'a b  c\u0000\ud800 "ü"' };
        const receipts = await log.append(
          [
            { bytes: entryOf(1), signature },
            { bytes: entryOf(2), signature: odd },
          ],
          noon,
        );
        expect(receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'unreadable']);
        expect((await log.at(0))?.signature).toEqual(signature);
        expect((await log.aside())[0]?.signature).toEqual(odd);
      },
    );
  });

  describe(`${name}: batches`, () => {
    logged('no entries: nothing happens, however often', async (log) => {
      await log.append(entries(1, 2), noon);
      const before = await log.head();
      for (let time = 0; time < 3; time += 1) {
        expect(await log.append([], '2026-03-20T00:00:00Z')).toEqual([]);
        expect(await log.compose(deviceA, () => [], '2026-03-20T00:00:00Z')).toEqual([]);
      }
      expect(await log.head()).toEqual(before);
      const receipt = only(await log.append(entries(3, 3), noon));
      expect(receipt).toMatchObject({ position: 2, receivedAt: noon });
    });

    logged('a batch that fails leaves nothing: no entry, no hole, nothing aside, no erasing', async (log) => {
      const row = sealedRow('Jo Sawyer');
      await log.append([{ bytes: entryOf(1, { sealed: [row.hash] }), sealed: [row] }], noon);
      const before = await log.head();
      const batch: Incoming[] = [
        ...entries(2, 3),
        { bytes: Buffer.from('rubbish') },
        { bytes: entryOf(4, { erases: [row.hash] }) },
        ...entries(5, 5),
      ];
      const failing = log.append(batch, noon, {
        check: ({ seq }) => {
          if (seq === 5) throw new Error('lightning');
          return undefined;
        },
      });
      await expect(failing).rejects.toThrow('lightning');
      expect(await log.head()).toEqual(before);
      expect(await all(log)).toHaveLength(1);
      expect(await log.aside()).toEqual([]);
      expect(await log.sealed(row.hash)).toBeDefined();
      const receipts = await log.append(batch, noon);
      expect(receipts.flatMap((one) => ('position' in one ? [one.position] : []))).toEqual([1, 2, 3, 4]);
    });

    logged('a time that is none is refused before anything is written', async (log) => {
      await expect(log.append(entries(1, 1), '14 March, noon')).rejects.toThrow(RangeError);
      expect((await log.head()).size).toBe(0);
    });
  });

  describe(`${name}: numbers of a device`, () => {
    logged('composing takes the next number of that device, whatever came in between', async (log) => {
      const made: number[] = [];
      const compose = (device: string, count: number, floor?: number): Promise<Receipt[]> =>
        log.compose(
          device,
          (firstSeq) => {
            made.push(firstSeq);
            return Array.from({ length: count }, (_, index) => ({
              bytes: entryOf(100 * made.length + index, { device, seq: firstSeq + index }),
            }));
          },
          noon,
          floor === undefined ? {} : { floor },
        );
      await compose(deviceA, 2);
      await compose(deviceB, 1);
      await log.append([{ bytes: entryOf(9, { device: deviceA, seq: 9 }) }], noon);
      await compose(deviceA, 1);
      await compose(deviceA, 1, 40);
      await compose(deviceA, 1, 3);
      expect(made).toEqual([1, 1, 10, 41, 42]);
    });
  });
}
