// A worker that evaluates designs must declare that fits are computed in it: nothing else does, and the first real joint would fail.

import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'

const ROOT = path.resolve(import.meta.dirname, '../../src')

/** Files that a file imports for use, itself first; what is imported as a type only is not loaded. */
function loaded(file: string, seen = new Set<string>()): ReadonlySet<string> {
  if (seen.has(file)) return seen
  seen.add(file)
  for (const [, words = '', from = ''] of readFileSync(file, 'utf8').matchAll(
    /^(?:import|export) (?!type )([^;]*?from )?'(\.[^']+)'/gm,
  )) {
    const names = /\{([^}]*)\}/
      .exec(words)?.[1]
      ?.split(',')
      .map((each) => each.trim()) ?? ['all']
    if (names.some((name) => name !== '' && !name.startsWith('type '))) {
      const base = path.resolve(path.dirname(file), from)
      const found = [`${base}.ts`, `${base}.tsx`, path.join(base, 'index.ts')].find((each) => {
        try {
          return readFileSync(each) !== undefined
        } catch {
          return false
        }
      })
      if (found !== undefined) loaded(found, seen)
    }
  }
  return seen
}

const workers = readdirSync(path.join(ROOT, 'jobs'), { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('Worker.ts'),
)

test('workers that compile designs compute fits', () => {
  const compiling = workers.filter((name) =>
    loaded(path.join(ROOT, 'jobs', name)).has(path.join(ROOT, 'analysis/path/compileCandidate.ts')),
  )
  expect(compiling).toEqual(
    expect.arrayContaining(['yieldWorker.ts', path.join('design', 'designWorker.ts')]),
  )
  for (const name of compiling) {
    expect(readFileSync(path.join(ROOT, 'jobs', name), 'utf8'), name).toMatch(/^computeFitsHere\(\)$/m)
  }
})
