// The unit tests that npm run mutants runs: folders and files, separated by commas. A single change is made while its file is read.

import { resolve } from 'node:path'
import { defineConfig } from 'vitest/config'

const tests = (process.env.MUTANTS_TESTS ?? 'tests').split(',')
const change = JSON.parse(process.env.MUTANT ?? 'null')

const singleChange = {
  name: 'single-change',
  enforce: 'pre',
  transform: (code, id) =>
    change !== null && id === resolve(change.file)
      ? code.slice(0, change.from) + change.replacement + code.slice(change.to)
      : null,
  // Transformed files are kept between the runs; the changed one under a name of its own.
  configureVitest: ({ experimental_defineCacheKeyGenerator: keepUnder }) =>
    keepUnder(({ id }) => (change !== null && id === resolve(change.file) ? JSON.stringify(change) : null)),
}

/** Test files in the order in which they are named: those that are nearest to a single change begin. */
class AsNamed {
  sort(files) {
    const rank = ({ moduleId }) => tests.findIndex((each) => moduleId.includes(`/${each}`))
    return [...files].sort((a, b) => rank(a) - rank(b))
  }

  shard(files) {
    return files
  }
}

export default defineConfig({
  define: { global: 'globalThis' },
  plugins: [singleChange],
  test: {
    environment: 'node',
    include: tests.map((each) => (each.includes('.test.') ? each : `${each}/**/*.test.{ts,tsx}`)),
    setupFiles: ['tests/support/propertySeed.ts', 'tests/support/fitsHere.ts'],
    sequence: { sequencer: AsNamed },
    experimental: { fsModuleCache: true, fsModuleCachePath: 'node_modules/.cache/mutants-modules' },
    testTimeout: 300_000,
    hookTimeout: 300_000,
  },
})
