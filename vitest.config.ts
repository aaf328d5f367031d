import { defineConfig } from 'vitest/config';

/** Tests that change nothing of the process they run in: they share what a process has loaded, which halves their time. */
const sharing = [
  'measure',
  'place',
  'events',
  'stand',
  'record',
  'felling',
  'layers',
  'reports',
  'reference',
  'server',
  'walkthrough',
].map((folder) => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  test: {
    pool: 'forks',
    // More than there are cores: most tests wait for browsers, child programs and disks.
    maxWorkers: 3,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    projects: [
      { extends: true, test: { name: 'sharing', include: sharing, isolate: false } },
      { extends: true, test: { name: 'apart', include: ['tests/**/*.test.ts'], exclude: sharing } },
    ],
  },
});
