// Attacks on erasable rows and on the guards of a logbook: each is caught and named by the file alone.
import { describe, expect, it } from 'vitest';
import { openLogbook, verifyLogbook } from '../../src/log/store/index.ts';
import { type Attack, caught, exec, run } from './attack.ts';
import { person, photo, soundLogbook, tamper } from './tampering.ts';

const onSealedRows: readonly Attack[] = [
  [
    'edit what is known of a person',
    run("UPDATE sealed SET bytes = CAST('Al Sawyer' AS BLOB) WHERE hash = ?", person.hash),
    'sealed-changed',
    3,
  ],
  [
    'edit the salt',
    run('UPDATE sealed SET salt = zeroblob(16) WHERE hash = ?', person.hash),
    'sealed-changed',
    3,
  ],
  [
    'move a byte from the row to the salt',
    run(
      'UPDATE sealed SET salt = CAST(salt || substr(bytes, 1, 1) AS BLOB), bytes = substr(bytes, 2) WHERE hash = ?',
      person.hash,
    ),
    'sealed-changed',
    3,
  ],
  [
    'delete a row without an erasing',
    run('DELETE FROM sealed WHERE hash = ?', person.hash),
    'sealed-missing',
    3,
  ],
  [
    'delete a row and claim an erasing by an entry that erases another one',
    (database) => {
      run('DELETE FROM sealed WHERE hash = ?', person.hash)(database);
      run('INSERT INTO erased VALUES (?, 8)', person.hash)(database);
    },
    'erased',
    8,
  ],
  [
    'put in a row that no entry names',
    run("INSERT INTO sealed VALUES (?, zeroblob(16), x'00', 'text/plain')", '0'.repeat(64)),
    'sealed-stray',
  ],
  [
    'bring an erased row back',
    run('INSERT INTO sealed VALUES (?, ?, ?, ?)', photo.hash, photo.salt, photo.bytes, photo.mediaType),
    'erased',
    8,
  ],
  ['take the record of an erasing away', run('DELETE FROM erased'), 'sealed-missing', 3],
];

/** These are done last, after the triggers are back. */
const onTheGuards: readonly Attack[] = [
  ['drop a trigger', exec('DROP TRIGGER entry_update'), 'schema'],
  [
    'drop all triggers of the entries',
    exec('DROP TRIGGER entry_update; DROP TRIGGER entry_delete; DROP TRIGGER entry_gap'),
    'schema',
  ],
  [
    'weaken a trigger',
    exec('DROP TRIGGER entry_update; CREATE TRIGGER entry_update BEFORE UPDATE ON entry BEGIN SELECT 1; END'),
    'schema',
  ],
  ['add a trigger', exec('CREATE TRIGGER helper AFTER INSERT ON aside BEGIN SELECT 1; END'), 'schema'],
  ['drop an index', exec('DROP INDEX entry_of_device'), 'schema'],
  [
    'replace a table by a looser one',
    exec('DROP TABLE backup_made; CREATE TABLE backup_made (number, at, name, size, root)'),
    'schema',
  ],
];

describe('caught by the file alone: attacks on erasable rows', () => caught(onSealedRows, tamper));
describe('caught by the file alone: attacks on the guards', () =>
  caught(onTheGuards, (path, deed) => tamper(path, () => undefined, deed)));

it('a logbook whose tables are gone is told to be unreadable, with what to do', async () => {
  for (const table of ['entry', 'node', 'head', 'sealed', 'erased', 'aside']) {
    const path = await soundLogbook(3);
    tamper(path, () => undefined, exec(`DROP TABLE ${table}`));
    await expect(verifyLogbook(path)).rejects.toMatchObject({ code: 'unreadable', path });
    await expect(openLogbook(path)).rejects.toThrow(/tables of this logbook are missing or changed\./);
  }
});

it('the media type of a row is a hint under no hash: changing it is not noticed, and changes no evidence', async () => {
  const path = await soundLogbook();
  tamper(path, run("UPDATE sealed SET media_type = 'text/html'"));
  expect(await verifyLogbook(path)).toMatchObject({ ok: true });
});
