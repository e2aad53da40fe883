// The Gaussian of a transverse-offset scan, fitted to its readings in the order in which they were taken.
//   P(x) = A exp(−2 u²) + b,   u = (x − c ∓ β/2) / W
// β is the backlash of a stage that was moved both ways: the centre of one way less that of the other.

import { type CorrelatedFit, correlatedFit } from '../fit/correlatedFit'
import { scanNoise } from '../fit/noiseModel'
import type { OrderedScan } from '../fit/orderedScan'
import type { LinearModel } from '../fit/restrictedLikelihood'

/** Order of the parameters; backlash only for scans moved both ways. */
export const OFFSET_PARAMETER = { peak: 0, centre: 1, radius: 2, background: 3, backlash: 4 } as const

/** Share of the readings that must have been reached from either side. */
const BOTH_WAYS = 0.25
const FEWEST_FOR_BACKLASH = 16

/** From the plain fit's peak, centre, radius and background. Null where this one does not settle beside it. */
export function fitOffsetScan(scan: OrderedScan, start: readonly number[]): CorrelatedFit | null {
  const { at, power } = scan.taken
  const side = directions(at)
  const linearise = (p: Float64Array): LinearModel => {
    const [peak = 0, centre = 0, radius = 1, background = 0, backlash = 0] = p
    const residuals = new Float64Array(at.length)
    const signal = new Float64Array(at.length)
    const shape = new Float64Array(at.length)
    const byCentre = new Float64Array(at.length)
    const byRadius = new Float64Array(at.length)
    for (let i = 0; i < at.length; i++) {
      const u = ((at[i] as number) - centre - (side === null ? 0 : (side[i] as number) * backlash)) / radius
      const e = Math.exp(-2 * u * u)
      shape[i] = e
      signal[i] = peak * e
      byCentre[i] = (4 * peak * e * u) / radius
      byRadius[i] = (4 * peak * e * u * u) / radius
      residuals[i] = (power[i] as number) - peak * e - background
    }
    const columns = [shape, byCentre, byRadius, new Float64Array(at.length).fill(1)]
    if (side !== null) columns.push(byCentre.map((value, i) => value * (side[i] as number)))
    return { residuals, columns, signal, slope: byCentre }
  }
  const first = side === null ? start : [...start, 0]
  const fit = correlatedFit(first, linearise, scanNoise(scan.at, scan.power))
  const radius = fit?.parameters[OFFSET_PARAMETER.radius] ?? 0
  const before = start[OFFSET_PARAMETER.radius] ?? 1
  return radius > before / 3 && radius < 3 * before ? fit : null
}

/** +½ where a position was reached from below, −½ from above; null for a scan that was moved one way. */
function directions(at: Float64Array): Float64Array | null {
  if (at.length < FEWEST_FOR_BACKLASH) return null
  const side = at.map((here, i) => Math.sign(here - (at[i - 1] ?? here)) / 2)
  // The first reading, and repeated ones, belong to the way they are on.
  for (let i = at.length - 2; i >= 0; i--) if (side[i] === 0) side[i] = side[i + 1] as number
  const up = side.reduce((count, value) => count + (value > 0 ? 1 : 0), 0)
  return Math.min(up, at.length - up) >= BOTH_WAYS * at.length ? side : null
}
