// The rows of the loss limits: each loss against its limit by the basis of its requirement, and what becomes of a percentile.

import { expect, test } from 'vitest'
import type { Verdict } from '../../../src/analysis/results/verdict'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { limitRows } from '../../../src/report/workbook/limitRows'
import { pageWriter } from '../../../src/report/workbook/page'
import { literal } from '../../../src/report/workbook/term'
import { twoDesigns } from '../../support/twoDesigns'

const TOTALS = { nominal: literal(1), rss: literal(2), worst: literal(3) }

function rowsFor(
  basis: 'nominal' | 'RSS' | 'worst case' | 'percentile',
  limitDb: number,
  verdicts: readonly Verdict[] = [],
) {
  const project = twoDesigns()
  project.requirements.losses = [
    { id: 'loss', limit: quantityOf(limitDb, 'dB'), basis, percentile: 99, channels: 'one' },
  ]
  const writer = pageWriter('Budget')
  const { verdicts: live } = limitRows(writer, 0, 'budget1', project, verdicts, TOTALS)
  const { cells } = writer.page([], 0)
  return { live, at: (column: number) => cells.get(`1,${column}`) }
}

test.each([
  ['nominal', 1],
  ['RSS', 2],
  ['worst case', 3],
] as const)('a limit on %s is met by %d dB and above, and the margin is what is left', (basis, lossDb) => {
  for (const [limitDb, word] of [
    [lossDb + 0.1, 'met'],
    [lossDb, 'met'],
    [lossDb - 0.1, 'not met'],
  ] as const) {
    const { live, at } = rowsFor(basis, limitDb)
    expect(at(1)?.value).toBe(limitDb)
    expect(at(3)?.value).toBe(lossDb)
    expect(at(4)?.value).toBeCloseTo(limitDb - lossDb, 12)
    expect(at(5)?.value).toBe(word)
    expect(at(5)?.formula).toBe('IF(D2<=B2,"met","not met")')
    expect(live.map((each) => [each.cell, each.word])).toEqual([["'Budget'!$F$2", word]])
  }
})

test('a limit on a percentile has the verdict and the reason of the run, and does not follow the inputs', () => {
  const verdict: Verdict = { id: 'loss', label: 'P99', status: 'not met', reason: 'P99 2.71 dB' }
  const { live, at } = rowsFor('percentile', 2, [verdict])
  expect([at(3)?.value, at(5)?.value, at(6)?.value]).toEqual([
    'of the run',
    'not met',
    'not recalculated here: P99 2.71 dB',
  ])
  expect(at(5)?.formula).toBeUndefined()
  expect(live).toEqual([])
  const without = rowsFor('percentile', 2)
  expect([without.at(5)?.value, without.at(6)?.value]).toEqual(['not known', 'not recalculated here: no run'])
})

test('heads of numbers stand to the right, the first and those of words to the left', () => {
  const writer = pageWriter('Budget')
  limitRows(writer, 0, 'budget1', twoDesigns(), [], TOTALS)
  const { cells } = writer.page([], 0)
  expect(
    [0, 1, 2, 3, 4, 5, 6]
      .map((column) => cells.get(`0,${column}`))
      .map((cell) => `${cell?.value}: ${cell?.style}`),
  ).toEqual([
    'Loss limit: head',
    'Limit: numberHead',
    'Unit: unitHead',
    'Loss: numberHead',
    'Margin: numberHead',
    'Verdict: unitHead',
    'Name: unitHead',
  ])
})
