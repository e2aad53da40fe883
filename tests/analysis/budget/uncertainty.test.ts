// A measurement's uncertainty in addition to the production tolerance: two independent deviations, one common to all parts.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { allowances } from '../../../src/analysis/sizing/allowances'
import { sizedCandidate } from '../../../src/analysis/sizing/wholeRow'
import { type Quantity, quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { matchedProject } from '../yield/cases'

const MFD_UM = 10.4

/** Two round modes in contact; only the facet's widths can be off. */
function project(tolerance: number, uncertainty: number): Project {
  const own = matchedProject(MFD_UM, 1)
  const width = (): Quantity => ({
    ...quantityOf(MFD_UM, 'um', 'measured', { plusMinus: tolerance, distribution: 'normal', coverage: 2 }),
    uncertainty: { plusMinus: uncertainty, coverage: 2 },
  })
  for (const facet of own.facets) {
    facet.mfdX = width()
    facet.mfdY = width()
  }
  const gap = own.candidates[0]?.chain[1]
  if (gap?.kind === 'gap') gap.gap = quantityOf(0, 'um')
  return own
}

/** One axis: amplitude overlap squared of two Gaussians of other widths (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703). */
const axisDb = (ratio: number) => -10 * Math.log10((2 * ratio) / (1 + ratio * ratio))

describe('uncertainty and tolerance', () => {
  test('add at the worst case, and enter RSS each for itself', () => {
    const { worstCorner, rootSumSquare, nominalDb } = evaluateCandidate(project(0.3, 0.2), 'matched')
    expect(nominalDb).toBeCloseTo(0, 9)
    const narrow = (by: number) => axisDb((MFD_UM - by) / MFD_UM)
    expect(worstCorner.lossDb).toBeCloseTo(2 * narrow(0.5), 9)
    expect(rootSumSquare.lossDb).toBeCloseTo(Math.sqrt(2 * (narrow(0.3) ** 2 + narrow(0.2) ** 2)), 9)
    expect(rootSumSquare.contributions.map(({ label }) => label)).toContain(
      'MFD x of Facet, measurement uncertainty',
    )
  })

  test('spread a yield run like two independent normal deviations', () => {
    const both = runYield(project(0.3, 0.4), 'matched', { samples: 2 ** 14, seed: 3, rankingPoints: null })
    const one = runYield(project(0.5, 0), 'matched', { samples: 2 ** 14, seed: 3, rankingPoints: null })
    // 0.3 and 0.4 in quadrature are 0.5.
    expect(both.p95Db / one.p95Db).toBeCloseTo(1, 1)
    expect(both.meanDb / one.meanDb).toBeCloseTo(1, 1)
  })

  test('of nothing is nothing, and no order is asked to hold an uncertainty', () => {
    const plain = evaluateCandidate(project(0.3, 0), 'matched')
    expect(plain.rootSumSquare.contributions).toHaveLength(2)
    const compiled = sizedCandidate(project(0.3, 0.2), 'matched')
    if (!compiled.ok) throw new Error('not computed')
    const rows = allowances(compiled.value, 1, { criterion: 'RSS', share: 0.99 }).rows
    expect(rows.some(({ label }) => label.includes('uncertainty'))).toBe(false)
  })
})
