// A solved radial mode as a profile: cubic pieces through field and slope, and the outer solution beyond the table.

import { besselK0Scaled } from '../../numerics/bessel'
import type { ModeProfile } from './modeProfile'
import type { RadialMode } from './radialMode'

/** Amplitudes below this share of that on the axis are omitted from the first grid. */
const LEFT_OUT = 1e-4
/** The first grid has this many samples on the radius at which the field is half of its peak. */
const SAMPLES_A_RADIUS = 4

/** Greatest index i with values[i] <= x, by halving; values ascend. */
function indexBelow(values: Float64Array, x: number): number {
  let low = 0
  let high = values.length - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((values[middle] as number) <= x) low = middle
    else high = middle
  }
  return low
}

/** What a profile needs of a radial mode. */
type RadialField = Pick<RadialMode, 'radiiUm' | 'field' | 'slopePerUm' | 'decayPerUm'>

/** The profile about the axis of the fibre. */
export function radialProfile(mode: RadialField): ModeProfile {
  const { radiiUm, field, slopePerUm, decayPerUm } = mode
  const edge = radiiUm.at(-1) ?? 1
  const atEdge = field.at(-1) ?? 0
  const perEdge = atEdge / besselK0Scaled(decayPerUm * edge)
  const inside = (r: number): number => {
    const i = indexBelow(radiiUm, r)
    const r0 = radiiUm[i] as number
    const h = (radiiUm[i + 1] ?? edge) - r0
    const t = (r - r0) / h
    const rest = 1 - t
    return (
      rest * rest * ((1 + 2 * t) * (field[i] as number) + t * h * (slopePerUm[i] as number)) +
      t * t * ((3 - 2 * t) * (field[i + 1] as number) - rest * h * (slopePerUm[i + 1] as number))
    )
  }
  const onAxis = field[0] as number
  const half = field.findIndex((value) => value < 0.5 * onAxis)
  const halfRadius = half > 0 ? (radiiUm[half] ?? edge) : edge
  // A table may reach far into the cladding, where the field has died long before its edge.
  const last = field.findLastIndex((value) => Math.abs(value) > LEFT_OUT * onAxis)
  const reachUm =
    last < field.length - 1
      ? (radiiUm[last + 1] ?? edge)
      : edge + Math.log(atEdge / onAxis / LEFT_OUT) / decayPerUm
  return {
    at: (xUm, yUm, out) => {
      const r = Math.sqrt(xUm * xUm + yUm * yUm)
      out.re =
        r < edge ? inside(r) : perEdge * besselK0Scaled(decayPerUm * r) * Math.exp(-decayPerUm * (r - edge))
      out.im = 0
    },
    reachXUm: reachUm,
    reachYUm: reachUm,
    stepXUm: halfRadius / SAMPLES_A_RADIUS,
    stepYUm: halfRadius / SAMPLES_A_RADIUS,
  }
}
