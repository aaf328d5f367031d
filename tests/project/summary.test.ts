// The last line of `npm test` is what everybody trusts: nothing that went wrong may be missing from it.
import { expect, test } from 'vitest';
import { lastLine, summarize } from '../summary.mjs';

const passing = { fullName: 'a', status: 'passed' };
const failing = { fullName: 'b', status: 'failed' };
const skipped = { fullName: 'c', status: 'skipped' };

function file(status: string, ...assertionResults: { fullName: string; status: string }[]) {
  return { name: 'x.test.ts', status, assertionResults };
}

function line(
  checks: { name: string; failed: string }[],
  report: Parameters<typeof summarize>[0]['report'],
  mayNotSkip = false,
): string {
  return lastLine(summarize({ checks, report, mayNotSkip }));
}

test('tests and checks are counted together', () => {
  const checks = [
    { name: 'check:types', failed: '' },
    { name: 'check:lint', failed: 'exit code 1' },
  ];
  const report = { success: false, testResults: [file('failed', passing, passing, failing)] };
  expect(line(checks, report)).toBe('3 passed, 2 failed');
});

test('skips are named, and are failures where nothing may be skipped', () => {
  const report = { success: true, testResults: [file('passed', passing, skipped)] };
  expect(line([], report)).toBe('1 passed, 0 failed, 1 skipped');
  expect(line([], report, true)).toBe('1 passed, 1 failed');
});

test('a file that cannot be loaded is one failure, though it reports no test', () => {
  const report = { success: false, testResults: [file('failed')] };
  expect(line([], report)).toBe('0 passed, 1 failed');
});

test('a file whose clean-up fails after passing tests is a failure', () => {
  const report = { success: false, testResults: [file('failed', passing)] };
  expect(line([], report)).toBe('1 passed, 1 failed');
});

test('an error outside all tests, or a runner that wrote no report, is a failure', () => {
  expect(line([], { success: false, testResults: [file('passed', passing)] })).toBe('1 passed, 1 failed');
  expect(line([], undefined)).toBe('0 passed, 1 failed');
});
