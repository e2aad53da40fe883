// The half-angle at which a far field has fallen to a level, for 1/e², 5 % and the NA.

import type { FarFieldFit } from './farFieldFit'

/** Where the measured curve falls through `level` of the fitted peak, mean of both sides; null if one side never does. */
export function meanHalfAngle(
  at: Float64Array,
  power: Float64Array,
  fit: FarFieldFit,
  level: number,
): number | null {
  const threshold = level * fit.peakPower
  const middle = at.findIndex((angle) => angle >= fit.axisRad)
  let sum = 0
  for (const direction of [1, -1]) {
    let found: number | null = null
    for (let i = direction > 0 ? middle : middle - 1; at[i + direction] !== undefined; i += direction) {
      const inner = power[i] as number
      const outer = power[i + direction] as number
      if (inner < threshold || outer >= threshold) continue
      // The logarithm is nearly straight in θ² between neighbours.
      const a2 = ((at[i] as number) - fit.axisRad) ** 2
      const b2 = ((at[i + direction] as number) - fit.axisRad) ** 2
      const share =
        outer > 0
          ? Math.log(inner / threshold) / Math.log(inner / outer)
          : (inner - threshold) / (inner - outer)
      found = Math.sqrt(a2 + share * (b2 - a2))
      break
    }
    if (found === null) return null
    sum += found / 2
  }
  return sum
}
