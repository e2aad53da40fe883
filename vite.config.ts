import react from '@vitejs/plugin-react'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  base: './',
  define: { global: 'globalThis' }, // parts of the plotting library still expect Node's name for it
  plugins: [react()],
  build: {
    target: 'es2022',
    chunkSizeWarningLimit: 1600, // tests/size holds the real limits, gzipped
  },
  worker: { format: 'es' },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/e2e/**'],
          testTimeout: 30_000, // long runs on a busy machine; nothing here is a timed test
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          environment: 'node',
          include: ['tests/e2e/**/*.test.ts'],
          globalSetup: ['tests/e2e/support/serve.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
    ],
  },
})
