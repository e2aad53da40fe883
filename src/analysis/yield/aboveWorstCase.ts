// Why a percentile can lie above the worst case, as a sentence for every place that shows both.

import { percentileName } from '../../model/project/statedRequirements'
import type { Evaluation } from '../results/evaluation'
import type { YieldResult } from './yieldResult'

/**
 * What the worst case leaves out and a yield run does not; null where no percentile of the run lies above it. Tolerances that end at
 * their limits cannot pass the worst case at the worst temperature, so what lies above that one too comes of normal ones.
 */
export function aboveWorstCase(
  { worstCorner, temperature }: Pick<Evaluation, 'worstCorner' | 'temperature'>,
  run: Pick<YieldResult, 'percentiles' | 'temperaturesC'> | null,
): string | null {
  const above = run?.percentiles.findLast(({ lossDb }) => lossDb > worstCorner.lossDb)
  if (run === null || above === undefined) return null
  const counts =
    'each assembly is evaluated at its worst temperature, the worst case at the assembly temperature'
  const sampled = 'normally distributed tolerances extend beyond their ±'
  const warms = run.temperaturesC.length > 0
  const reasons = [
    ...(warms ? [counts] : []),
    ...(warms && temperature !== null && above.lossDb <= temperature.worstCornerDb ? [] : [sampled]),
  ]
  return `${percentileName(100 * above.share)} lies above it: ${reasons.join('; ')}`
}
