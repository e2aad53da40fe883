// The pose that a gap was last assembled in, for the other conditions of the same assembly: a run looks at each one at several
// temperatures, and alignment is half of the work.

import type { Values } from '../vector/readers'
import type { FreePose } from './alignPose'

interface KeptPose {
  /** Keeps the pose of the values, and the slope that its faces had. */
  readonly keep: (v: Values, pose: FreePose, slopeRad: number) => void
  /** Writes the kept pose; false where the values differ from those it was kept for, apart from the operating ones. */
  readonly restore: (v: Values, pose: FreePose) => boolean
  readonly forget: () => void
  readonly slopeRad: () => number
  /** Whether a pose was ever asked for: keeping costs a copy of the values. */
  readonly isUsed: () => boolean
}

export function keptPose(operating: readonly number[]): KeptPose {
  let values = new Float64Array(0)
  let steady = new Int32Array(0)
  let used = false
  let slope = 0
  const kept: FreePose = { offsetXUm: 0, offsetYUm: 0, gapUm: 0, tiltXRad: 0, tiltYRad: 0, rollRad: 0 }
  const copy = (from: FreePose, to: FreePose) => {
    to.offsetXUm = from.offsetXUm
    to.offsetYUm = from.offsetYUm
    to.gapUm = from.gapUm
    to.tiltXRad = from.tiltXRad
    to.tiltYRad = from.tiltYRad
    to.rollRad = from.rollRad
  }
  return {
    keep: (v, pose, slopeRad) => {
      if (values.length !== v.length) {
        values = new Float64Array(v.length)
        steady = Int32Array.from(v.keys()).filter((place) => !operating.includes(place))
      }
      values.set(v)
      copy(pose, kept)
      slope = slopeRad
    },
    restore: (v, pose) => {
      used = true
      if (values.length !== v.length) return false
      for (let i = 0; i < steady.length; i++) {
        const place = steady[i] as number
        if (values[place] !== v[place]) return false
      }
      copy(kept, pose)
      return true
    },
    forget: () => {
      values = new Float64Array(0)
    },
    slopeRad: () => slope,
    isUsed: () => used,
  }
}
