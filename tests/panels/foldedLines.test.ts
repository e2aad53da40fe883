import { describe, expect, test } from 'vitest'
import type { BudgetLine } from '../../src/analysis/results/evaluation'
import { foldedLines, foldText } from '../../src/panels/budget/foldedLines'

const LINES = [0.14, 0.02, 0.3, -0.03, 0, 0.004, 0.25].map(
  (lossDb, i): BudgetLine => ({
    id: `${i}`,
    elementId: 'joint',
    label: `Line ${i}`,
    kind: 'gap',
    lossDb,
    provenance: 'computed',
  }),
)
const folded = (mostShown: number) => LINES.filter((line) => foldedLines(LINES, mostShown).has(line))

describe('lines of a budget', () => {
  test('that matter are all shown where there is space; the others are folded into one', () => {
    expect(folded(9).map(({ lossDb }) => lossDb)).toEqual([0, 0.004])
    expect(foldText(folded(9))).toBe('Two lines below 0.005')
  })

  test('beyond the space are folded from the smallest up, a gain as a loss of its size', () => {
    expect(folded(4).map(({ lossDb }) => lossDb)).toEqual([0.02, 0, 0.004])
    expect(folded(3).map(({ lossDb }) => lossDb)).toEqual([0.02, -0.03, 0, 0.004])
    expect(foldText(folded(3))).toBe('Four lines up to 0.03')
  })

  test('are not folded one at a time, which saves no row', () => {
    expect(foldedLines(LINES.slice(0, 5), 9).size).toBe(0)
  })
})
