// A class that a screen uses is defined where the screen is, or in the shared style sheets of ui/: what it looks like must
// not depend on which other page was opened before.

import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { describe, expect, test } from 'vitest'

const root = resolve(import.meta.dirname, '../../src')

function filesBelow(folder: string, ending: RegExp): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (statSync(path).isDirectory()) return filesBelow(path, ending)
    return ending.test(name) ? [path] : []
  })
}

function definedIn(folder: string): ReadonlySet<string> {
  const text = filesBelow(folder, /\.css$/)
    .map((file) => readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\//g, ''))
    .join('\n')
  return new Set([...text.matchAll(/\.([a-z][\w-]*)/g)].map((match) => match[1] ?? ''))
}

/** Class names in `className="..."` and in the strings of `className={...}`. */
function usedIn(file: string): readonly string[] {
  const text = readFileSync(file, 'utf8')
  const plain = [...text.matchAll(/className="([^"]+)"/g)].map((match) => match[1] ?? '')
  const chosen = [...text.matchAll(/className=\{([^}]+)\}/g)].flatMap((match) =>
    [...(match[1] ?? '').matchAll(/(===\s*)?'([^']*)'/g)].flatMap(([, compared, names = '']) =>
      compared === undefined ? [names] : [],
    ),
  )
  return [...plain, ...chosen].flatMap((names) => names.split(/\s+/)).filter((name) => /^[a-z]/.test(name))
}

/** Classes that have a rule of their own, without another class to depend on. */
function subjectsOf(sheet: string): ReadonlySet<string> {
  const text = readFileSync(sheet, 'utf8').replace(/\/\*[\s\S]*?\*\//g, '')
  const selectors = [...text.matchAll(/([^{};]+)\{/g)].flatMap(([, list = '']) => list.split(','))
  return new Set(
    selectors.flatMap((selector) => {
      const names = [...selector.matchAll(/\.([a-z][\w-]*)/g)].map((match) => match[1] ?? '')
      return names.length === 1 ? names : []
    }),
  )
}

const importsOf = (file: string): readonly string[] =>
  [...readFileSync(file, 'utf8').matchAll(/import '(\.[^']+\.css)'/g)].map(([, target = '']) =>
    resolve(file, '..', target),
  )

test('a class of a style sheet of ui/ that main does not load is used only where that sheet is imported', () => {
  const loadedByMain = join(root, 'ui/css')
  const late = filesBelow(join(root, 'ui'), /\.css$/).filter((sheet) => !sheet.startsWith(loadedByMain))
  expect(late.length).toBeGreaterThan(3)
  const wrong = filesBelow(root, /\.tsx$/).flatMap((file) => {
    const [names, sheets] = [usedIn(file), importsOf(file)]
    return late.flatMap((sheet) => {
      const subjects = subjectsOf(sheet)
      return sheets.includes(sheet)
        ? []
        : names
            .filter((name) => subjects.has(name))
            .map((name) => `${relative(root, file)} uses ${name} of ${relative(root, sheet)}`)
    })
  })
  expect(wrong).toEqual([])
})

const shared = new Set([...definedIn(join(root, 'ui')), ...definedIn(join(root))])
const folders = [
  ...readdirSync(join(root, 'panels')).map((name) => join(root, 'panels', name)),
  ...['app', 'ui'].map((name) => join(root, name)),
]

describe.each(folders.map((folder) => [relative(root, folder), folder] as const))('%s', (_, folder) => {
  const own = definedIn(folder)

  test('uses no class that is defined neither there nor in ui/', () => {
    const missing = filesBelow(folder, /\.tsx$/).flatMap((file) =>
      usedIn(file)
        .filter((name) => !own.has(name) && !shared.has(name))
        .map((name) => `${relative(root, file)}: ${name}`),
    )
    expect(missing).toEqual([])
  })

  test('imports no style sheet of another folder', () => {
    const wrong = filesBelow(folder, /\.tsx?$/).flatMap((file) =>
      [...readFileSync(file, 'utf8').matchAll(/import '(\.[^']+\.css)'/g)].flatMap(([, target = '']) => {
        const path = resolve(file, '..', target)
        return relative(folder, path).startsWith('..') ? [`${relative(root, file)} imports ${target}`] : []
      }),
    )
    expect(wrong).toEqual([])
  })
})
