// How often glass touches chip within the tolerances, each simulated assembly with its own offsets, tilts, roll and gap, and the gap
// that would have to be set for a stated share to stay clear. At the temperature of assembly.

import { unitPoints } from '../../numerics/random/unitPoints'
import { quantile } from '../../numerics/statistics'
import type { CompiledCandidate } from '../path/compileCandidate'
import { drawsOf } from '../tolerance/draws'

interface JointContact {
  readonly elementId: string
  /** Share of the simulated assemblies that touch. */
  readonly share: number
  /** Required increase of the gap for the stated share to stay free of contact, um; negative where the gap may be smaller. */
  readonly moreUm: number
}

interface PoseContact {
  readonly samples: number
  /** Share of the simulated assemblies in which any joint touches. */
  readonly share: number
  readonly joints: readonly JointContact[]
}

/** Points of a Sobol sequence: enough for a share to 1 %, and a few ten milliseconds. */
const SAMPLES = 1024
/** Contact to rounding is still clear. */
const TOUCH_UM = 1e-9

/** Null where no gap has a chip edge or an outline. `clearShare`, 0 to 1, is what is to stay clear. */
export function poseContact(
  { joins, variables, nominal, candidate }: CompiledCandidate,
  clearShare: number,
  seed: number,
): PoseContact | null {
  const own = joins.flatMap(({ clearanceUm }, at) =>
    clearanceUm === undefined ? [] : [{ clearanceUm, elementId: candidate.chain[2 * at + 1]?.id ?? '' }],
  )
  if (own.length === 0) return null
  const draws = drawsOf(variables)
  const points = unitPoints('sobol', Math.max(1, draws.slots.length), seed)
  const point = new Float64Array(points.dimensions)
  const values = Float64Array.from(nominal)
  const clearances = own.map(() => new Float64Array(SAMPLES))
  let touching = 0
  for (let i = 0; i < SAMPLES; i++) {
    points.point(i, point)
    draws.apply(point, values)
    let touches = false
    for (const [j, { clearanceUm }] of own.entries()) {
      const um = clearanceUm(values)
      const list = clearances[j]
      if (list !== undefined) list[i] = um
      touches ||= um < -TOUCH_UM
    }
    if (touches) touching++
  }
  return {
    samples: SAMPLES,
    share: touching / SAMPLES,
    joints: own.map(({ elementId }, j) => {
      const list = clearances[j] ?? new Float64Array(0)
      return {
        elementId,
        share: list.filter((um) => um < -TOUCH_UM).length / SAMPLES,
        moreUm: -quantile(list, 1 - clearShare),
      }
    }),
  }
}
