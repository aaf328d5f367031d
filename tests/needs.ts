// Which outside programs a test leans on. A test file asks here before it calls one:
//   describe.skipIf(!needs('ogrinfo'))('GDAL reads every layer', () => { … });
// A program that is missing is written down, so that tests/run.mjs can say at the end what was skipped
// and why. Where CI=true nothing may be skipped, so a missing program throws.
import { accessSync, appendFileSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const found = new Map<string, boolean>();

/**
 * Tells whether every named program can be started from PATH.
 *
 * @param commands - Names as typed in a shell, without a path: `ogrinfo`, `cs2cs`, `chromium`.
 * @returns true when all of them are there; false lets the caller skip.
 * @throws Error naming the missing programs when the environment says `CI=true`: there a skip is a failure.
 */
export function needs(...commands: string[]): boolean {
  const missing = commands.filter((command) => !isOnPath(command));
  if (missing.length === 0) return true;
  noteMissing(missing);
  if (process.env.CI === 'true') {
    throw new Error(
      `Programs missing: ${missing.join(', ')}. With CI=true no test may be skipped; run "npm test" as root on Debian, or install them.`,
    );
  }
  return false;
}

/**
 * The path of a program that `needs` has found.
 * @throws Error when it is not there
 */
export function programOnPath(command: string): string {
  const path = pathOf(command);
  if (path !== undefined) return path;
  throw new Error(`${command} is not on the PATH`);
}

function isOnPath(command: string): boolean {
  const known = found.get(command);
  if (known !== undefined) return known;
  const there = pathOf(command) !== undefined;
  found.set(command, there);
  return there;
}

function pathOf(command: string): string | undefined {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.map((folder) => join(folder, command)).find(isExecutableFile);
}

function isExecutableFile(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** tests/run.mjs names the file; under a bare vitest nobody collects, so nothing is written. */
function noteMissing(commands: readonly string[]): void {
  const file = process.env.GAPLEDGER_MISSING;
  if (file) appendFileSync(file, commands.map((command) => `${command}\n`).join(''));
}
