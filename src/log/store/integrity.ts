// SQLite's own check of a file. It takes as long as half of everything else that is verified, so that of a large
// file runs beside it, in a thread with a connection of its own.
import { Worker } from 'node:worker_threads';
import type { Database } from 'better-sqlite3';
import { errorCode } from './error.ts';

/** Pages from which on the check takes longer than it takes to start a thread: 16 MB in pages of 4 kB. */
const large = 4096;
const pragma = 'integrity_check(20)';
const column = 'integrity_check';

export type IntegrityCheck = Readonly<{
  /** What SQLite finds damaged, at most 20 lines; none when it finds nothing. */
  lines(): Promise<readonly string[]>;
  /** To be called before the database is closed. */
  stop(): Promise<void>;
}>;

/** @param threadFrom - so many pages make a thread worth it */
export function startIntegrityCheck(database: Database, threadFrom = large): IntegrityCheck {
  const isLarge = Number(database.pragma('page_count', { simple: true })) >= threadFrom;
  const thread = isLarge ? startThread(database) : undefined;
  return {
    // Whatever keeps the thread from an answer arises here again, where it is told.
    lines: async () => ((await thread?.lines) ?? linesOf(database)).filter((line) => line !== 'ok'),
    stop: async () => void (await thread?.worker.terminate()),
  };
}

/** Damage may go so deep that the check itself ends with an error. */
function linesOf(database: Database): readonly string[] {
  try {
    return (database.pragma(pragma) as { [column]: string }[]).map((row) => row[column]);
  } catch (error) {
    if (error instanceof Error && errorCode(error)?.startsWith('SQLITE_CORRUPT')) return [error.message];
    throw error;
  }
}

/** What the thread runs. As text, because a file would have to be found in a bundle and beside its source. */
const program = `
  const { createRequire } = require('node:module');
  const { parentPort, workerData } = require('node:worker_threads');
  const Sqlite = createRequire(workerData.from)('better-sqlite3');
  const database = new Sqlite(workerData.path, { fileMustExist: true, readonly: workerData.readonly });
  try {
    database.pragma('query_only = ON');
    parentPort.postMessage(database.pragma(workerData.pragma).map((row) => row[workerData.column]));
  } finally {
    database.close();
  }`;

/** From where the thread looks for its packages. Bundled as CommonJS, this has a folder and no URL. */
const from = typeof __dirname === 'undefined' ? import.meta.url : `${__dirname}/`;

type Thread = Readonly<{ worker: Worker; lines: Promise<readonly string[] | undefined> }>;

/** Reads the state that the caller reads or a later one; gives no lines when it fails. */
function startThread({ name: path, readonly }: Database): Thread {
  const worker = new Worker(program, {
    eval: true,
    // What loads TypeScript for the caller is not needed there.
    execArgv: [],
    workerData: { from, path, readonly, pragma, column },
  });
  const lines = new Promise<readonly string[] | undefined>((resolve) => {
    worker.once('message', resolve);
    worker.once('error', () => resolve(undefined));
    worker.once('exit', () => resolve(undefined));
  });
  return { worker, lines };
}
