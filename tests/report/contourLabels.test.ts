import { expect, test } from 'vitest'
import type { LossMap } from '../../src/analysis/tolerance/toleranceMap'
import { contourLabels } from '../../src/report/figures/contourLabels'

const COUNT = 41

/** A bowl: loss is the squared distance from (cx, cy), on -2..2. */
function bowl(cx: number, cy: number): LossMap {
  const axis = Float64Array.from({ length: COUNT }, (_, i) => -2 + (4 * i) / (COUNT - 1))
  return {
    x: axis,
    y: axis,
    rowsDb: Array.from(axis, (y) => axis.map((x) => (x - cx) ** 2 + (y - cy) ** 2)),
    atX: cx,
    atY: cy,
    hereDb: 0,
    leastDb: 0,
  }
}

test('every label sits on its contour, to one cell of the map', () => {
  const labels = contourLabels(bowl(0, 0), [1, 2, 3])
  expect(labels.map((label) => label.levelDb)).toEqual([1, 2, 3])
  const cell = (Math.SQRT2 * 4) / (COUNT - 1)
  for (const { x, y, levelDb } of labels) {
    const radius = Math.hypot(x, y)
    expect(Math.abs(radius - Math.sqrt(levelDb))).toBeLessThanOrEqual(cell)
  }
})

test('neighbouring levels stand on different sides, and one that the map does not reach has no label', () => {
  const [one, two] = contourLabels(bowl(0, 0), [1, 2])
  expect(Math.sign(one?.x ?? 0)).not.toBe(Math.sign(two?.x ?? 0))
  expect(contourLabels(bowl(0, 0), [1, 50]).map((label) => label.levelDb)).toEqual([1])
})

test('a map whose least loss lies at its edge is labelled on the sides that are left', () => {
  const labels = contourLabels(bowl(2, 2), [1, 4, 9])
  expect(labels).toHaveLength(3)
  for (const { x, y } of labels) expect(Math.min(x, y)).toBeLessThan(2)
})

test('a label keeps clear of the rim where another way to its contour does', () => {
  // The least loss lies two cells above the lower rim: both lower diagonals end there.
  for (const { y } of contourLabels(bowl(0, -1.9), [1, 2, 3])) expect(y).toBeGreaterThan(-1.9)
})
