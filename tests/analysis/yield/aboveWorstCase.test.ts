import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { aboveWorstCase } from '../../../src/analysis/yield/aboveWorstCase'
import { demoProject } from '../../../src/model/index'

describe('a percentile above the worst case', () => {
  const { worstCorner, temperature } = evaluateCandidate(demoProject(), 'high-na-bonded')
  if (temperature === null) throw new Error('no mount')
  const evaluation = { worstCorner, temperature: { ...temperature, worstCornerDb: worstCorner.lossDb + 1 } }
  const run = (aboveDb: number, temperaturesC: readonly number[]) => ({
    percentiles: [{ share: 0.99, lossDb: worstCorner.lossDb + aboveDb, lowDb: 0, highDb: 99 }],
    temperaturesC,
  })

  test('is explained by the temperature as far as that goes, and by normal tolerances beyond', () => {
    expect(aboveWorstCase(evaluation, run(0.5, [0, 70]))).toMatch(/^P99 .* worst temperature[^;]*$/)
    expect(aboveWorstCase(evaluation, run(1.5, [0, 70]))).toMatch(
      /worst temperature.*; normally distributed tolerances .* beyond/,
    )
    expect(aboveWorstCase(evaluation, run(0.5, []))).toBe(
      'P99 lies above it: normally distributed tolerances extend beyond their ±',
    )
  })

  test('needs no word where there is none', () => {
    expect(aboveWorstCase(evaluation, null)).toBeNull()
    expect(aboveWorstCase(evaluation, run(-0.1, []))).toBeNull()
    // Both may be at the ceiling of no light.
    expect(aboveWorstCase(evaluation, run(0, []))).toBeNull()
  })
})
