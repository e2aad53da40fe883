import { availableParallelism } from 'node:os'
import react from '@vitejs/plugin-react'
import type { Plugin, PluginOption } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { viteSingleFile } from 'vite-plugin-singlefile'
import { defineConfig, type TestUserConfig } from 'vitest/config'
import { contentPolicy } from './.config/contentPolicy.ts'
import { LongestFirst } from './.config/longestFirst.ts'

/** The app that works without a network once it was opened: every file is kept, an update waits until it is asked for. */
const offline = VitePWA({
  registerType: 'prompt',
  injectRegister: null, // store/updates.ts registers it
  manifest: {
    name: 'Modeseam',
    short_name: 'Modeseam',
    description: 'A workbench for fibre-to-chip coupling budgets',
    start_url: './',
    display: 'standalone',
    background_color: '#fbfaf6',
    theme_color: '#0b5a8a',
    icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
  },
  workbox: {
    globPatterns: ['**/*.{js,css,html,woff2,svg,csv,pgm}'],
    maximumFileSizeToCacheInBytes: 8_000_000,
    cleanupOutdatedCaches: true,
  },
})

/** In the build of one file, workers stand in the page as text. */
const inlineWorkers: Plugin = {
  name: 'inline-workers',
  enforce: 'pre',
  transform(code) {
    const made = /new Worker\(new URL\('(\.\/\w+\.ts)', import\.meta\.url\), \{ type: 'module' \}\)/
    const path = made.exec(code)?.[1]
    if (path === undefined) return null
    const text = code.replace(made, 'new InlineWorker()')
    return { code: `import InlineWorker from '${path}?worker&inline'\n${text}`, map: null }
  },
}

/** Test files at a time: the tool would leave one of two cores idle. Each worker reads the modules of src once. */
const WORKERS = Math.max(2, availableParallelism() - 1)
/** One more for pages in a browser: half of their time is waiting, for a frame or for what comes a moment after the last key. */
const BROWSERS = WORKERS + 1
/** MB: short-lived data is collected less often. */
const EXEC_ARGUMENTS = ['--max-semi-space-size=64']

/** Unit and reference tests. */
const inNode: TestUserConfig = {
  environment: 'node',
  setupFiles: ['tests/support/propertySeed.ts', 'tests/support/fitsHere.ts', 'tests/support/cpuLog.ts'],
  isolate: false,
  maxWorkers: WORKERS,
  execArgv: EXEC_ARGUMENTS,
  testTimeout: 300_000, // long runs on a busy machine; nothing here is a timed test
  hookTimeout: 300_000,
}

export default defineConfig(({ mode }) => {
  const single = mode === 'single'
  const forMode: Readonly<Record<string, PluginOption[]>> = {
    production: [contentPolicy(false), offline],
    single: [inlineWorkers, viteSingleFile({ removeViteModuleLoader: true }), contentPolicy(true)],
  }
  return {
    base: './',
    define: { global: 'globalThis' }, // parts of the plotting library still expect Node's name for it
    plugins: [react(), ...(forMode[mode] ?? [])],
    publicDir: single ? false : 'public',
    build: {
      target: 'es2022',
      outDir: single ? 'dist-single' : 'dist',
      chunkSizeWarningLimit: 1600, // tests/size holds the real limits, gzipped
      // What the first picture needs comes in two files: one each for what changes with the libraries and with the app. What
      // evaluates a design, which every page asks for right after it, is a third.
      ...(single
        ? {}
        : {
            rolldownOptions: {
              output: {
                codeSplitting: {
                  groups: [
                    { name: 'libraries', tags: ['$initial'], test: /node_modules/, priority: 1 },
                    { name: 'first', tags: ['$initial'] },
                    { name: 'evaluation', test: /panels\/verdicts\/VerdictStrip|store\/jointFits/ },
                  ],
                },
              },
            },
          }),
    },
    worker: { format: single ? 'iife' : 'es' },
    test: {
      sequence: { sequencer: LongestFirst },
      // Transformed modules are kept for other projects and the next run, until their text changes.
      experimental: { fsModuleCache: true, fsModuleCachePath: 'node_modules/.cache/test-modules' },
      projects: [
        {
          extends: true,
          test: {
            ...inNode,
            name: 'unit',
            include: ['tests/**/*.test.{ts,tsx}'],
            exclude: ['tests/e2e/**', '**/*.reference.test.ts'],
          },
        },
        {
          extends: true,
          test: { ...inNode, name: 'reference', include: ['tests/**/*.reference.test.ts'] },
        },
        {
          extends: true,
          test: {
            name: 'e2e',
            environment: 'node',
            include: ['tests/e2e/**/*.test.ts'],
            setupFiles: ['tests/support/fitsHere.ts', 'tests/support/cpuLog.ts'],
            globalSetup: ['tests/e2e/support/serve.ts'],
            testTimeout: 300_000, // a busy machine takes many times as long
            hookTimeout: 300_000,
            expect: { poll: { timeout: 60_000 } }, // the 1 s of the tool is less than a busy machine may take
            isolate: false,
            maxWorkers: BROWSERS,
            sequence: { groupOrder: 1 }, // after all others: their workers would take the time of the browsers
            execArgv: EXEC_ARGUMENTS,
          },
        },
      ],
    },
  }
})
