// The loss over the capture ellipse as a table, for the many readings of simulated climbs.

import type { Steps } from '../../numerics/steps'
import type { GaussianJoint } from '../../optics/index'
import type { LossOf } from '../tolerance/toleranceCurve'
import type { CaptureArea } from './capture'
import type { AreaLoss } from './hillClimb'

/** Cells a side of the table, which reaches a little further than the ellipse. */
const CELLS = 24
const REACH = 1.2
const CELL = (2 * REACH) / CELLS

/** Catmull-Rom weights of four nodes at a share of the way from the second to the third: exact for parabolas. */
function weightsOf(t: number): readonly number[] {
  return [
    t * (t * (1 - t / 2) - 0.5),
    1 + t * t * (1.5 * t - 2.5),
    t * (0.5 + t * (2 - 1.5 * t)),
    t * t * (t / 2 - 0.5),
  ]
}

/** Steps of the table about a pose at its lateral optimum; the result is relative to that optimum. */
export function* areaLossSteps(
  optimum: GaussianJoint,
  { captureXUm, captureYUm }: CaptureArea,
  lossOf: LossOf,
): Steps<AreaLoss> {
  const side = CELLS + 3 // one node beyond each edge
  const optimumDb = lossOf(optimum)
  const table = new Float64Array(side * side)
  const position = (i: number) => (i - 1) * CELL - REACH
  for (let j = 0; j < side; j++) {
    for (let i = 0; i < side; i++) {
      const offsetXUm = optimum.offsetXUm + position(i) * captureXUm
      const offsetYUm = optimum.offsetYUm + position(j) * captureYUm
      table[j * side + i] = lossOf({ ...optimum, offsetXUm, offsetYUm }) - optimumDb
    }
    yield (j + 1) / side
  }
  const nodeOf = (x: number) => {
    const steps = (Math.max(-REACH, Math.min(REACH, x)) + REACH) / CELL
    const first = Math.min(CELLS - 1, Math.floor(steps))
    return { first, weights: weightsOf(steps - first) }
  }
  return (x, y) => {
    const alongX = nodeOf(x)
    const alongY = nodeOf(y)
    let sum = 0
    alongY.weights.forEach((weightY, j) => {
      const row = (alongY.first + j) * side + alongX.first
      alongX.weights.forEach((weightX, i) => {
        sum += weightY * weightX * (table[row + i] ?? 0)
      })
    })
    return sum
  }
}
