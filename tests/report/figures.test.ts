import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { contourLines } from '../../src/figures/render/contours'
import { FONT_FACE } from '../../src/figures/render/fontFace'
import { element } from '../../src/figures/render/markup'
import { svgFile } from '../../src/figures/render/picture'
import { ticks } from '../../src/figures/render/ticks'
import { figureBlock, figuresOf } from '../../src/report/document/figureBlock'
import { anyWithin, logUniform } from '../support/arbitrary'
import { twoDesigns } from '../support/twoDesigns'
import { CHOSEN, demoRuns, numberOf, sheetOf } from './support/sheets'

const project = twoDesigns()
const runs = demoRuns(project)
const figures = figuresOf(sheetOf(project, { runs }).sections)
const figureOf = (id: string) => {
  const found = figures.find((figure) => figure.id === id)
  if (found === undefined) throw new Error(`no figure ${id}`)
  return found
}

describe('contours', () => {
  const axis = Float64Array.from({ length: 61 }, (_, i) => -3 + i / 10)
  const grid = {
    x: axis,
    y: axis,
    rows: Array.from(axis, (y) => Float64Array.from(axis, (x) => x * x + 4 * y * y)),
  }

  test('of an elliptical bowl lie on its ellipses, and close', () => {
    for (const level of [0.505, 2.075, 6.015]) {
      const [lines = []] = contourLines(grid, [level])
      expect(lines).toHaveLength(1)
      const points = Array.from({ length: (lines[0]?.length ?? 0) / 2 }, (_, k) =>
        lines[0]?.slice(2 * k, 2 * k + 2),
      )
      // No level goes through a point of the grid. Linear between points 0.1 apart misses a parabola of curvature 8 by at most 8 * 0.1² / 8.
      for (const [x = 0, y = 0] of points.map((point) => point ?? [])) {
        expect(Math.abs(x * x + 4 * y * y - level)).toBeLessThan(0.011)
      }
      expect(points.at(-1)).toEqual(points[0])
      expect(new Set(points.map(String)).size).toBe(points.length - 1)
      // Neighbours lie in one cell, and the way around is that of the ellipse: Ramanujan's second formula, good to 1e-5 here.
      const steps = points.slice(1).map(([x = 0, y = 0] = [], k) => {
        const [x0 = 0, y0 = 0] = points[k] ?? []
        return Math.hypot(x - x0, y - y0)
      })
      expect(Math.max(...steps)).toBeLessThan(0.1 * Math.SQRT2)
      const [major, minor] = [Math.sqrt(level), Math.sqrt(level) / 2]
      const h = ((major - minor) / (major + minor)) ** 2
      const around = Math.PI * (major + minor) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)))
      // Chords of 0.1 in a curve of radius 0.2, the sharpest, are up to 1 % shorter than it.
      const length = steps.reduce((sum, step) => sum + step, 0)
      expect(length).toBeGreaterThan(0.99 * around)
      expect(length).toBeLessThan(1.001 * around)
    }
  })

  test('that reach the rim are one open line each, and empty cells have none', () => {
    const slope = { x: axis, y: axis, rows: Array.from(axis, (y) => axis.map((x) => x + 0.25 * y)) }
    const [lines = []] = contourLines(slope, [0.013])
    expect(lines).toHaveLength(1)
    expect([lines[0]?.[1], lines[0]?.at(-1)].toSorted((a = 0, b = 0) => a - b)).toEqual([-3, 3])
    const holed = { ...slope, rows: slope.rows.map((row, j) => (j === 30 ? row.map(() => Number.NaN) : row)) }
    const [parts = []] = contourLines(holed, [0.013])
    expect(parts).toHaveLength(2)
    expect(parts.flat().every(Number.isFinite)).toBe(true)
  })

  test('cross a saddle as two lines', () => {
    const saddle = {
      x: axis,
      y: axis,
      rows: Array.from(axis, (y) => axis.map((x) => (x + 0.05) * (y + 0.05))),
    }
    expect(contourLines(saddle, [1e-6])[0]).toHaveLength(2)
  })

  test('beyond the grid are none', () => {
    expect(contourLines(grid, [-1, 1000])).toEqual([[], []])
  })
})

