// What a run came to: the runner's report and the checks, counted into the one line everybody reads.

/** @typedef {import('./checks.mjs').Check} Check */
/** @typedef {{ fullName: string, status: string }} TestResult */
/** @typedef {{ name: string, status: string, message?: string, assertionResults: TestResult[] }} FileResult */
/** @typedef {{ success: boolean, testResults: FileResult[] }} Report the runner's JSON report, as far as it is read here */
/** @typedef {{ passed: number, failed: string[], skipped: string[] }} Outcome names of what failed and was skipped */

/**
 * Counts tests and checks together.
 *
 * @param {object} ran
 * @param {readonly Check[]} ran.checks
 * @param {Report | undefined} ran.report undefined when the runner wrote none
 * @param {boolean} ran.mayNotSkip true where a skipped test counts as a failed one
 * @returns {Outcome}
 */
export function summarize({ checks, report, mayNotSkip }) {
  /** @type {Outcome} */
  const outcome = { passed: 0, failed: [], skipped: [] };
  for (const check of checks) {
    if (check.failed) outcome.failed.push(`${check.name}: ${check.failed}`);
    else outcome.passed += 1;
  }
  if (!report) return { ...outcome, failed: [...outcome.failed, 'vitest: wrote no report'] };
  for (const file of report.testResults) countFile(file, outcome);
  // An error outside any test (an unhandled rejection, a worker that died) fails the run and names no test.
  const namedFailure = report.testResults.some((file) => file.status === 'failed');
  if (!report.success && !namedFailure)
    outcome.failed.push('vitest: failed outside any test; see its output');
  if (!mayNotSkip) return outcome;
  const skips = outcome.skipped.map((name) => `${name}: skipped, and CI=true allows no skip`);
  return { passed: outcome.passed, failed: [...outcome.failed, ...skips], skipped: [] };
}

/**
 * @param {FileResult} file
 * @param {Outcome} outcome
 */
function countFile(file, outcome) {
  let failures = 0;
  for (const test of file.assertionResults) {
    const name = `${file.name} > ${test.fullName}`;
    if (test.status === 'passed') outcome.passed += 1;
    else if (test.status === 'failed') failures = outcome.failed.push(name);
    else outcome.skipped.push(name);
  }
  // A file that could not be loaded, or whose preparation threw, reports no failed test of its own.
  if (file.status === 'failed' && failures === 0) {
    outcome.failed.push(`${file.name}: ${file.message?.split('\n')[0] || 'failed outside its tests'}`);
  }
}

/**
 * @param {Outcome} outcome
 * @returns {string} `N passed, N failed`, with `, N skipped` only where there were skips.
 */
export function lastLine({ passed, failed, skipped }) {
  const skips = skipped.length > 0 ? `, ${skipped.length} skipped` : '';
  return `${passed} passed, ${failed.length} failed${skips}`;
}
