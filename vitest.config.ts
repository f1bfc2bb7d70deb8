import { defineConfig } from 'vitest/config';

export const config = defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    pool: 'forks',
    maxWorkers: 2,
  },
});

// vitest reads the default export of its configuration file
export { config as default };
