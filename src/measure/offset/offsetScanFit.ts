// The Gaussian of a transverse-offset scan, fitted to its readings in the order in which they were taken.
//   P(x) = A exp(−2 u²) + b,   u = (x − c ∓ β/2) / W
// β is the backlash of a stage that was moved in both directions: the centre in one direction minus that in the other.

import { type CorrelatedFit, correlatedFit, type Fault } from '../fit/correlatedFit'
import { scanNoise } from '../fit/noiseModel'
import type { OrderedScan } from '../fit/orderedScan'
import type { LinearModel } from '../fit/restrictedLikelihood'

/** Order of the parameters; backlash only for scans in both directions. */
export const OFFSET_PARAMETER = { peak: 0, centre: 1, radius: 2, background: 3, backlash: 4 } as const

/** Share of the readings that must have been reached from each side. */
const BOTH_WAYS = 0.25
const FEWEST_FOR_BACKLASH = 16

/** Centre and radius of weak side peaks that are tried, in 1/e² radii of the scan. */
const SIDE_PEAKS = [0.9, 1.6, 2.6].flatMap((wide) => [-2, -1, 0, 1, 2].map((from) => ({ from, wide })))
/** Prior odds of each fault, relative to a scan without any. */
const ODDS = 0.5
/** A side peak under the mode hardly shows in the residuals: only these odds then widen the interval. */
const SIDE_PEAK_ODDS = 0.4
/** Likelihood ratios above which a fault is reported; with independent noise, about 4 % of scans report one (tests/measure/intervals). */
const NOTED = { one: 7, several: 7.7 } as const

/** Starts from peak, centre, radius and background of the plain fit. Null where this fit does not converge near it. */
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
  const fit = correlatedFit(first, linearise, scanNoise(scan.at, scan.power), (p) => faultsOf(at, p))
  const radius = fit?.parameters[OFFSET_PARAMETER.radius] ?? 0
  const before = start[OFFSET_PARAMETER.radius] as number
  return radius > before / 3 && radius < 3 * before ? fit : null
}

/** Faults of known shape that a scan of one peak may hide. */
function faultsOf(at: Float64Array, p: Float64Array): readonly Fault[] {
  const [peak = 0, centre = 0, radius = 1] = p
  const of = (shape: (u: number) => number) => at.map((x) => peak * shape((x - centre) / radius))
  return [
    {
      cause: 'the background is sloped',
      alternatives: [of((u) => u)],
      standard: 0.01,
      odds: ODDS,
      noted: NOTED.one,
      isLight: false,
    },
    {
      cause: 'the mode is wider on one side',
      alternatives: [of((u) => Math.sign(u) * u * u * Math.exp(-2 * u * u))],
      standard: 0.1,
      odds: ODDS,
      noted: NOTED.one,
      isLight: false,
    },
    {
      cause: 'there is a weak side peak or a scatter skirt under the mode',
      alternatives: SIDE_PEAKS.map(({ from, wide }) => of((u) => Math.exp(-2 * ((u - from) / wide) ** 2))),
      standard: 0.01,
      odds: SIDE_PEAK_ODDS,
      noted: NOTED.several,
      isLight: true,
    },
  ]
}

/** +½ where a position was reached from below, −½ from above; null for a scan in one direction. */
function directions(at: Float64Array): Float64Array | null {
  if (at.length < FEWEST_FOR_BACKLASH) return null
  const side = at.map((here, i) => Math.sign(here - (at[i - 1] ?? here)) / 2)
  // The first reading, and repeated ones, take the direction of the next move.
  for (let i = at.length - 2; i >= 0; i--) if (side[i] === 0) side[i] = side[i + 1] as number
  const up = side.reduce((count, value) => count + (value > 0 ? 1 : 0), 0)
  return Math.min(up, at.length - up) >= BOTH_WAYS * at.length ? side : null
}
