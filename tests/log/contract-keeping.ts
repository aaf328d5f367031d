// The part of the contract about what is kept beside the entries: erasable rows, things set aside.
import { describe, expect } from 'vitest';
import type { Incoming, Log } from '../../src/log/store/index.ts';
import { eachWith, only } from './contract.ts';
import { entries, entryOf, noon, sealedRow, signatureOf } from './made-up.ts';

export function keepingContract(name: string, make: () => Promise<Log>): void {
  const logged = eachWith(make);

  describe(`${name}: rows that can be erased`, () => {
    const row = sealedRow('Jo Sawyer, 12 Mill Lane');
    const named: Incoming = { bytes: entryOf(1, { sealed: [row.hash] }), sealed: [row] };
    const erasing: Incoming = { bytes: entryOf(2, { erases: [row.hash] }) };

    logged('an entry that names a row needs it once; a later one may name it again', async (log) => {
      const alone = { bytes: entryOf(1, { sealed: [row.hash] }) };
      expect(only(await log.append([alone], noon))).toMatchObject({ issue: { field: 'sealed' }, aside: 1 });
      expect(only(await log.append([named], noon))).toMatchObject({ outcome: 'recorded' });
      expect(await log.sealed(row.hash)).toEqual(row);
      const again = { bytes: entryOf(3, { sealed: [row.hash] }) };
      expect(only(await log.append([again], noon))).toMatchObject({ outcome: 'recorded' });
    });

    logged('what was set aside stays listed, and says which entry settled it', async (log) => {
      await log.append([{ bytes: entryOf(1, { sealed: [row.hash] }) }], noon);
      await log.append(entries(5, 5), noon);
      expect((await log.aside())[0]).not.toHaveProperty('settledBy');
      await log.append([named], noon);
      expect((await log.aside()).map(({ number, settledBy }) => [number, settledBy])).toEqual([[1, 1]]);
    });

    logged('a row with a wrong hash, a short salt or no entry to it is refused and kept', async (log) => {
      const wrong = [
        { ...row, bytes: Buffer.from('Jo Sawyer, 13 Mill Lane') },
        { ...row, salt: row.salt.subarray(1) },
        sealedRow('somebody else'),
      ];
      for (const [index, one] of wrong.entries()) {
        const receipt = only(await log.append([{ ...named, sealed: [row, one] }], noon));
        expect(receipt).toMatchObject({
          outcome: 'unreadable',
          issue: { field: 'sealed' },
          aside: index + 1,
        });
      }
      expect((await log.aside()).map(({ sealed }) => sealed)).toEqual(wrong.map((one) => [row, one]));
      expect(await log.sealed(row.hash)).toBeUndefined();
    });

    logged('erasing takes row and salt away; the entries stay', async (log) => {
      await log.append([named, erasing], noon);
      expect(await log.sealed(row.hash)).toBeUndefined();
      expect((await log.head()).size).toBe(2);
    });

    logged('what was erased does not come back, neither recorded nor set aside', async (log) => {
      const conflict: Incoming = { bytes: entryOf(1, { sealed: [row.hash], body: {} }), sealed: [row] };
      await log.append([named, conflict], noon);
      expect((await log.aside())[0]?.sealed).toEqual([row]);
      await log.append([erasing], noon);
      expect((await log.aside())[0]?.sealed).toEqual([]);
      const later: Incoming[] = [
        { bytes: entryOf(3, { sealed: [row.hash] }), sealed: [row] },
        { bytes: entryOf(1, { sealed: [row.hash], body: { again: true } }), sealed: [row] },
        { bytes: Buffer.from('rubbish'), sealed: [row] },
        { bytes: Buffer.from('rubbish'), sealed: [{ ...row, hash: sealedRow('other').hash }] },
      ];
      const outcomes = (await log.append(later, noon)).map(({ outcome }) => outcome);
      expect(outcomes).toEqual(['recorded', 'conflict', 'unreadable', 'unreadable']);
      expect(await log.sealed(row.hash)).toBeUndefined();
      expect((await log.aside()).flatMap(({ sealed }) => sealed)).toEqual([]);
    });

    logged('a row can be erased before it comes', async (log) => {
      await log.append([erasing], noon);
      expect(only(await log.append([named], noon))).toMatchObject({ outcome: 'recorded' });
      expect(await log.sealed(row.hash)).toBeUndefined();
    });
  });

  describe(`${name}: set aside`, () => {
    const issue = { field: 'line', value: 'A12 cut?', remedy: 'write it as an entry' };

    logged(
      'the same bytes are kept once; with another signature or other rows they are kept too',
      async (log) => {
        const bytes = Buffer.from('A12 cut?');
        expect(await log.setAside(bytes, issue, noon)).toBe(1);
        expect(await log.setAside(bytes, { ...issue, value: 'again' }, '2026-04-01T00:00:00Z')).toBe(1);
        expect(await log.setAside(Buffer.from('A13 cut?'), issue, noon)).toBe(2);
        await log.append([{ bytes, signature: signatureOf('one') }], noon);
        await log.append([{ bytes, sealed: [sealedRow('photo')] }], noon);
        const aside = await log.aside();
        expect(aside.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
        expect(aside[0]).toMatchObject({ issue, receivedAt: noon });
        expect(aside[3]?.sealed).toEqual([sealedRow('photo')]);
        expect((await log.head()).size).toBe(0);
      },
    );
  });
}