test('ticks are round, inside their range, evenly spaced and neither too few nor too many', () => {
  const ends = fc.tuple(anyWithin(-1e4, 1e4), logUniform(1e-3, 1e4))
  fc.assert(
    fc.property(ends, ([from, span]) => {
      const found = ticks(from, from + span)
      expect(found.length).toBeGreaterThanOrEqual(2)
      expect(found.length).toBeLessThanOrEqual(8)
      for (const at of found) {
        expect(at).toBeGreaterThanOrEqual(from - 1e-9 * (Math.abs(from) + span))
        expect(at).toBeLessThanOrEqual(from + span + 1e-9 * (Math.abs(from) + span))
      }
    }),
  )
})

describe('the numbers behind the figures', () => {
  test('of the budget end at the core’s total', () => {
    const { rows } = figureOf(`budget-${CHOSEN}`).table
    const { lines, nominalDb } = evaluateCandidate(project, CHOSEN)
    const printed = lines.filter(({ lossDb }) => Math.abs(lossDb) >= 0.005)
    expect(rows.map(({ cells }) => cells[0])).toEqual([
      ...printed.map(({ label }) => label),
      `${lines.length - printed.length} others`,
      'Nominal',
    ])
    expect(numberOf(rows.at(-2)?.cells[2])).toBeCloseTo(nominalDb, 9)
    expect(numberOf(rows.at(-1)?.cells[1])).toBe(nominalDb)
  })

  test('of the cross-section are the dimensions of the joint', () => {
    const { near, far, joint } = evaluateCandidate(project, CHOSEN).joints[0]!
    const values = figureOf('section-gap').table.rows.map(({ cells }) => numberOf(cells[1]))
    expect(values).toEqual([
      near.mfdXUm,
      near.mfdYUm,
      far.mfdXUm,
      far.mfdYUm,
      joint.gapUm,
      joint.offsetXUm,
      joint.offsetYUm,
    ])
  })

  test('of the yield add up to all assemblies', () => {
    const run = runs.yields.get(CHOSEN)!
    const counts = figureOf(`yield-${CHOSEN}`).table.rows.map(({ cells }) => numberOf(cells[2]))
    expect(counts.reduce((sum, count) => sum + count, 0) + run.histogram.beyond).toBe(run.samples)
  })
})

test('numbers behind a figure have the decimals of their column, else seven digits', () => {
  const columns = [{ label: 'fixed', digits: 2 }, { label: 'free', unit: 'dB' }, { label: 'words' }]
  const picture = { kind: 'drawing', widthPx: 1, heightPx: 1, draw: () => element('g', {}) } as const
  const rows = [[1.23456, 12.345678912, 'none']]
  const { table } = figureBlock({ id: 'own', sentence: 'Own.', table: { columns, rows }, picture })
  expect(table.rows[0]?.cells).toEqual([
    { value: 1.23456, text: '1.23' },
    { value: 12.345678912, text: '12.34568' },
    'none',
  ])
  expect(table.columns).toEqual([{ label: 'fixed' }, { label: 'free', unit: 'dB' }, { label: 'words' }])
})

test('every figure is a file of its own: size, typeface and white ground inside, nothing from outside', () => {
  for (const figure of figures) {
    const file = svgFile(figure.drawing, FONT_FACE)
    expect(file).toMatch(
      /^<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"[^>]* width="\d+" height="\d+"><title>[^<]+<\/title><desc>[^<]+<\/desc><style>@font-face/,
    )
    const drawn = file.replace(FONT_FACE, '')
    expect(drawn).not.toMatch(/NaN|Infinity|undefined|url\(|href/)
  }
})
