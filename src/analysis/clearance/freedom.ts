// How far an end may be tilted and rolled at its gap before glass touches chip.

import { type BodyPose, contactOf } from './contact'
import type { ClearanceSetup } from './jointClearance'

export type TurnAxis = 'axisXRad' | 'axisYRad' | 'rollRad'

/** From the pose, rad: how far to the negative and to the positive side; null on a side that meets nothing up to the limit. */
type TurnRange = readonly [negative: number | null, positive: number | null]

const DEG = Math.PI / 180
const LIMIT_RAD: Readonly<Record<TurnAxis, number>> = {
  axisXRad: 45 * DEG,
  axisYRad: 45 * DEG,
  rollRad: 180 * DEG,
}
const STEP_RAD = 0.5 * DEG
const BISECTIONS = 24
/** Bodies that touch to within rounding are not treated as in contact. */
const TOUCH_UM = 1e-6

/** The first turn on either side at which the body touches with its face at `gapUm`; [0, 0] where it touches already. */
export function turnRange(setup: ClearanceSetup, pose: BodyPose, gapUm: number, axis: TurnAxis): TurnRange {
  const touches = (turnRad: number) => {
    const contact = contactOf(setup.solids, setup.obstacles, {
      ...pose,
      [axis]: pose[axis] + turnRad,
    })
    return contact !== null && contact.gapUm > gapUm + TOUCH_UM
  }
  if (touches(0)) return [0, 0]
  const side = (sign: 1 | -1): number | null => {
    for (let free = 0; free < LIMIT_RAD[axis]; free += STEP_RAD) {
      if (!touches(sign * (free + STEP_RAD))) continue
      let [no, yes] = [free + STEP_RAD, free]
      for (let i = 0; i < BISECTIONS; i++) {
        const middle = (no + yes) / 2
        if (touches(sign * middle)) no = middle
        else yes = middle
      }
      return yes
    }
    return null
  }
  return [side(-1), side(1)]
}
