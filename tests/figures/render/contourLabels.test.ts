import { describe, expect, test } from 'vitest'
import { contourLabels, type LabelBox } from '../../../src/figures/render/contourLabels'

/** A bowl around the middle of the grid: contours are circles. */
const AXIS = Float64Array.from({ length: 61 }, (_, i) => (i - 30) / 30)
const GRID = { x: AXIS, y: AXIS, rows: Array.from(AXIS, (y) => AXIS.map((x) => 5 * (x * x + y * y))) }
const FRAME: LabelBox = { left: 0, right: 200, top: 0, bottom: 200 }
const toPx = (x: number, y: number) => [100 + 100 * x, 100 - 100 * y] as const
const [WIDE_PX, HALF_HIGH_PX] = [34, 7.5]
const LEVELS = [1, 3]

const labels = (drawn: readonly LabelBox[]) =>
  contourLabels(
    GRID,
    LEVELS,
    toPx,
    LEVELS.map(() => WIDE_PX),
    FRAME,
    drawn,
  )
const covers = ({ xPx, yPx }: { xPx: number; yPx: number }, box: LabelBox) =>
  xPx + WIDE_PX / 2 >= box.left &&
  xPx - WIDE_PX / 2 <= box.right &&
  yPx + HALF_HIGH_PX >= box.top &&
  yPx - HALF_HIGH_PX <= box.bottom

describe('labels of contours', () => {
  test('lie on their own line', () => {
    for (const { index, xPx, yPx } of labels([])) {
      const radius = Math.hypot(xPx - 100, yPx - 100) / 100
      expect(5 * radius ** 2).toBeCloseTo(LEVELS[index] ?? 0, 0)
    }
    expect(labels([])).toHaveLength(2)
  })

  test('move away from a visible edge where the line offers another position, and stay where it does not', () => {
    const [first] = labels([])
    if (first === undefined) throw new Error('no label')
    const edge: LabelBox = { left: 40, right: 160, top: first.yPx - 1, bottom: first.yPx + 1 }
    const moved = labels([edge])
    expect(moved).toHaveLength(2)
    for (const point of moved) expect(covers(point, edge)).toBe(false)
    expect(labels([FRAME])).toEqual(labels([]))
  })

  test('move just outside of their line where every place on it meets an edge', () => {
    const ring = [0, 1, 2, 3, 4, 5, 6, 7].map((turn): LabelBox => {
      const [xPx, yPx] = toPx(0.32 * Math.cos((turn * Math.PI) / 4), 0.32 * Math.sin((turn * Math.PI) / 4))
      return { left: xPx - 9, right: xPx + 9, top: yPx - 9, bottom: yPx + 9 }
    })
    const [first] = labels(ring)
    if (first === undefined) throw new Error('no label')
    for (const box of ring) expect(covers(first, box)).toBe(false)
    const radius = Math.hypot(first.xPx - 100, first.yPx - 100) / 100
    expect(radius).toBeGreaterThan(Math.sqrt(LEVELS[0] ?? 0) / Math.sqrt(5))
    expect(radius - Math.sqrt((LEVELS[0] ?? 0) / 5)).toBeLessThan(0.18)
  })
})
