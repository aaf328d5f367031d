// `npm run check`: every script of package.json whose name begins with "check:", as many at a time as there are cores.
// All of them run even when one fails, so that one run shows everything there is to put right.
import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { readJson, root } from '../cli/prepare.mjs';

/** @typedef {{ name: string, failed: string }} Check `failed` says how, '' when it passed. */

/** @returns {Promise<Check[]>} in the order in which they stand in package.json */
export async function runChecks() {
  const manifest = readJson(join(root, 'package.json'));
  const { scripts } = /** @type {{ scripts: Record<string, string> }} */ (manifest);
  const names = Object.keys(scripts).filter((name) => name.startsWith('check:'));
  const left = [...names];
  /** @type {Map<string, Check>} */
  const checks = new Map();
  await Promise.all(
    Array.from({ length: availableParallelism() }, async () => {
      for (let name = left.shift(); name !== undefined; name = left.shift())
        checks.set(name, await runCheck(name));
    }),
  );
  return names.flatMap((name) => checks.get(name) ?? []);
}

/**
 * What a check prints is shown when it ends, so that two at once do not talk across each other.
 * @param {string} name
 * @returns {Promise<Check>}
 */
function runCheck(name) {
  const child = spawn('npm', ['run', '--silent', name], { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
  let printed = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (/** @type {string} */ text) => {
      printed += text;
    });
  return new Promise((resolve) => {
    /** @param {string} failed */
    const end = (failed) => {
      console.log(`\n— ${name}\n${printed.trimEnd()}`);
      resolve({ name, failed });
    };
    child.once('error', (error) => end(error.message));
    child.once('close', (code, signal) =>
      end(signal === null ? (code === 0 ? '' : `exit code ${code}`) : `stopped by ${signal}`),
    );
  });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const checks = await runChecks();
  const failures = checks.filter((check) => check.failed);
  console.log(
    failures.length === 0
      ? `\nAll ${checks.length} checks passed.`
      : `\nFailed: ${failures.map((check) => `${check.name} (${check.failed})`).join(', ')}`,
  );
  process.exitCode = failures.length === 0 ? 0 : 1;
}
