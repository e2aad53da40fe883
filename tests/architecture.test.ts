// The arrow rule of docs/architecture.md: a layer imports only from those below it.

import { readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { describe, expect, test } from 'vitest'

const root = resolve(import.meta.dirname, '../src')

const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  numerics: [],
  optics: ['numerics'],
  model: ['numerics', 'optics'],
  analysis: ['numerics', 'optics', 'model'],
  measure: ['numerics', 'optics', 'model'],
  figures: ['numerics', 'optics', 'model', 'analysis', 'measure'],
  report: ['numerics', 'optics', 'model', 'analysis', 'measure', 'figures'],
  jobs: ['numerics', 'model', 'analysis', 'measure'],
  store: ['numerics', 'model', 'analysis', 'jobs'],
  ui: ['numerics', 'optics', 'model', 'analysis', 'figures', 'report', 'jobs', 'store'],
  panels: ['numerics', 'optics', 'model', 'analysis', 'measure', 'figures', 'report', 'jobs', 'store', 'ui'],
  app: ['numerics', 'model', 'analysis', 'store', 'ui', 'panels'],
}
const PURE = ['numerics', 'optics', 'model', 'analysis', 'measure', 'figures', 'report']
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

/** Names in one folder that some file systems cannot distinguish; a module is imported without its ending. */
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

test('property tests draw ranged numbers from tests/support/arbitrary.ts', () => {
  // The library's own are uniform over bit patterns: nearly all of them lie next to zero.
  const bare = filesBelow(resolve(root, '../tests')).filter((file) =>
    /\bfc\s*\.\s*(double|float)\(\s*\{[^}]*\b(min|max)\b/.test(readFileSync(file, 'utf8')),
  )
  expect(bare.map((file) => relative(root, file))).toEqual([])
})

/** Files that may round numbers into text themselves, each with the reason. */
const ROUND_BY_THEMSELVES = [
  'numerics/numberText.ts', // the formatter
  'panels/start/examples/readings.ts', // files of readings, as an instrument writes them: ASCII, no words
]

test('numbers become text through numerics/numberText.ts alone', () => {
  const bare = filesBelow(root).filter((file) =>
    /\.to(Fixed|Precision|Exponential|LocaleString)\(|Intl\.NumberFormat/.test(readFileSync(file, 'utf8')),
  )
  expect(bare.map((file) => relative(root, file)).sort()).toEqual(ROUND_BY_THEMSELVES)
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

  test('panels never import each other: screens are put together in src/app', () => {
    const panels = join(root, 'panels')
    const folderOf = (path: string) => relative(panels, path).split('/')[0] ?? ''
    const wrong = filesBelow(panels).flatMap((file) => {
      const text = readFileSync(file, 'utf8')
      const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map(
        (match) => match[1] ?? '',
      )
      return targets.flatMap((target) => {
        const to = resolve(file, '..', target)
        const within = !relative(panels, to).startsWith('..')
        return within && folderOf(to) !== folderOf(file) ? [`${relative(root, file)} imports ${target}`] : []
      })
    })
    expect(wrong).toEqual([])
  })

  test('no two folders beside each other import one another', () => {
    // A pair is the first folders in which the paths of importing and imported file part.
    const arrows = new Map<string, string>()
    for (const file of filesBelow(root)) {
      for (const [, target] of readFileSync(file, 'utf8').matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)) {
        const from = relative(root, dirname(file)).split('/')
        const to = relative(root, dirname(resolve(dirname(file), target ?? ''))).split('/')
        const depth = from.findIndex((name, level) => name !== to[level])
        if (depth < 0 || depth >= to.length) continue // one of the two lies above the other
        const [a, b] = [from.slice(0, depth + 1).join('/'), to.slice(0, depth + 1).join('/')]
        arrows.set(`${a} -> ${b}`, `${relative(root, file)} imports ${target}`)
      }
    }
    const mutual = [...arrows].filter(([pair]) => arrows.has(pair.split(' -> ').reverse().join(' -> ')))
    expect(mutual.filter(([pair]) => !/^(panels|report)\//.test(pair))).toEqual([]) // screens and figures follow
  })

  test('every folder holds at most twenty files', () => {
    const counts = new Map<string, number>()
    for (const file of filesBelow(root)) counts.set(dirname(file), (counts.get(dirname(file)) ?? 0) + 1)
    const full = [...counts].filter(([, count]) => count > 20).map(([folder]) => relative(root, folder))
    expect(full).toEqual([])
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
