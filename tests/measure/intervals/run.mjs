// node tests/measure/intervals/run.mjs [trials] [method|all] [file] [first seed]: bundles run.ts and runs it.

import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const here = path.dirname(fileURLToPath(import.meta.url))
const root = path.resolve(here, '../../..')
const cache = path.join(root, 'node_modules/.cache')
mkdirSync(cache, { recursive: true })
const outDir = mkdtempSync(path.join(cache, 'coverage-'))
await build({
  configFile: false,
  root,
  logLevel: 'error',
  build: {
    ssr: true,
    outDir,
    emptyOutDir: true,
    minify: false,
    target: 'es2022',
    rollupOptions: { input: path.join(here, 'run.ts'), output: { entryFileNames: 'run.mjs' } },
  },
})
const run = spawnSync(process.execPath, [path.join(outDir, 'run.mjs'), ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
})
rmSync(outDir, { recursive: true, force: true })
process.exitCode = run.status ?? 1
