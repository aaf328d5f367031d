// `npm test`: from a fresh clone to the line "N passed, N failed". Installs what the tests need, builds, runs the
// checks and the tests, and says what was skipped and why. `npm test -- tests/log` runs those tests alone.
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { buildProgram, installPackages, readJson, root, run } from '../cli/prepare.mjs';
import { runChecks } from './checks.mjs';
import { providePackages } from './packages.mjs';
import { lastLine, summarize } from './summary.mjs';

/** @typedef {import('./checks.mjs').Check} Check */

const only = process.argv.slice(2);
const scratch = mkdtempSync(join(tmpdir(), 'gapledger-test-'));
try {
  const packages = providePackages();
  if (packages.failed) console.log(`apt-get failed (${packages.failed}).`);
  for (const line of packages.missing) console.log(`Debian package missing: ${line}`);

  const prepared = [step('npm packages', installPackages), step('build', buildProgram)];
  const mayRun = prepared[0]?.failed === '';
  const checks = only.length === 0 && mayRun ? await runChecks() : [];
  const report = mayRun ? runTests() : undefined;

  const outcome = summarize({
    checks: [...prepared, ...checks],
    report,
    mayNotSkip: process.env.CI === 'true',
  });
  tell(outcome, packages.missing);
  process.exitCode = outcome.failed.length === 0 ? 0 : 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

/**
 * @param {string} name
 * @param {() => void} act
 * @returns {Check}
 */
function step(name, act) {
  try {
    act();
    return { name, failed: '' };
  } catch (error) {
    return { name, failed: error instanceof Error ? error.message : String(error) };
  }
}

/** @returns {import('./summary.mjs').Report | undefined} */
function runTests() {
  console.log(`\n— tests${only.length > 0 ? `: ${only.join(' ')}` : ''}`);
  const file = join(scratch, 'report.json');
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  run(
    process.execPath,
    [vitest, 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`, ...only],
    { ...process.env, GAPLEDGER_MISSING: missingFile() },
  );
  return existsSync(file) ? /** @type {import('./summary.mjs').Report} */ (readJson(file)) : undefined;
}

/** tests/needs.ts writes here which programs a test asked for in vain. */
function missingFile() {
  return join(scratch, 'missing.txt');
}

/**
 * @param {import('./summary.mjs').Outcome} outcome
 * @param {readonly string[]} missingPackages
 */
function tell(outcome, missingPackages) {
  const short = (/** @type {string} */ name) => name.replaceAll(root, '');
  console.log('');
  for (const name of outcome.failed) console.log(`FAILED   ${short(name)}`);
  for (const name of outcome.skipped) console.log(`skipped  ${short(name)}`);
  if (existsSync(missingFile())) {
    const programs = [...new Set(readFileSync(missingFile(), 'utf8').trim().split('\n'))].sort();
    console.log(`Tests asked for programs that are not here: ${programs.join(', ')}.`);
    for (const line of missingPackages) console.log(`  Debian package ${line}`);
    console.log('  On Debian, "npm test" as root installs them.');
  }
  if (only.length > 0)
    console.log(
      `Only ${only.map((path) => relative(root, path) || path).join(' ')}: the checks were left out.`,
    );
  console.log(lastLine(outcome));
}
