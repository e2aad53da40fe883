// Excess loss of designs against lateral offsets at the chip, for small pictures over one range.

import { displacedLosses } from '../field/displacedLosses'
import type { RealJoint } from '../field/fieldWindows'
import { chipJoint } from '../tolerance/viewWindows'
import { viewChipMark } from './chipWindows'

/** Excess loss at the chip over a lateral offset on both axes, for a small picture. */
export interface OffsetExcess {
  readonly x: Float64Array
  readonly y: Float64Array
  /** Whether the paraxial image holds the place of real lenses, which are traced elsewhere. */
  readonly isProvisional: boolean
}

const PICTURE_POINTS = 49

/** How far small pictures of all these joints reach to either side, um: so that 1 dB lies well within the widest. */
export function pictureReachUm(views: readonly RealJoint[]): number {
  const sides = views.flatMap((view) =>
    (['offsetXUm', 'offsetYUm'] as const).flatMap((axis) => {
      const { below, above } = viewChipMark(view, axis)
      return [below, above].filter((side) => side !== null)
    }),
  )
  return Math.max(1, Math.ceil(1.2 * Math.max(0, ...sides)))
}

/** Excess loss from -reach to reach; the working point lies in the middle. Of a relay through its real lenses. */
export function offsetExcess({ joint, lenses }: RealJoint, reachUm: number): OffsetExcess {
  const seen = chipJoint(joint, 'offsetXUm')
  const along = (axis: 'offsetXUm' | 'offsetYUm') =>
    [{ axis, from: seen[axis] - reachUm, to: seen[axis] + reachUm, count: PICTURE_POINTS }] as const
  const { lossesDb, hereDb, isProvisional } = displacedLosses(seen, lenses, [
    along('offsetXUm'),
    along('offsetYUm'),
  ])
  const [x, y] = lossesDb.map((losses) => losses.map((lossDb) => lossDb - hereDb))
  return { x: x ?? new Float64Array(0), y: y ?? new Float64Array(0), isProvisional }
}
