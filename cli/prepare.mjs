// Gets a fresh clone ready: what `npm start` and `npm test` both need before anything of the project can run.
// Plain Node: nothing may be imported here that `npm ci` has yet to install.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds package.json. */
export const root = fileURLToPath(new URL('..', import.meta.url));

/** Where the built command line stands. */
export const program = join(root, 'dist/cli/main.js');
/** What the build of the field page writes anew each time. */
const fieldPage = join(root, 'dist/web/field/version.json');

/**
 * Installs the npm packages when what is installed is not what package-lock.json asks for.
 * @throws {Error} with the remedy, when npm fails.
 */
export function installPackages() {
  if (isInstalled()) return;
  console.log('Installing the npm packages that package-lock.json names (a minute or two) …');
  const failed = run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']);
  if (failed) {
    throw new Error(
      `npm ci failed (${failed}). Its own message stands above. It needs the network, and where no ready-made ` +
        'SQLite binding exists for this machine, a C++ compiler, make and Python 3 (Debian: g++ make python3).',
    );
  }
}

/**
 * Builds dist/ when it is absent or older than what it is made from.
 * @throws {Error} when the build fails.
 */
export function buildProgram() {
  const built = [program, fieldPage].map((path) => (existsSync(path) ? statSync(path).mtimeMs : 0));
  if (Math.min(...built) > newestSource()) return;
  console.log('Building dist/ …');
  const failed = run(process.execPath, ['cli/build.mjs']);
  if (failed) throw new Error(`The build failed (${failed}). Its own message stands above.`);
}

/**
 * Runs a program at the top of the project with its output shown and no standard input.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env] environment to run in; this process's own when left out
 * @returns {string} '' when it ended well, otherwise how it failed, in words.
 */
export function run(command, args, env = process.env) {
  const ended = spawnSync(command, args, { cwd: root, env, stdio: ['ignore', 'inherit', 'inherit'] });
  if (ended.error) return ended.error.message;
  if (ended.signal) return `stopped by ${ended.signal}`;
  return ended.status === 0 ? '' : `exit code ${ended.status}`;
}

/**
 * @param {string} path
 * @returns {unknown} what the JSON file holds
 */
export function readJson(path) {
  return JSON.parse(readFileSync(path, 'utf8'));
}

/** @typedef {{ packages: Record<string, { version?: string, optional?: boolean }> }} Lock */

/**
 * npm writes node_modules/.package-lock.json last, so an install that was interrupted has none. Versions are
 * compared rather than file times, which a checkout changes.
 */
function isInstalled() {
  const installed = lockedVersions('node_modules/.package-lock.json');
  if (!installed) return false;
  const wanted = lockedVersions('package-lock.json') ?? {};
  return Object.entries(wanted).every(([path, entry]) =>
    path === '' || (entry.optional && !installed[path]) ? true : installed[path]?.version === entry.version,
  );
}

/**
 * @param {string} file
 * @returns {Lock['packages'] | undefined}
 */
function lockedVersions(file) {
  const path = join(root, file);
  return existsSync(path) ? /** @type {Lock} */ (readJson(path)).packages : undefined;
}

/** Folders count too: their time tells of a file that was taken away. */
function newestSource() {
  let newest = 0;
  /** @param {string} path */
  const look = (path) => {
    const found = statSync(path);
    newest = Math.max(newest, found.mtimeMs);
    if (found.isDirectory()) for (const name of readdirSync(path)) look(join(path, name));
  };
  for (const name of ['src', 'cli', 'package.json', 'package-lock.json', 'vite.config.ts'])
    look(join(root, name));
  return newest;
}
