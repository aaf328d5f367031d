// The part of the contract about what is kept beside the entries: erasable rows, things set aside.
import { describe, expect } from 'vitest';
import type { Envelope } from '../../src/log/entry/index.ts';
import type { Incoming, Log } from '../../src/log/store/index.ts';
import { eachWith, only } from './contract.ts';
import { entries, entryOf, envelopeOf, noon, sealedRow, signatureOf } from './made-up.ts';

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

    logged(
      'a row may follow its entry where the caller says so, and then only what the entry names',
      async (log) => {
        const alone = { bytes: entryOf(1, { sealed: [row.hash] }) };
        const { id } = envelopeOf(1);
        const options = { rowsMayFollow: ({ type }: Envelope) => type === 'stem-marked' };
        expect(only(await log.append([alone], noon, options))).toMatchObject({ outcome: 'recorded' });
        expect(await log.missingRows([row.hash])).toEqual([row.hash]);
        expect(await log.supplySealed({ ...row, bytes: Buffer.from('somebody else') }, id)).toBe('changed');
        expect(await log.supplySealed({ ...row, salt: row.salt.subarray(1) }, id)).toBe('changed');
        expect(await log.supplySealed(sealedRow('a stray'), id)).toBe('not-named');
        expect(await log.supplySealed(row, envelopeOf(2).id)).toBe('not-named');
        expect(await log.sealed(row.hash)).toBeUndefined();
        expect(await log.supplySealed(row, id)).toBe('kept');
        expect(await log.supplySealed(row, id)).toBe('already-kept');
        expect(await log.sealed(row.hash)).toEqual(row);
        expect(await log.missingRows([row.hash])).toEqual([]);
        await log.append([erasing], noon);
        expect(await log.supplySealed(row, id)).toBe('erased');
        expect(await log.sealed(row.hash)).toBeUndefined();
        expect(await log.missingRows([row.hash])).toEqual([]);
      },
    );

    logged(
      'a row that follows may come with its entry sent again, and a wrong one changes nothing',
      async (log) => {
        const alone = { bytes: entryOf(1, { sealed: [row.hash] }) };
        await log.append([alone], noon, { rowsMayFollow: () => true });
        const wrong = [{ ...row, bytes: Buffer.from('somebody else') }, sealedRow('a stray')];
        for (const sealed of [wrong, [row], [row]])
          expect(only(await log.append([{ ...alone, sealed }], noon))).toMatchObject({
            outcome: 'already-recorded',
          });
        expect(await log.sealed(row.hash)).toEqual(row);
        expect(await log.sealed(sealedRow('a stray').hash)).toBeUndefined();
        expect(await log.aside()).toEqual([]);
      },
    );

    logged('a dry run tells what would become of everything, and keeps nothing of it', async (log) => {
      await log.append(entries(1, 1), noon);
      const head = await log.head();
      const batch: Incoming[] = [
        ...entries(1, 1),
        { bytes: entryOf(1, { body: { other: true } }) },
        { bytes: entryOf(7), issue: { field: 'line', value: '', remedy: 'send it as it was written' } },
        { ...named, bytes: entryOf(2, { sealed: [row.hash] }) },
        { bytes: entryOf(3, { erases: [row.hash] }) },
      ];
      const foreseen = await log.append(batch, noon, { dryRun: true });
      expect(foreseen.map(({ outcome }) => outcome)).toEqual([
        'already-recorded',
        'conflict',
        'unreadable',
        'recorded',
        'recorded',
      ]);
      expect(await log.head()).toEqual(head);
      expect(await log.aside()).toEqual([]);
      expect(await log.sealed(row.hash)).toBeUndefined();
      expect(await log.append(batch, noon)).toEqual(foreseen);
      expect((await log.head()).size).toBe(3);
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
