// Bundles src/library.ts into dist-lib/modeseam.js: one ES module, with its types next to it. `npm run build` makes it; a command
// that finds it missing or older than the sources makes it again.

import { execFileSync } from 'node:child_process'
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('..', import.meta.url))
const folder = join(root, 'dist-lib')
/** The module that package.json names. */
export const libraryPath = join(folder, 'modeseam.js')

/** Time of the newest source, in ms. */
function newestSource(path) {
  const { mtimeMs } = statSync(path)
  if (!statSync(path).isDirectory()) return mtimeMs
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestSource(join(path, name))), mtimeMs)
}

const SOURCES = ['src', 'package-lock.json', '.config/library.mjs']

/** Whether the bundle is there and newer than everything that it is made of. */
export function isFresh() {
  if (!existsSync(libraryPath)) return false
  const { mtimeMs } = statSync(libraryPath)
  return SOURCES.every((each) => newestSource(join(root, each)) < mtimeMs)
}

/** Names of modules get their ending, as Node and every module resolution of TypeScript want them. */
function withEndings(path) {
  for (const name of readdirSync(path)) {
    const file = join(path, name)
    if (statSync(file).isDirectory()) withEndings(file)
    else {
      const text = readFileSync(file, 'utf8')
      writeFileSync(file, text.replace(/(from\s+|import\()(['"])(\.[^'"]+?)(?:\.tsx?)?\2/g, '$1$2$3.js$2'))
    }
  }
}

/** Bundles the library; `types` also declares what is in it. It is put in place whole, so that two may build at once. */
export async function buildLibrary({ types }) {
  const { build } = await import('vite')
  const made = mkdtempSync(`${folder}-`)
  chmodSync(made, 0o755)
  try {
    await build({
      root,
      configFile: false,
      logLevel: 'error',
      publicDir: false,
      build: {
        target: 'es2022',
        outDir: made,
        emptyOutDir: true,
        minify: false,
        lib: { entry: join(root, 'src/library.ts'), formats: ['es'], fileName: 'modeseam' },
        rolldownOptions: { output: { codeSplitting: false } },
      },
    })
    if (types) {
      const compiler = join(root, 'node_modules/typescript/bin/tsc')
      execFileSync(
        process.execPath,
        [compiler, '-p', join(root, '.config/library.json'), '--outDir', join(made, 'types')],
        {
          stdio: 'inherit',
        },
      )
      withEndings(join(made, 'types'))
    }
    const old = `${made}-old`
    if (existsSync(folder)) renameSync(folder, old)
    renameSync(made, folder)
    rmSync(old, { recursive: true, force: true })
  } finally {
    rmSync(made, { recursive: true, force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildLibrary({ types: true })
