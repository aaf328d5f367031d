// On which machine the figures were measured.
import { execFileSync } from 'node:child_process';
import { cpus } from 'node:os';
import Sqlite from 'better-sqlite3';

export function machineFacts(folder: string): string {
  const processors = cpus();
  const database = new Sqlite(':memory:');
  const sqlite = database.prepare<[], string>('SELECT sqlite_version()').pluck().get();
  database.close();
  return [
    `CPU     ${processors.length} × ${processors[0]?.model.trim() ?? 'unknown'}`,
    `Node    ${process.version} on ${process.platform} ${process.arch}`,
    `SQLite  ${sqlite}`,
    `disk    ${fileSystemOf(folder)}`,
  ].join('\n');
}

/** A file system in memory would flatter every durable append. */
function fileSystemOf(folder: string): string {
  try {
    const [, line = ''] = execFileSync('df', ['--output=fstype,source', folder], { encoding: 'utf8' }).split(
      '\n',
    );
    return line.trim().replace(/\s+/, ' on ');
  } catch {
    return 'unknown';
  }
}
