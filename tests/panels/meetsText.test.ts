import { expect, test } from 'vitest'
import { meetsText } from '../../src/panels/compare/compareView'

test('the head of Compare says in a sentence how many designs meet everything', () => {
  expect([meetsText(1, 0), meetsText(1, 1), meetsText(6, 0), meetsText(6, 1), meetsText(6, 3)]).toEqual([
    '1 design, does not meet every requirement',
    '1 design, meets every requirement',
    '6 designs, none meets every requirement',
    '6 designs, 1 meets every requirement',
    '6 designs, 3 meet every requirement',
  ])
})
