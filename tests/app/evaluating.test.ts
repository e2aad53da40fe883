// What the first picture loads, and that nothing evaluates on a page before fits are requested elsewhere.

import { existsSync, readFileSync } from 'node:fs'
import { dirname, relative, resolve } from 'node:path'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { fitElsewhere, sumsOf } from '../../src/analysis/field/fit/knownFits'
import { evaluating } from '../../src/app/evaluating'
import { equalModes } from '../support/equalModes'

const FACE = {
  mode: { kind: 'step index', coreRadiusUm: 4.1, na: 0.12 },
  tip: null,
  stretchX: 1,
  stretchY: 1,
} as const
const NOMINAL = equalModes(10.4)
/** Sums of real fields, which a page may not wait for. */
const SUMS = {
  kind: 'points',
  spec: { emitter: FACE, receiver: FACE, wavelengthUm: 1.55, index: 1, propagation: 'paraxial' },
  nominal: NOMINAL,
  points: [[0, 0, 0, 0, 0, 0]],
} as const

const root = resolve(import.meta.dirname, '../../src')
const STATIC = /^(?:import|export)\s+(?!type\b)(?:[^'";]*?\sfrom\s+)?'(\.[^']+)'/gm
const LATER = /(evaluating\(\(\) =>\s*)?import\('(\.[^']+)'\)/g

const moduleAt = (from: string, path: string) =>
  ['.ts', '.tsx', '/index.ts'].map((end) => resolve(dirname(from), path) + end).find(existsSync)

interface Imports {
  readonly atOnce: readonly string[]
  readonly later: readonly string[]
}

const known = new Map<string, Imports>()

function importsOf(file: string): Imports {
  const before = known.get(file)
  if (before !== undefined) return before
  const code = readFileSync(file, 'utf8')
  const modules = (paths: readonly string[]) => paths.flatMap((path) => moduleAt(file, path) ?? [])
  const imports = {
    atOnce: modules([...code.matchAll(STATIC)].map(([, path = '']) => path)),
    later: modules([...code.matchAll(LATER)].map(([, , path = '']) => path)),
  }
  known.set(file, imports)
  return imports
}

/** A module with all that it imports at once, and, where asked for, with what it loads later in its turn. */
function loadedWith(entry: string, laterToo: boolean): ReadonlySet<string> {
  const found = new Set([entry])
  for (const file of found) {
    const { atOnce, later } = importsOf(file)
    for (const each of laterToo ? [...atOnce, ...later] : atOnce) found.add(each)
  }
  return found
}

/** What every evaluation of a design begins with. */
const COMPILES = resolve(root, 'analysis/path/compileCandidate.ts')
const evaluates = (entry: string) => loadedWith(entry, true).has(COMPILES)

afterEach(() => {
  vi.useRealTimers()
  fitElsewhere(() => {})() // whatever runs next in this process computes its fits itself again
})

describe('the first picture', () => {
  test('comes without what evaluates a design', () => {
    const first = [...loadedWith(resolve(root, 'main.tsx'), false)].map((file) => relative(root, file))
    expect(first).toContain('app/Header.tsx')
    expect(first.filter((file) => file.startsWith('analysis/'))).toEqual([])
  })

  test('whatever the frame loads later and evaluates, it loads as that', () => {
    const loads = ['app/App.tsx', 'app/pages.tsx'].flatMap((name) => {
      const file = resolve(root, name)
      return [...readFileSync(file, 'utf8').matchAll(LATER)].map(([, as, path = '']) => ({
        path,
        as: as !== undefined,
        evaluates: evaluates(moduleAt(file, path) ?? ''),
      }))
    })
    expect(loads.filter((each) => each.evaluates).length).toBeGreaterThan(7)
    expect(loads.filter((each) => each.evaluates && !each.as)).toEqual([])
  })
})

describe('loading what evaluates designs', () => {
  test('answers with it once fits are asked for elsewhere', async () => {
    vi.useFakeTimers() // nobody answers in this test
    expect(await evaluating(async () => 'loaded')).toBe('loaded')
    expect(sumsOf(SUMS)).toBe('pending')
  })

  test('fails where it cannot be loaded, and may be asked for again', async () => {
    const failing = evaluating(async () => {
      throw new TypeError('cannot be fetched')
    })
    await expect(failing).rejects.toThrow('cannot be fetched')
    expect(await evaluating(async () => 'loaded')).toBe('loaded')
  })
})
