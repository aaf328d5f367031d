// Verification: recomputes everything that a logbook claims, and compares. Changes nothing, and needs nothing
// but the file, so that an auditor can run it on a copy.
import { setImmediate } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import { headText, type TreeHead } from '../entry/index.ts';
import { type OpenFile, openFile } from './database.ts';
import { asLogbookError, errorCode, tablesChanged } from './error.ts';
import { type IntegrityCheck, startIntegrityCheck } from './integrity.ts';
import type { Log } from './port.ts';
import { format } from './schema.ts';
import {
  inOrder,
  type Notebook,
  openNotebook,
  type Problem,
  type Verification,
  type VerifyOptions,
} from './verification.ts';
import { checkNodeCount, type EntryCheck, entryRows, openEntryCheck } from './verify-entries.ts';
import { checkSchema, deviceSequences } from './verify-file.ts';
import { openSealedCheck } from './verify-sealed.ts';
import { openSignatureCheck } from './verify-signatures.ts';

/** Others get their turn after so many entries. */
const stride = 5000;

/**
 * Recomputes every hash of a logbook and compares it with what is stored and with heads kept elsewhere. Works
 * on one state of the file, while others write.
 *
 * Without a head from elsewhere it cannot see a history that somebody rewrote with all its hashes, nor that
 * the last entries were cut off together with the stored head. The media type of a sealed row is a hint outside
 * its hash, and what was set aside is no evidence; neither is judged.
 *
 * @throws LogbookError when there is no logbook to look at: 'missing', 'not-a-logbook', 'locked', 'unreadable'
 */
export async function verifyLogbook(
  logbook: string | Log,
  options: VerifyOptions = {},
): Promise<Verification> {
  const path = typeof logbook === 'string' ? logbook : logbook.facts().path;
  const file = openFile(path, true);
  try {
    file.database.exec('BEGIN');
    return await verifyFile(file, options);
  } catch (error) {
    if (errorCode(error) === 'SQLITE_ERROR') throw tablesChanged(path, file.format > format, error);
    throw asLogbookError(error, path);
  } finally {
    file.close();
  }
}

async function verifyFile(file: OpenFile, options: VerifyOptions): Promise<Verification> {
  const integrity = startIntegrityCheck(file.database);
  try {
    return await verifyBeside(integrity, file, options);
  } finally {
    await integrity.stop();
  }
}

async function verifyBeside(
  integrity: IntegrityCheck,
  file: OpenFile,
  options: VerifyOptions,
): Promise<Verification> {
  const { database } = file;
  const notebook = openNotebook();
  const newer = file.format > format;
  const sealedCheck = openSealedCheck(options.rowsMayFollow);
  const signatureCheck = openSignatureCheck(options.keysFrom);
  const entries = openEntryCheck(database, notebook, sizesOf(options), (envelope, position) => {
    sealedCheck.note(envelope, position);
    signatureCheck.note(envelope, position);
  });
  let notes: Notes = nothingNoted;
  try {
    if (!newer) checkSchema(database, notebook);
    await checkEntries(database, entries, options.progress);
    checkNodeCount(database, entries.size(), notebook);
    checkHead(database, entries, notebook);
    notes = {
      ...sealedCheck.finish(database, notebook),
      signatures: await signatureCheck.finish(database, notebook),
      aside: countOf(database, 'aside'),
      devices: deviceSequences(database),
    };
  } catch (error) {
    if (!errorCode(error)?.startsWith('SQLITE_CORRUPT')) throw error;
    notebook.add('database', 'The file is damaged; no more of it can be read.', entries.size());
  }
  checkEarlier('since', options.since, entries, notebook);
  checkEarlier('remembered', options.remembered, entries, notebook);
  const problems = inOrder([...(await damages(integrity)), ...notebook.problems()]);
  return {
    ok: problems.length === 0,
    size: entries.size(),
    root: entries.root(),
    problems,
    notes: { ...notes, newer },
  };
}

type Notes = Omit<Verification['notes'], 'newer'>;
const nothingNoted: Notes = {
  devices: [],
  erased: 0,
  awaited: 0,
  signatures: { signed: 0, unsigned: 0, keyUnknown: 0 },
  aside: 0,
};

/** SQLite's own look at the file; it sees damaged pages, seldom a changed byte. */
async function damages(integrity: IntegrityCheck): Promise<Problem[]> {
  return (await integrity.lines()).map((line) => ({
    what: 'database',
    sentence: `SQLite finds the file damaged: ${line}.`,
  }));
}

function sizesOf({ since, remembered }: VerifyOptions): Set<number> {
  return new Set([since, remembered].flatMap((head) => (head ? [head.size] : [])));
}

async function checkEntries(
  database: Database,
  entries: EntryCheck,
  progress: VerifyOptions['progress'],
): Promise<void> {
  const size = countOf(database, 'entry');
  for (const row of entryRows(database)) {
    entries.next(row);
    if (entries.size() % stride !== 0) continue;
    progress?.(entries.size(), size);
    await setImmediate();
  }
}

function countOf(database: Database, table: 'entry' | 'aside'): number {
  return database.prepare<[], number>(`SELECT count(*) FROM ${table}`).pluck().get() ?? 0;
}

function checkHead(database: Database, entries: EntryCheck, notebook: Notebook): void {
  const head = database.prepare<[], TreeHead>('SELECT size, root FROM head').get();
  const size = entries.size();
  if (head === undefined) notebook.add('head', 'The head of the tree is gone.');
  else if (head.size > size)
    notebook.add('head', `The head counts ${head.size} entries; those from ${size} on are missing.`, size);
  else if (head.size < size)
    notebook.add(
      'head',
      `The head counts ${head.size} entries; those from there on were put in past this program.`,
      head.size,
    );
  else if (head.root !== entries.root())
    notebook.add('head', 'The head of the tree does not follow from the entries; one of them was changed.');
}

const whose = {
  since: 'written down earlier',
  remembered: 'that this machine remembers',
} as const;

/** Whether the log begins with the one that had this head. */
function checkEarlier(
  what: keyof typeof whose,
  head: TreeHead | undefined,
  entries: EntryCheck,
  notebook: Notebook,
): void {
  if (head === undefined) return;
  const root = entries.rootsAt.get(head.size);
  if (root === head.root) return;
  const size = entries.size();
  if (root === undefined)
    notebook.add(
      what,
      `The head ${whose[what]} counts ${head.size} entries; there are ${size}. The last ones were cut off, or this is an older copy.`,
      size,
    );
  else
    notebook.add(
      what,
      `The first ${head.size} entries are not those of the head ${whose[what]} (${headText(head)}). The history was rewritten, or the head is that of another logbook.`,
    );
}
