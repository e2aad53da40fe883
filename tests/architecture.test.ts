// The arrow rule of docs/architecture.md: a layer imports only from those below it.

import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { describe, expect, test } from 'vitest'

const root = resolve(import.meta.dirname, '../src')

const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  numerics: [],
  optics: ['numerics'],
  model: ['optics'],
  analysis: ['numerics', 'optics', 'model'],
  measure: ['numerics', 'optics', 'model'],
  report: ['optics', 'model', 'analysis', 'measure'],
  jobs: ['model', 'analysis', 'measure'],
  store: ['model', 'analysis', 'jobs'],
  plots: ['analysis', 'report'],
  panels: ['numerics', 'optics', 'model', 'analysis', 'measure', 'report', 'jobs', 'store', 'plots'],
}
const PURE = ['numerics', 'optics', 'model', 'analysis', 'measure', 'report']
const IMPURE = [
  /\bMath\.random\b/,
  /\bDate\.now\b|\bDate\(\s*\)|\bnew Date\b(?!\()/, // a day that was passed in may become a Date
  /\bperformance\.now\b/,
  /\bdocument\b\./,
  /\bwindow\.(add|location|local|navigator|set|request)/,
  /\b(localStorage|sessionStorage|indexedDB|globalThis|navigator)\b/,
  /\b(fetch|setTimeout|setInterval|requestAnimationFrame)\(/,
  /\bcrypto\./,
  /from '(react|react-dom|zustand|plotly)/,
]

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (statSync(path).isDirectory()) return filesBelow(path)
    return /\.tsx?$/.test(name) ? [path] : []
  })
}

const layers = readdirSync(root).filter((name) => statSync(join(root, name)).isDirectory())

/** Names in one folder that some disks cannot tell apart; a module is imported without its ending. */
function clashes(names: readonly string[]): readonly string[] {
  const bare = names.map((name) => name.replace(/\.tsx?$/, ''))
  return bare.flatMap((name, at) => {
    const before = bare
      .slice(0, at)
      .find((each) => each !== name && each.toLowerCase() === name.toLowerCase())
    return before === undefined ? [] : [`${before} and ${name}`]
  })
}

function foldersBelow(folder: string): readonly string[] {
  const inner = readdirSync(folder).filter((name) => statSync(join(folder, name)).isDirectory())
  return [folder, ...inner.flatMap((name) => foldersBelow(join(folder, name)))]
}

describe('file names', () => {
  test.each(['src', 'tests', 'docs', 'public'])('in %s differ by more than case', (top) => {
    const folders = foldersBelow(resolve(root, '..', top))
    expect(folders.flatMap((folder) => clashes(readdirSync(folder)))).toEqual([])
  })

  test('that differ only in case are found, also where their endings differ', () => {
    expect(clashes(['Apply.tsx', 'apply.ts', 'other.ts'])).toEqual(['Apply and apply'])
    expect(clashes(['strip.css', 'Strip.tsx'])).toEqual([])
  })
})

describe('the layers', () => {
  test.each(layers)('src/%s imports only from the layers below it', (layer) => {
    const wrong = filesBelow(join(root, layer)).flatMap((file) => {
      const text = readFileSync(file, 'utf8')
      const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map(
        (match) => match[1] ?? '',
      )
      return targets.flatMap((target) => {
        const to = relative(root, resolve(file, '..', target)).split('/')[0] ?? ''
        return to === layer || MAY_IMPORT[layer]?.includes(to)
          ? []
          : [`${relative(root, file)} imports ${target}`]
      })
    })
    expect(wrong).toEqual([])
  })

  test.each(PURE.filter((layer) => layers.includes(layer)))(
    'src/%s touches neither page, clock nor chance',
    (layer) => {
      const wrong = filesBelow(join(root, layer)).filter((file) => {
        const code = readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')
        return IMPURE.some((pattern) => pattern.test(code))
      })
      expect(wrong.map((file) => relative(root, file))).toEqual([])
    },
  )

  test('are the folders that src/README.md lists, in its order', () => {
    const listed = [...readFileSync(join(root, 'README.md'), 'utf8').matchAll(/^\| `(\w+)\/` \|/gm)].map(
      (match) => match[1],
    )
    expect([...listed].sort()).toEqual([...layers].sort())
    expect(listed).toEqual(Object.keys(MAY_IMPORT).filter((layer) => layers.includes(layer)))
  })
})
