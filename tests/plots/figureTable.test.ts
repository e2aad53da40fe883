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

test('text that a spreadsheet program would take for a formula is led by an apostrophe, numbers are not', () => {
  const table = { head: ['=Candidate'], rows: [['+1+cmd'], ['@SUM(A1)'], ['-2 dB'], [-2], ['plain']] }
  expect(tableCsv(table).split('\r\n').slice(0, -1)).toEqual([
    "'=Candidate",
    "'+1+cmd",
    "'@SUM(A1)",
    "'-2 dB",
    '-2',
    'plain',
  ])
})
