import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    pool: 'forks',
    // More than there are cores: most tests wait for browsers, child programs and disks.
    maxWorkers: 3,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
