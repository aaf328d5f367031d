// The tables of a logbook. Entries, tree, head and what was set aside can only be added to; triggers refuse
// the rest. A sealed row may go once its erasing is on record.

/** "GAPL": marks an SQLite file as a logbook. */
export const applicationId = 0x47_41_50_4c;
/** Format of the file that this program writes. */
export const format = 1;

/** Refuses a statement, with a reason that a person at a database prompt understands. */
function refuse(name: string, when: string, reason: string): string {
  return `CREATE TRIGGER ${name} BEFORE ${when} BEGIN SELECT RAISE(ABORT, '${reason}'); END`;
}

function neverChanges(table: string): string[] {
  return [
    refuse(`${table}_update`, `UPDATE ON ${table}`, 'a logbook is only added to'),
    refuse(`${table}_delete`, `DELETE ON ${table}`, 'a logbook is only added to'),
  ];
}

/** INSERT OR REPLACE deletes a row without asking the delete trigger; this asks. */
function neverReplaced(table: string, key: string): string {
  return refuse(
    `${table}_replace`,
    `INSERT ON ${table} WHEN EXISTS (SELECT 1 FROM ${table} WHERE ${key})`,
    'a logbook is only added to',
  );
}

/** What makes an empty logbook, statement by statement. */
export const schema: readonly string[] = [
  `CREATE TABLE entry (
    position INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    device TEXT NOT NULL,
    seq INTEGER NOT NULL,
    bytes BLOB NOT NULL,
    received_at TEXT NOT NULL,
    signature TEXT,
    leaf BLOB NOT NULL
  ) STRICT`,
  'CREATE INDEX entry_of_device ON entry (device, seq)',
  ...neverChanges('entry'),
  refuse(
    'entry_gap',
    `INSERT ON entry WHEN NEW.position <> (SELECT coalesce(max(position) + 1, 0) FROM entry)
      OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)`,
    'entries take the next position and a new id',
  ),
  // Complete subtrees above the leaves: (level, idx) covers entries idx·2^level to (idx + 1)·2^level − 1.
  `CREATE TABLE node (
    level INTEGER NOT NULL CHECK (level > 0),
    idx INTEGER NOT NULL CHECK (idx >= 0),
    hash BLOB NOT NULL,
    PRIMARY KEY (level, idx)
  ) STRICT, WITHOUT ROWID`,
  ...neverChanges('node'),
  neverReplaced('node', 'level = NEW.level AND idx = NEW.idx'),
  `CREATE TABLE head (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    size INTEGER NOT NULL,
    root TEXT NOT NULL
  ) STRICT`,
  refuse('head_update', 'UPDATE ON head WHEN NEW.size <= OLD.size', 'the head only moves forward'),
  refuse('head_delete', 'DELETE ON head', 'a logbook is only added to'),
  neverReplaced('head', 'one = NEW.one'),
  `CREATE TABLE sealed (
    hash TEXT PRIMARY KEY,
    salt BLOB NOT NULL,
    bytes BLOB NOT NULL,
    media_type TEXT NOT NULL
  ) STRICT`,
  refuse('sealed_update', 'UPDATE ON sealed', 'a logbook is only added to'),
  refuse(
    'sealed_delete',
    'DELETE ON sealed WHEN NOT EXISTS (SELECT 1 FROM erased WHERE hash = OLD.hash)',
    'a sealed row goes only once its erasing is recorded',
  ),
  neverReplaced('sealed', 'hash = NEW.hash OR rowid = NEW.rowid'),
  'CREATE TABLE erased (hash TEXT PRIMARY KEY, position INTEGER NOT NULL) STRICT',
  ...neverChanges('erased'),
  neverReplaced('erased', 'hash = NEW.hash OR rowid = NEW.rowid'),
  `CREATE TABLE aside (
    number INTEGER PRIMARY KEY,
    -- Of the bytes and of what came with them, so that the same delivery is kept once.
    hash TEXT NOT NULL UNIQUE,
    bytes BLOB NOT NULL,
    received_at TEXT NOT NULL,
    field TEXT NOT NULL,
    value TEXT NOT NULL,
    remedy TEXT NOT NULL,
    conflicts_with INTEGER,
    signature TEXT
  ) STRICT`,
  ...neverChanges('aside'),
  neverReplaced('aside', 'number = NEW.number OR hash = NEW.hash'),
  // Rows that came with something set aside, so that they are not lost; erasable like the others.
  `CREATE TABLE aside_sealed (
    aside INTEGER NOT NULL,
    hash TEXT NOT NULL,
    salt BLOB NOT NULL,
    bytes BLOB NOT NULL,
    media_type TEXT NOT NULL
  ) STRICT`,
  refuse('aside_sealed_update', 'UPDATE ON aside_sealed', 'a logbook is only added to'),
  refuse(
    'aside_sealed_delete',
    'DELETE ON aside_sealed WHEN NOT EXISTS (SELECT 1 FROM erased WHERE hash = OLD.hash)',
    'a sealed row goes only once its erasing is recorded',
  ),
  neverReplaced('aside_sealed', 'rowid = NEW.rowid'),
  `CREATE TABLE backup_made (
    number INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    name TEXT NOT NULL,
    size INTEGER NOT NULL,
    root TEXT NOT NULL
  ) STRICT`,
  ...neverChanges('backup_made'),
  neverReplaced('backup_made', 'number = NEW.number'),
];

/**
 * Keys of entries, made from the entries when they are first asked for: no evidence, and may be emptied or
 * dropped at any time. One row says by its key how the others were made, by its position how far they go.
 */
export const cacheTable = `CREATE TABLE IF NOT EXISTS cache (
  key TEXT NOT NULL,
  position INTEGER NOT NULL,
  PRIMARY KEY (key, position)
) STRICT, WITHOUT ROWID`;

/** The statements that `verify` looks for in a file, by the name that each of them makes. */
export const evidenceByName: ReadonlyMap<string, string> = new Map(
  schema.map((statement) => [nameOf(statement), statement]),
);

function nameOf(statement: string): string {
  return /^CREATE (?:TABLE|INDEX|TRIGGER) (\w+)/.exec(statement)?.[1] ?? '';
}
