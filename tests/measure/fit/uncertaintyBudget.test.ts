import { expect, test } from 'vitest'
import { combine, typeB } from '../../../src/measure/fit/uncertaintyBudget'

// JCGM 100:2008, example of G.4.1 (from memory): a product of three means of 10, 5 and 15 readings with relative standard
// uncertainties of 0.25, 0.57 and 0.82 %; combined 1.03 %, effective degrees of freedom 19.0.
test('the effective degrees of freedom are those of the example of the guide', () => {
  const budget = combine(
    (
      [
        [0.25, 9],
        [0.57, 4],
        [0.82, 14],
      ] as const
    ).map(([standardUm, degreesOfFreedom]) => ({
      ...typeB('mean', standardUm),
      type: 'A',
      degreesOfFreedom,
    })),
  )
  expect(budget.combinedUm).toBeCloseTo(1.03, 2)
  expect(budget.effectiveDegreesOfFreedom).toBeCloseTo(19, 0)
  // The scale of the quantity is ignored in a count.
  const scaled = combine(
    budget.contributions.map((each) => ({ ...each, standardUm: 1e-3 * each.standardUm })),
  )
  expect(scaled.effectiveDegreesOfFreedom).toBeCloseTo(budget.effectiveDegreesOfFreedom, 9)
})

test('what is known exactly limits nothing, and a bias is added outside of the root', () => {
  const budget = combine([typeB('scale', 0.3), typeB('probe', 0.4)], -0.05)
  expect(budget.effectiveDegreesOfFreedom).toBe(Number.POSITIVE_INFINITY)
  expect(budget.combinedUm).toBeCloseTo(0.5, 12)
  expect(budget.expandedUm).toBeCloseTo(2 * 0.5 + 0.05, 12)
})
