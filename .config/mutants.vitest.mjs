// The unit tests that npm run mutants runs: those of the changed folders, and the outside checks.

import { defineConfig } from 'vitest/config'

const folders = (process.env.MUTANTS_TESTS ?? 'tests').split(',')

export default defineConfig({
  define: { global: 'globalThis' },
  test: {
    environment: 'node',
    include: [...folders.map((folder) => `${folder}/**/*.test.{ts,tsx}`), 'tests/reference/*.test.ts'],
    setupFiles: ['tests/support/propertySeed.ts'],
    testTimeout: 120_000,
  },
})
