import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { tableCsv } from '../../src/plots/figureTable'

test('a copied table reads back as the cells it was made of, commas and quotes included', () => {
  const table = {
    head: ['Offset x, µm', 'Loss, dB'],
    rows: [
      ['the "short" side', 0.1 + 0.2],
      [-1.5, 1e-7],
    ],
  }
  const read = Papa.parse<string[]>(tableCsv(table), { skipEmptyLines: true })
  expect(read.errors).toEqual([])
  expect(read.data).toEqual([
    ['Offset x, µm', 'Loss, dB'],
    ['the "short" side', '0.3'],
    ['-1.5', '1e-7'],
  ])
})
