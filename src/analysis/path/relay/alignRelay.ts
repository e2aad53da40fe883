// Active alignment through a relay: the near guide goes to where this very assembly couples most into the far one.
// Offset h and slope s of the near guide reach the last lens as M [h; s] plus a constant that the lenses add. There the
// loss is an exact quadratic form (optics/joint/misalignmentForm.ts), so it is one of the near guide's pose too:
//   loss = (u - best)' P' H P (u - best),  P = M for each axis,  best = -inv(P) (ray of the guide on the axis)
// What apertures clip plays no part in the search. Source: the algebra above; ray matrices of equal media have det 1.

import { RELAY_ALIGNED } from '../../../model/words/candidate'
import { fillCurvatureDb } from '../../../optics/index'
import { settleFree } from '../gap/alignPose'
import type { NearPose, PoseForm } from '../vector/models'
import { type RelayGeometry, relayJoint, relayMatrix, relayState } from './relayOptics'

const vectorOf = (pose: NearPose) =>
  Float64Array.of(pose.offsetXUm, pose.offsetYUm, pose.tiltXRad, pose.tiltYRad)

/** The loss through a relay as a form of the near guide's pose. */
export function relayForm(geometry: RelayGeometry): PoseForm {
  const onAxis = { ...geometry, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const state = relayState(onAxis)
  const joint = relayJoint(onAxis, state)
  const m = relayMatrix(geometry, state)
  const form = new Float64Array(16)
  fillCurvatureDb(joint, form)
  const best = [
    m.b * joint.tiltXRad - m.d * joint.offsetXUm,
    m.b * joint.tiltYRad - m.d * joint.offsetYUm,
    m.c * joint.offsetXUm - m.a * joint.tiltXRad,
    m.c * joint.offsetYUm - m.a * joint.tiltYRad,
  ]
  const p = Float64Array.of(m.a, 0, m.b, 0, 0, m.a, 0, m.b, m.c, 0, m.d, 0, 0, m.c, 0, m.d)
  return {
    curvatureDb: congruent(form, p),
    fromBest: vectorOf(geometry).map((placed, i) => placed - (best[i] ?? 0)),
  }
}

/**
 * The pose after alignment: what is aligned stands at its best plus its residual, the rest as placed in the geometry.
 * Offsets are aligned last, as stations do: they make up for what the search left in the tilts.
 */
export function alignRelay(
  geometry: RelayGeometry,
  aligned: ReadonlySet<string>,
  residual: NearPose,
): NearPose {
  const { curvatureDb, fromBest: at } = relayForm(geometry)
  const best = vectorOf(geometry).map((placed, i) => placed - (at[i] ?? 0))
  const left = vectorOf(residual)
  const system = new Float64Array(20)
  const free = RELAY_ALIGNED.map((axis) => aligned.has(axis))
  const settle = (which: readonly boolean[], withResidual: readonly number[]) => {
    settleFree(curvatureDb, which, at, system)
    for (const i of withResidual) if (free[i]) at[i] = (at[i] ?? 0) + (left[i] ?? 0)
  }
  if (free[2] || free[3]) settle(free, [2, 3])
  settle([free[0] ?? false, free[1] ?? false, false, false], [0, 1])
  const pose = at.map((each, i) => each + (best[i] ?? 0))
  return {
    offsetXUm: pose[0] ?? 0,
    offsetYUm: pose[1] ?? 0,
    tiltXRad: pose[2] ?? 0,
    tiltYRad: pose[3] ?? 0,
  }
}

/** P' H P of two 4 x 4 matrices, row-major. */
function congruent(h: Float64Array, p: Float64Array): Float64Array {
  return Float64Array.from({ length: 16 }, (_, at) => {
    const [i, j] = [at >> 2, at & 3]
    let sum = 0
    for (let k = 0; k < 4; k++) {
      for (let l = 0; l < 4; l++) sum += (p[4 * k + i] ?? 0) * (h[4 * k + l] ?? 0) * (p[4 * l + j] ?? 0)
    }
    return sum
  })
}
