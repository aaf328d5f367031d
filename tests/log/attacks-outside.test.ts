// Attacks that the file alone cannot show, because its hashes were made anew or all of it is older: a head that
// was written down elsewhere, or remembered by the machine, shows each of them.
import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { TreeHead } from '../../src/log/entry/index.ts';
import {
  createLogbook,
  openLogbook,
  recallDevice,
  remember,
  type VerifyOptions,
  verifyLogbook,
} from '../../src/log/store/index.ts';
import { deviceA, emptyFolder, emptyPlace, entries, entryOf, idOf, noon, signatureOf } from './made-up.ts';
import {
  copyOf,
  type EntryRow,
  headOf,
  rehash,
  rowsOf,
  soundLogbook,
  tamper,
  writeLogbook,
} from './tampering.ts';

type Rewriting = readonly [name: string, rewrite: (rows: EntryRow[]) => readonly EntryRow[]];

const changed = (rows: EntryRow[], position: number, changes: Partial<EntryRow>): EntryRow[] =>
  rows.with(position, { ...(rows[position] as EntryRow), ...changes });

const rewritings: readonly Rewriting[] = [
  [
    'write an entry that is not canonical',
    (rows) => changed(rows, 4, { bytes: Buffer.from(` ${String(rows[4]?.bytes)}`) }),
  ],
  ['edit an entry', (rows) => changed(rows, 4, { bytes: Buffer.from(entryOf(5, { body: {} })) })],
  ['edit a time of receipt', (rows) => changed(rows, 4, { received_at: '2026-03-14T17:07:00.000Z' })],
  ['delete an entry in the middle', (rows) => rows.toSpliced(5, 1)],
  [
    'insert an entry',
    (rows) =>
      rows.toSpliced(5, 0, {
        ...(rows[4] as EntryRow),
        id: idOf(12),
        seq: 12,
        bytes: Buffer.from(entryOf(12)),
      }),
  ],
  [
    'swap two entries',
    (rows) =>
      rows
        .with(1, rows[2] as EntryRow)
        .with(2, { ...(rows[1] as EntryRow) })
        .map((row, at) => ({ ...row, received_at: rows[at]?.received_at ?? '' })),
  ],
  [
    'sign the rewritten history again with the same key',
    (rows) =>
      changed(rows, 4, {
        bytes: Buffer.from(entryOf(5, { body: {} })),
        signature: `0a1b2c3d ${signatureOf('new').signature}`,
      }),
  ],
  [
    'replace the key',
    (rows) =>
      rows.map((row) => ({
        ...row,
        signature: row.signature?.replace('0a1b2c3d', 'ffffffff') ?? null,
      })),
  ],
  ['take all signatures away', (rows) => rows.map((row) => ({ ...row, signature: null }))],
];

/** The file alone says nothing; with the head it does. */
async function shownOnlyBy(path: string, head: TreeHead, position?: number): Promise<void> {
  expect(await verifyLogbook(path)).toMatchObject({ ok: true, problems: [] });
  for (const what of ['since', 'remembered'] as const) {
    const options: VerifyOptions = { [what]: head };
    const { ok, problems } = await verifyLogbook(path, options);
    expect(ok).toBe(false);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.what).toBe(what);
    expect(problems[0]?.position).toBe(position);
  }
}

describe('a history written anew with all its hashes', () => {
  for (const [name, rewrite] of rewritings) {
    it(name, async () => {
      const path = await soundLogbook();
      const head = await headOf(path, 9);
      tamper(path, (database) => rehash(database, rewrite(rowsOf(database))));
      await shownOnlyBy(path, head);
    });
  }
});

describe('a history that became shorter', () => {
  it('cut the last rows off, with the tree and the head set back', async () => {
    const path = await soundLogbook();
    const head = await headOf(path);
    tamper(path, (database) => rehash(database, rowsOf(database).slice(0, 9)));
    await shownOnlyBy(path, head, 9);
  });

  it('put an old copy in its place', async () => {
    const path = await soundLogbook();
    const old = copyOf(path);
    const log = await openLogbook(path);
    await log.append(entries(20, 22), noon);
    const head = await log.head();
    await log.close();
    copyFileSync(old, path);
    await shownOnlyBy(path, head, 11);
  });

  it('take the write-ahead log away', async () => {
    const path = emptyPlace();
    const log = await createLogbook(path);
    await writeLogbook(log);
    await log.close();
    const again = await openLogbook(path);
    await again.append(entries(20, 24), noon);
    const head = await again.head();
    expect(existsSync(`${path}-wal`)).toBe(true);
    const copy = copyOf(path);
    await again.close();
    await shownOnlyBy(copy, head, 11);
  });

  it('the machine at home remembers the head by itself', async () => {
    const path = await soundLogbook();
    const home = emptyFolder();
    remember(path, idOf(1), { device: deviceA, lastSeq: 11, lastHead: await headOf(path) }, home);
    tamper(path, (database) => rehash(database, rowsOf(database).slice(0, 10)));
    const remembered = recallDevice(path, idOf(1), home)?.lastHead;
    expect(remembered?.size).toBe(11);
    const { problems } = await verifyLogbook(path, remembered ? { remembered } : {});
    expect(problems.map(({ what }) => what)).toEqual(['remembered']);
  });
});

describe('two histories', () => {
  it('two forks of the same size: each denies the head of the other', async () => {
    const path = await soundLogbook();
    const fork = copyOf(path);
    for (const [place, number] of [
      [path, 30],
      [fork, 40],
    ] as const) {
      const log = await openLogbook(place);
      await log.append(entries(number, number + 2), '2026-03-15T09:00:00Z');
      await log.close();
    }
    const [one, other] = [await headOf(path), await headOf(fork)];
    expect(one.size).toBe(other.size);
    await shownOnlyBy(path, other);
    await shownOnlyBy(fork, one);
    expect(await verifyLogbook(path, { since: await headOf(fork, 11) })).toMatchObject({ ok: true });
  });

  it('entries moved to another logbook', async () => {
    const path = await soundLogbook();
    const other = emptyPlace('other.logbook');
    const log = await createLogbook(other);
    await log.append(entries(50, 53), noon);
    const head = await log.head();
    await log.close();
    await shownOnlyBy(path, head);
  });
});

it('a head of nothing, and every head that the log ever had, is the beginning of it', async () => {
  const path = await soundLogbook();
  for (let size = 0; size <= 11; size += 1)
    expect(await verifyLogbook(path, { since: await headOf(path, size) })).toMatchObject({ ok: true });
  rmSync(path);
});
