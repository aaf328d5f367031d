// `npm run check`: every script of package.json whose name begins with "check:", in the order they stand there.
// All of them run even when one fails, so that one run shows everything there is to put right.
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { readJson, root, run } from '../cli/prepare.mjs';

/** @typedef {{ name: string, failed: string }} Check `failed` says how, '' when it passed. */

/** @returns {Check[]} */
export function runChecks() {
  const manifest = readJson(join(root, 'package.json'));
  const { scripts } = /** @type {{ scripts: Record<string, string> }} */ (manifest);
  const names = Object.keys(scripts).filter((name) => name.startsWith('check:'));
  return names.map((name) => {
    console.log(`\n— ${name}`);
    return { name, failed: run('npm', ['run', '--silent', name]) };
  });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const checks = runChecks();
  const failures = checks.filter((check) => check.failed);
  console.log(
    failures.length === 0
      ? `\nAll ${checks.length} checks passed.`
      : `\nFailed: ${failures.map((check) => `${check.name} (${check.failed})`).join(', ')}`,
  );
  process.exitCode = failures.length === 0 ? 0 : 1;
}
