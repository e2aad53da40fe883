import type { RankedTolerance } from '../../../src/analysis/yield/yieldResult'

/** A line of a ranking whose gains are not distinguishable, unless stated otherwise. */
export const ranked = (label: string, more: Partial<RankedTolerance> = {}): RankedTolerance => ({
  path: [label],
  label,
  percentile: 0.99,
  plusMinus: 0.5,
  unit: 'µm',
  firstOrder: 0,
  total: 0.5,
  yieldPerUnit: 0,
  yieldGainHalved: 0,
  percentileGainHalvedDb: 0,
  percentileGainErrorDb: 1,
  ...more,
})
