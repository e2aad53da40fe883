import { describe, expect, test } from 'vitest'
import { axisFromFaces, dualAxis, type GridAxis } from '../../../src/optics/modeSolver/grid'
import { interpolated, linearPositions, meansOverCells } from '../../../src/optics/modeSolver/interpolate'

const axis = (...faces: readonly number[]) => axisFromFaces(Float64Array.from(faces))
const FROM = axis(-3, -1.5, -0.5, 0, 0.75, 2, 4)

/** Straight lines between the ends, where the values are 0, and the centres. */
function lineThrough({ centres, ends }: GridAxis, line: readonly number[], at: number): number {
  const x = [ends[0], ...centres, ends[1]]
  const y = [0, ...line, 0]
  if (at <= ends[0] || at >= ends[1]) return 0
  const k = x.findIndex((each) => each > at)
  const [x0 = 0, x1 = 0, y0 = 0, y1 = 0] = [x[k - 1], x[k], y[k - 1], y[k]]
  return y0 + ((y1 - y0) * (at - x0)) / (x1 - x0)
}

describe('a field read at other places', () => {
  test('keeps a plane as it is, on finer, coarser and shifted cells', () => {
    const plane = (x: number, y: number) => 2 + 0.5 * x - 0.3 * y
    const from = { x: FROM, y: axis(-1, 0, 0.5, 2) }
    const values = Float64Array.from(
      [...from.y.centres].flatMap((y) => [...from.x.centres].map((x) => plane(x, y))),
    )
    const to = { x: axis(-2, -1.9, 0.1, 0.2, 2.5), y: axis(-0.4, 0.1, 0.2, 1.2) }
    const found = interpolated(values, from, to)
    const expected = [...to.y.centres].flatMap((y) => [...to.x.centres].map((x) => plane(x, y)))
    expect(found.length).toBe(12)
    for (const [i, value] of expected.entries()) expect(found[i]).toBeCloseTo(value, 12)
  })

  test('is level beyond its outermost centres, and may be asked in any order', () => {
    const positions = Float64Array.of(9, -9, 0.375, -1, 1.375)
    const { at, part } = linearPositions(FROM.centres, positions)
    const values = [1, 2, 3, 4, 5, 6]
    const read = Array.from(
      at,
      (k, i) => (1 - (part[i] ?? 0)) * (values[k] ?? 0) + (part[i] ?? 0) * (values[k + 1] ?? 0),
    )
    // Centres at -2.25, -1, -0.25, 0.375, 1.375, 3.
    expect(read).toEqual([6, 1, 4, 2, 5])
  })
})

describe('means over equal cells', () => {
  const line = [0.5, 2, 1, -1, 3, 0.25]

  /** By 2000 points a cell (midpoint rule): straight lines need no more. */
  const byPoints = (own: GridAxis, fromUm: number, stepUm: number, count: number) =>
    Array.from({ length: count }, (_, i) => {
      const points = Array.from({ length: 2000 }, (_value, n) => fromUm + stepUm * (i + (n + 0.5) / 2000))
      return points.reduce((sum, at) => sum + lineThrough(own, line, at), 0) / 2000
    })

  test.each([
    ['about the whole line', -4, 0.7, 13],
    ['much wider than its cells', -5, 3, 4],
    ['much narrower', -0.3, 0.05, 20],
    ['beyond it', 5, 1, 2],
    ['before it', -9, 1, 3],
  ])('%s are those of its straight lines', (_, fromUm, stepUm, count) => {
    const found = meansOverCells(FROM, Float64Array.from(line), fromUm, stepUm, count)
    expect(found.length).toBe(count)
    for (const [i, mean] of byPoints(FROM, fromUm, stepUm, count).entries())
      expect(found[i]).toBeCloseTo(mean, 5)
  })

  test('keep the integral, also of values that stand on the faces of another axis', () => {
    const dual = dualAxis(axis(-3, -2, -0.5, 0, 0.75, 2, 3, 4), false)
    expect(dual.centres.length).toBe(6)
    const sum = (stepUm: number) =>
      meansOverCells(dual, Float64Array.from(line), -4, stepUm, 9 / stepUm).reduce(
        (all, mean) => all + mean * stepUm,
        0,
      )
    // Trapezium rule over the knots -3, -2, -0.5, 0, 0.75, 2, 3, 4, by hand.
    const knots = [-3, -2, -0.5, 0, 0.75, 2, 3, 4]
    const values = [0, ...line, 0]
    const whole = knots
      .slice(1)
      .reduce(
        (all, to, k) => all + ((to - (knots[k] ?? 0)) * ((values[k] ?? 0) + (values[k + 1] ?? 0))) / 2,
        0,
      )
    expect(sum(0.5)).toBeCloseTo(whole, 12)
    expect(sum(1.5)).toBeCloseTo(whole, 12)
  })
})
