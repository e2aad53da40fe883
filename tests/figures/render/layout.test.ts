import { describe, expect, test } from 'vitest'
import { chart } from '../../../src/figures/chart'
import { chartLayout } from '../../../src/figures/render/layout'

const lengths = (xUm: number, yUm: number) =>
  chart({ title: 'x', unit: 'µm', from: 0, to: xUm }, { title: 'y', unit: 'µm', from: 0, to: yUm }, [], {
    equalAxes: true,
  })

const frameOf = (xUm: number, yUm: number) => {
  const [frame] = chartLayout(lengths(xUm, yUm), { widthPx: 600, heightPx: 300 }).frames
  if (frame === undefined) throw new Error('no frame')
  return { widthPx: frame.rightPx - frame.leftPx, heightPx: frame.bottomPx - frame.topPx }
}

describe('axes of equal scale', () => {
  test.each([
    [4, 2],
    [3, 3],
    [8, 5],
  ])('show %d by %d µm as a frame of that shape', (xUm, yUm) => {
    const { widthPx, heightPx } = frameOf(xUm, yUm)
    expect(widthPx / heightPx).toBeCloseTo(xUm / yUm, 9)
  })

  test.each([
    [20_001, 90],
    [2, 500],
  ])('of an image of %d by %d leave a frame that can be seen', (xUm, yUm) => {
    const { widthPx, heightPx } = frameOf(xUm, yUm)
    expect(Math.min(widthPx, heightPx)).toBeGreaterThanOrEqual(24)
  })
})
