// needs() decides what is skipped; a mistake there would hide tests or fail them for nothing.
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gapledger-needs-'));
  vi.resetModules();
  vi.stubEnv('PATH', folder);
  vi.stubEnv('CI', '');
  vi.stubEnv('GAPLEDGER_MISSING', join(folder, 'missing.txt'));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

function place(name: string, mode: number): void {
  writeFileSync(join(folder, name), '#!/bin/sh\n');
  chmodSync(join(folder, name), mode);
}

test('a program on PATH is found; a file that cannot be run is none', async () => {
  const { needs } = await import('../needs.ts');
  place('surveyor', 0o755);
  place('notes', 0o644);
  expect(needs('surveyor')).toBe(true);
  expect(needs('surveyor', 'notes', 'absent')).toBe(false);
  expect(readFileSync(join(folder, 'missing.txt'), 'utf8')).toBe('notes\nabsent\n');
});

test('with CI=true a missing program is a failure that names it', async () => {
  vi.stubEnv('CI', 'true');
  const { needs } = await import('../needs.ts');
  expect(() => needs('absent')).toThrow(/absent/);
  expect(readFileSync(join(folder, 'missing.txt'), 'utf8')).toBe('absent\n');
});
