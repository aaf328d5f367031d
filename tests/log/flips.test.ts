// One byte of a stored entry flipped in whatever column: verification finds it, every time. SQLite's own integrity
// check sees next to none of this.
import Sqlite, { type Database } from 'better-sqlite3';
import { expect, it, onTestFinished } from 'vitest';
import { verifyLogbook } from '../../src/log/store/index.ts';
import { rowsOf, soundLogbook, triggersOf } from './tampering.ts';

/** Numbers that depend on the seed alone (mulberry32, public domain). */
function chance(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below) | 0;
  };
}

type Flip = Readonly<{ position: number; column: string; at: number; bit: number }>;
const columns = ['bytes', 'received_at', 'id', 'leaf', 'signature', 'device'] as const;

/** A logbook without its triggers, so that it can be flipped about in; that these are gone is a problem of no entry. */
async function openedUp(length: number): Promise<{ path: string; database: Database }> {
  const path = await soundLogbook(length);
  const database = new Sqlite(path);
  onTestFinished(() => void database.close());
  database.pragma('synchronous = OFF');
  for (const { name } of triggersOf(database)) database.exec(`DROP TRIGGER ${name}`);
  return { path, database };
}

/** Positions of the problems of single entries. */
async function badPositions(path: string): Promise<readonly number[]> {
  const { problems } = await verifyLogbook(path);
  return problems.flatMap(({ position }) => (position === undefined ? [] : [position]));
}

/** Verifies with one bit flipped, then puts it back. */
async function badPositionsWith(path: string, database: Database, flip: Flip): Promise<readonly number[]> {
  invert(database, flip);
  const positions = await badPositions(path);
  invert(database, flip);
  return positions;
}

function invert(database: Database, { position, column, at, bit }: Flip): void {
  const value = database
    .prepare<[number], Buffer>(`SELECT CAST(${column} AS BLOB) FROM entry WHERE position = ?`)
    .pluck()
    .get(position);
  if (value === undefined) throw new Error('no such entry');
  value[at] = (value[at] ?? 0) ^ (1 << bit);
  const kind = column === 'bytes' || column === 'leaf' ? 'BLOB' : 'TEXT';
  database.prepare(`UPDATE entry SET ${column} = CAST(? AS ${kind}) WHERE position = ?`).run(value, position);
}

function lengthsOf(database: Database): Readonly<Record<(typeof columns)[number], number>>[] {
  return rowsOf(database).map((row) => ({
    bytes: row.bytes.length,
    received_at: row.received_at.length,
    id: row.id.length,
    leaf: row.leaf.length,
    signature: row.signature?.length ?? 0,
    device: row.device.length,
  }));
}

it('every byte of one entry and of its columns', async () => {
  const { path, database } = await openedUp(5);
  const below = chance(20_260_314);
  const lengths = lengthsOf(database)[2];
  let flips = 0;
  for (const column of columns) {
    for (let at = 0; at < (lengths?.[column] ?? 0); at += 1) {
      const flip = { position: 2, column, at, bit: below(7) };
      const positions = await badPositionsWith(path, database, flip);
      expect(positions[0], JSON.stringify(flip)).toBe(2);
      flips += 1;
    }
  }
  expect(flips).toBeGreaterThan(500);
  expect(await badPositions(path)).toEqual([]);
});

it('bytes here and there in a longer logbook', async () => {
  const { path, database } = await openedUp(40);
  const below = chance(1_871);
  const lengths = lengthsOf(database);
  for (let sample = 0; sample < 200; sample += 1) {
    const position = below(40);
    const column = columns[below(columns.length)] ?? 'bytes';
    const length = lengths[position]?.[column] ?? 0;
    if (length === 0) continue;
    const flip = { position, column, at: below(length), bit: below(7) };
    expect((await badPositionsWith(path, database, flip))[0], JSON.stringify(flip)).toBe(position);
  }
  expect(await badPositions(path)).toEqual([]);
});
