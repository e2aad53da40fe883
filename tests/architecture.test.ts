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
  ui: ['numerics', 'optics', 'model', 'analysis', 'report', 'jobs', 'store', 'plots'],
  panels: ['numerics', 'optics', 'model', 'analysis', 'measure', 'report', 'jobs', 'store', 'plots', 'ui'],
  app: ['model', 'analysis', 'store', 'ui', 'panels'],
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
      const targets = [...text.matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+)'/g)].map((match) => match[1] ?? '')
      return targets.flatMap((target) => {
        const to = resolve(file, '..', target)
        const within = !relative(panels, to).startsWith('..')
        return within && folderOf(to) !== folderOf(file) ? [`${relative(root, file)} imports ${target}`] : []
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
