// Attacks on entries and tree by somebody who has the file and a database tool: each is caught and named by the
// file alone. Those on what lies beside are in attacks-beside.test.ts; those that only a head kept elsewhere can
// show are in attacks-outside.test.ts.
import { describe, expect, it } from 'vitest';
import { verifyLogbook } from '../../src/log/store/index.ts';
import { type Attack, caught, rewritten, run } from './attack.ts';
import { deviceB, entryOf } from './made-up.ts';
import { type EntryRow, headOf, rowWith, soundLogbook, tamper } from './tampering.ts';

const onEntries: readonly Attack[] = [
  [
    'edit what an entry says',
    run('UPDATE entry SET bytes = ? WHERE position = 4', entryOf(5, { body: {} })),
    'leaf',
    4,
  ],
  [
    'edit the time of receipt',
    run("UPDATE entry SET received_at = '2026-03-14T17:08:01.000Z' WHERE position = 4"),
    'leaf',
    4,
  ],
  [
    'edit the signature',
    run("UPDATE entry SET signature = replace(signature, 'A', 'B') WHERE position = 4"),
    'leaf',
    4,
  ],
  ['take the signature away', run('UPDATE entry SET signature = NULL WHERE position = 4'), 'leaf', 4],
  [
    'give an unsigned entry a signature',
    run('UPDATE entry SET signature = (SELECT signature FROM entry WHERE position = 4) WHERE position = 5'),
    'leaf',
    5,
  ],
  [
    'write more behind the signature',
    run("UPDATE entry SET signature = signature || ' more' WHERE position = 4"),
    'columns',
    4,
  ],
  ['edit the leaf', run('UPDATE entry SET leaf = zeroblob(32) WHERE position = 4'), 'leaf', 4],
  ['edit the id in its column', run("UPDATE entry SET id = 'x' WHERE position = 4"), 'columns', 4],
  [
    'give the entry to another device in its column',
    run('UPDATE entry SET device = ? WHERE position = 4', deviceB),
    'columns',
    4,
  ],
  [
    'give the entry to another device in its bytes',
    run(
      'UPDATE entry SET device = ?, bytes = ? WHERE position = 4',
      deviceB,
      entryOf(5, { device: deviceB }),
    ),
    'leaf',
    4,
  ],
  ['edit the number of the device', run('UPDATE entry SET seq = 77 WHERE position = 4'), 'columns', 4],
  [
    'edit entry and leaf, not the tree',
    (database) => {
      const row = rowWith(database, 4, entryOf(5, { body: {} }));
      run('UPDATE entry SET bytes = ?, leaf = ? WHERE position = 4', row.bytes, row.leaf)(database);
    },
    'node',
    4,
  ],
  [
    'edit the last entry and its leaf, where no subtree is complete',
    (database) => {
      const row = rowWith(database, 10, entryOf(11, { body: {} }));
      run('UPDATE entry SET bytes = ?, leaf = ? WHERE position = 10', row.bytes, row.leaf)(database);
    },
    'head',
  ],
  [
    'rewrite everything but the head',
    (database) => {
      const head = database.prepare('SELECT size, root FROM head').raw().get() as [number, string];
      rewritten((rows) =>
        rows.with(4, { ...rows[4], bytes: Buffer.from(entryOf(5, { body: {} })) } as EntryRow),
      )(database);
      run('UPDATE head SET size = ?, root = ?', ...head)(database);
    },
    'head',
  ],
  ['delete the first entry', run('DELETE FROM entry WHERE position = 0'), 'position', 0],
  ['delete an entry in the middle', run('DELETE FROM entry WHERE position = 5'), 'position', 5],
  ['delete several in the middle', run('DELETE FROM entry WHERE position BETWEEN 3 AND 6'), 'position', 3],
  ['delete the last entry', run('DELETE FROM entry WHERE position = 10'), 'head', 10],
  ['delete the last three', run('DELETE FROM entry WHERE position > 7'), 'head', 8],
  ['delete all of them', run('DELETE FROM entry'), 'head', 0],
  [
    'delete one in the middle and close the gap',
    (database) => {
      run('DELETE FROM entry WHERE position = 5')(database);
      for (let position = 6; position <= 10; position += 1)
        run('UPDATE entry SET position = position - 1 WHERE position = ?', position)(database);
    },
    'leaf',
    5,
  ],
  [
    'insert an entry at the end',
    (database) => {
      const row = rowWith(database, 11, entryOf(12));
      run(
        'INSERT INTO entry VALUES (11, ?, ?, 12, ?, ?, NULL, ?)',
        row.id,
        row.device,
        row.bytes,
        row.received_at,
        row.leaf,
      )(database);
    },
    'head',
    11,
  ],
  [
    'insert an entry in the middle',
    (database) => {
      for (let position = 10; position >= 5; position -= 1)
        run('UPDATE entry SET position = position + 1 WHERE position = ?', position)(database);
      const row = rowWith(database, 5, entryOf(12));
      run(
        'INSERT INTO entry VALUES (5, ?, ?, 12, ?, ?, NULL, ?)',
        row.id,
        row.device,
        row.bytes,
        row.received_at,
        row.leaf,
      )(database);
    },
    'node',
    4,
  ],
  [
    'insert an entry before the first',
    (database) => {
      const row = rowWith(database, 0, entryOf(12));
      run(
        'INSERT INTO entry VALUES (-1, ?, ?, 12, ?, ?, NULL, ?)',
        row.id,
        row.device,
        row.bytes,
        row.received_at,
        row.leaf,
      )(database);
    },
    'position',
    -1,
  ],
  [
    'swap two entries',
    (database) => {
      for (const [from, to] of [
        [3, 99],
        [7, 3],
        [99, 7],
      ])
        run('UPDATE entry SET position = ? WHERE position = ?', to, from)(database);
    },
    'leaf',
    3,
  ],
  [
    'renumber all entries',
    (database) => {
      for (let position = 10; position >= 0; position -= 1)
        run('UPDATE entry SET position = position + 1 WHERE position = ?', position)(database);
    },
    'position',
    0,
  ],
  [
    'put a time of receipt before the one ahead, all hashes anew',
    rewritten((rows) => rows.with(6, { ...rows[6], received_at: '2026-03-14T17:00:00.000Z' } as EntryRow)),
    'received-at',
    6,
  ],
  [
    'put in bytes that are no entry, all hashes anew',
    rewritten((rows) => rows.with(6, { ...rows[6], bytes: Buffer.from('{"tag":"A7"}') } as EntryRow)),
    'bytes',
    6,
  ],
];

const onTheTree: readonly Attack[] = [
  ['edit a node', run('UPDATE node SET hash = zeroblob(32) WHERE level = 2 AND idx = 1'), 'node', 4],
  ['delete a node', run('DELETE FROM node WHERE level = 1 AND idx = 3'), 'node', 6],
  ['insert a node', run('INSERT INTO node VALUES (9, 9, zeroblob(32))'), 'node'],
  ['edit the root', run("UPDATE head SET root = replace(root, substr(root, 1, 1), 'x')"), 'head'],
  ['make the head shorter', run('UPDATE head SET size = 8'), 'head', 8],
  ['make the head longer', run('UPDATE head SET size = 12'), 'head', 11],
  ['delete the head', run('DELETE FROM head'), 'head'],
];

it('a logbook that nobody touched verifies, with a head that was written down earlier', async () => {
  const path = await soundLogbook();
  expect(await verifyLogbook(path, { since: await headOf(path, 7) })).toMatchObject({
    ok: true,
    size: 11,
    problems: [],
    notes: { erased: 1, aside: 0, newer: false },
  });
});

describe('caught by the file alone: attacks on entries', () => caught(onEntries, tamper));
describe('caught by the file alone: attacks on the tree', () => caught(onTheTree, tamper));
