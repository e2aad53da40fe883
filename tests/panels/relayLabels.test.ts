// Labels of reflections from both halves of a relay's picture that have one row.

import { expect, test } from 'vitest'
import { withoutWeaker } from '../../src/panels/drawing/RelayLight'

const ray = (lossDb: number, xPx: number, left: boolean) => ({
  label: 'Lens 1, last face',
  text: `${lossDb} dB`,
  lossText: `${lossDb} dB`,
  lossDb,
  xPx,
  yPx: 40,
  left,
})
const texts = (leftDb: number, rightDb: number, rightPx: number, edgesPx: readonly number[] = []) =>
  withoutWeaker([ray(leftDb, 100, false)], [ray(rightDb, rightPx, true)], edgesPx, 12).map(({ text }) => text)

test('that would meet leave the label of the stronger reflection, whichever half it is in', () => {
  expect(texts(29.7, 65, 165)).toEqual(['29.7 dB', ''])
  expect(texts(65, 29.7, 165)).toEqual(['', '29.7 dB'])
  expect(texts(40, 40, 165)).toEqual(['40 dB', ''])
})

test('are both there where they have space, which an edge of the component takes', () => {
  expect(texts(29.7, 65, 240)).toEqual(['29.7 dB', '65 dB'])
  expect(texts(29.7, 65, 240, [125, 196])).toEqual(['29.7 dB', ''])
})

test('of two rows do not meet', () => {
  const other = { ...ray(65, 165, true), yPx: 25 }
  const both = withoutWeaker([ray(29.7, 100, false)], [other], [], 12)
  expect(both.map(({ text }) => text)).toEqual(['29.7 dB', '65 dB'])
})
