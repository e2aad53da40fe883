// The natural spline by its conditions, written out as one linear system for a general library (mathjs): through every point,
// slope and curvature alike on either side of an inner point, no curvature at the ends.

import { all, create } from 'mathjs'
import { expect, test } from 'vitest'
import { cubicSpline, splineValue } from '../../../src/measure/fit/cubicSpline'

const math = create(all ?? {})

/** Coefficients a + b u + c u² + d u³ of every piece, u from its left end. */
function pieces(x: readonly number[], y: readonly number[]): readonly (readonly number[])[] {
  const count = x.length - 1
  const rows: number[][] = []
  const right: number[] = []
  const say = (entries: readonly (readonly [number, number])[], value: number) => {
    const row = new Array<number>(4 * count).fill(0)
    for (const [at, factor] of entries) row[at] = factor
    rows.push(row)
    right.push(value)
  }
  for (let i = 0; i < count; i++) {
    const [k, h] = [4 * i, x[i + 1]! - x[i]!]
    say([[k, 1]], y[i]!)
    say([0, 1, 2, 3].map((power) => [k + power, h ** power]), y[i + 1]!) // biome-ignore format: one line a condition
    if (i === count - 1) continue
    say([[k + 1, 1], [k + 2, 2 * h], [k + 3, 3 * h * h], [k + 5, -1]], 0) // biome-ignore format: one line a condition
    say([[k + 2, 2], [k + 3, 6 * h], [k + 6, -2]], 0) // biome-ignore format: one line a condition
  }
  say([[2, 1]], 0)
  say([[4 * count - 2, 2], [4 * count - 1, 6 * (x[count]! - x[count - 1]!)]], 0) // biome-ignore format: one line a condition
  const solved = (math.lusolve(rows, right) as number[][]).flat()
  return Array.from({ length: count }, (_, i) => solved.slice(4 * i, 4 * i + 4))
}

const X = [-2, -1.2, 0.1, 0.9, 2.5, 3]
const Y = [1, 3, -0.5, 2, 2.2, -4]

test('between uneven points and beyond them the spline is the one that its conditions give', () => {
  const spline = cubicSpline(Float64Array.from(X), Float64Array.from(Y))
  const expected = pieces(X, Y)
  for (let at = -3; at <= 4; at += 0.07) {
    const i = Math.max(
      0,
      X.slice(0, -1).findLastIndex((x) => x <= at),
    )
    const u = at - X[i]!
    const value = expected[i]!.reduce((sum, factor, power) => sum + factor * u ** power, 0)
    expect(splineValue(spline, at), `at ${at}`).toBeCloseTo(value, 10)
  }
  X.forEach((x, i) => {
    expect(splineValue(spline, x)).toBeCloseTo(Y[i]!, 12)
  })
})

test('two points give the straight line through them', () => {
  const spline = cubicSpline(Float64Array.of(1, 3), Float64Array.of(5, 9))
  expect([0, 1, 1.5, 4].map((at) => splineValue(spline, at))).toEqual([3, 5, 6, 11])
})
