// How well the mean of a lot is known from groups of readings that share a deviation: batches of assemblies, assemblies of channels.
//   u² = s² Σ p_i² (σ_b² + σ_e² / n_i) / (σ_b² + h σ_e²),   h = mean of 1 / n_i
// s² is the variance of the groups' means, whose expectation is σ_b² + h σ_e², p_i the share of the losses in group i, n_i its readings,
// σ_e² the variance within groups and σ_b² = s² − h σ_e², not below 0. With groups of one size this is s² / k. Half width by Student's t
// for k − 1 degrees of freedom.
// Source: unweighted sums of squares of an unbalanced one-fold nested design, R. K. Burdick and F. A. Graybill, Confidence
// Intervals on Variance Components (1992), chapter 4 (from memory).

import { mean, standardDeviation, studentT } from '../../numerics/statistics'

export interface ReadingGroup {
  readonly readings: readonly number[]
  /** Of the mean whose uncertainty is asked for; all add up to 1. */
  readonly share: number
}

/** Half width at 95 %; null for fewer than two groups. Each group with at least one reading. */
export function groupedMeanHalfWidth(groups: readonly ReadingGroup[]): number | null {
  if (groups.length < 2) return null
  const square = standardDeviation(groups.map(({ readings }) => mean(readings))) ** 2
  let [within, freedom] = [0, 0]
  for (const { readings } of groups) {
    const centre = mean(readings)
    for (const reading of readings) within += (reading - centre) ** 2
    freedom += readings.length - 1
  }
  const inner = freedom > 0 ? within / freedom : 0
  const outer = Math.max(0, square - inner * mean(groups.map(({ readings }) => 1 / readings.length)))
  // Of a group's mean, and of the mean of the lot.
  const varianceOf = ({ readings }: ReadingGroup) => outer + inner / readings.length
  const expected = mean(groups.map(varianceOf))
  if (expected === 0) return 0
  const ofMean = groups.reduce((sum, group) => sum + group.share ** 2 * varianceOf(group), 0)
  return studentT(0.95, groups.length - 1) * Math.sqrt((square * ofMean) / expected)
}
