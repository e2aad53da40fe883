// npm run speed: bundles every tests/speed/*.bench.ts and runs each in a process of its own, so that no bench sees
// code that another has made the engine compile. A bench prints its own results (timing.ts) and sets its exit code.

import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const here = path.dirname(fileURLToPath(import.meta.url))
const root = path.resolve(here, '../..')
const cache = path.join(root, 'node_modules/.cache')
const names = readdirSync(here)
  .filter((name) => name.endsWith('.bench.ts'))
  .map((name) => name.slice(0, -'.ts'.length))
const wanted = process.argv.slice(2)
const chosen =
  wanted.length === 0 ? names : names.filter((name) => wanted.some((word) => name.includes(word)))

mkdirSync(cache, { recursive: true })
const outDir = mkdtempSync(path.join(cache, 'bench-')) // its own, for two runs at a time
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
    rollupOptions: {
      input: Object.fromEntries(names.map((name) => [name, path.join(here, `${name}.ts`)])),
      output: { entryFileNames: '[name].mjs' },
    },
  },
})

const cpus = os.cpus()
console.log(
  `${cpus.length} x ${cpus[0]?.model ?? 'unknown CPU'}, ${os.platform()} ${os.arch()}, node ${process.version}`,
)
let missed = 0
for (const name of chosen) {
  console.log(`\n${name}`)
  const run = spawnSync(process.execPath, [path.join(outDir, `${name}.mjs`)], { cwd: root, stdio: 'inherit' })
  if (run.status !== 0) missed++
}
rmSync(outDir, { recursive: true, force: true })
process.exitCode = missed === 0 ? 0 : 1
