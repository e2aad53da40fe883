// Active alignment of one lens of a relay: it goes across the light to where this very assembly couples most, everything
// else where it is then. The ray on the axis leaves lens 2 at an offset and a slope that move in proportion to the lens, and
// the loss is an exact quadratic form of both (optics/joint/misalignmentForm.ts), so with c the ray of the centred lens and G
// what a micrometre of the lens moves,
//   loss = (c + G u)' H (c + G u),   best u = -inv(G' H G) G' H c
// What apertures clip and aberrations add plays no part. Source: the algebra above.

import type { LensAxis } from '../../../model/words/candidate'
import { fillCurvatureDb } from '../../../optics/index'
import { type RelayGeometry, relayJoint, relayState } from './relayOptics'

/** Offsets of one lens from the axis, um. */
export interface LensOffset {
  readonly offsetXUm: number
  readonly offsetYUm: number
}

/** Below this a displaced lens does not steer the beam, dB/um^2. */
const NO_EFFECT = 1e-15

function exitRay(geometry: RelayGeometry, lens: 'lens1' | 'lens2', at: LensOffset) {
  const moved = { ...geometry, [lens]: { ...geometry[lens], ...at } }
  const state = relayState(moved)
  const joint = relayJoint(moved, state)
  return { joint, ray: [joint.offsetXUm, joint.offsetYUm, joint.tiltXRad, joint.tiltYRad] as const }
}

/** The lens after alignment: aligned axes at their optimum plus what they held on entry, the others as placed. */
export function alignLens(
  geometry: RelayGeometry,
  lens: 'lens1' | 'lens2',
  aligned: readonly LensAxis[],
): LensOffset {
  const { offsetXUm, offsetYUm } = geometry[lens]
  const [movesX, movesY] = [aligned.includes('offsetX'), aligned.includes('offsetY')]
  if (!movesX && !movesY) return { offsetXUm, offsetYUm }
  const start = { offsetXUm: movesX ? 0 : offsetXUm, offsetYUm: movesY ? 0 : offsetYUm }
  const { joint, ray: c } = exitRay(geometry, lens, start)
  // Both planes at once: they do not mix before the joint.
  const { ray: next } = exitRay(geometry, lens, {
    offsetXUm: start.offsetXUm + 1,
    offsetYUm: start.offsetYUm + 1,
  })
  const g = next.map((each, i) => each - (c[i] ?? 0))
  const h = new Float64Array(16)
  fillCurvatureDb(joint, h)
  /** Product of a plane's part of G with H and another vector; offset and slope of x are entries 0 and 2, of y 1 and 3. */
  const product = (plane: 0 | 1, other: (j: number) => number) => {
    let sum = 0
    for (const i of [plane, plane + 2]) {
      for (let j = 0; j < 4; j++) sum += (g[i] ?? 0) * (h[4 * i + j] ?? 0) * other(j)
    }
    return sum
  }
  const of = (plane: 0 | 1) => (j: number) => (j % 2 === plane ? (g[j] ?? 0) : 0)
  const ray = (j: number) => c[j] ?? 0
  const [xx, xy, yy] = [product(0, of(0)), product(0, of(1)), product(1, of(1))]
  const [rx, ry] = [-product(0, ray), -product(1, ray)]
  if ((movesX && !(xx > NO_EFFECT)) || (movesY && !(yy > NO_EFFECT))) return { offsetXUm, offsetYUm }
  const both = xx * yy - xy * xy
  const best =
    movesX && movesY
      ? { x: (yy * rx - xy * ry) / both, y: (xx * ry - xy * rx) / both }
      : { x: rx / xx, y: ry / yy }
  return {
    offsetXUm: movesX ? best.x + offsetXUm : offsetXUm,
    offsetYUm: movesY ? best.y + offsetYUm : offsetYUm,
  }
}
