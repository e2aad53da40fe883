import { expect, test } from 'vitest'
import { axisTicks } from '../../../src/figures/render/ticks'

const at = (from: number, to: number, lengthPx: number) =>
  axisTicks({ title: 'x', from, to }, lengthPx, 54).map((tick) => tick.at)

test('a short axis has at least two ticks, so that its scale can be read', () => {
  expect(at(-1.45, 1.45, 155)).toEqual([-1, 0, 1])
  expect(at(-1.8, 1.8, 148).length).toBeGreaterThan(1)
})

test('a long axis has about as many as fit', () => {
  expect(at(0, 10, 540)).toEqual([0, 2, 4, 6, 8, 10])
})
