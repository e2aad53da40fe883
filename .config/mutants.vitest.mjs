// The unit tests that npm run mutants runs: folders and files, separated by commas.

import { defineConfig } from 'vitest/config'

const tests = (process.env.MUTANTS_TESTS ?? 'tests').split(',')

export default defineConfig({
  define: { global: 'globalThis' },
  test: {
    environment: 'node',
    include: tests.map((each) => (each.includes('.test.') ? each : `${each}/**/*.test.{ts,tsx}`)),
    setupFiles: ['tests/support/propertySeed.ts'],
    testTimeout: 120_000,
  },
})
