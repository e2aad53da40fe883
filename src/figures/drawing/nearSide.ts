// The fibre side of a joint in one plane of the drawing: its bodies as outlines, and how far they reach.

import { ASSUMED_TIP_RADIUS_UM } from '../../analysis/clearance/outlines'
import { bodyOutline } from './bodyOutline'
import type { OutlinePoint } from './envelope'
import type { JointBodies } from './jointBodies'
import type { JointShapeOptions } from './jointShapeOptions'
import { tipOutline } from './tipOutline'

export interface NearSide {
  /** Where bodies end on the left, um along their own axis: beyond the edge of the picture. */
  readonly leftUm: number
  /** From the fibre's own axis, with the middle of its face at the origin, to the plane of the drawing. */
  readonly turned: (point: OutlinePoint) => OutlinePoint
  readonly bodies: readonly (readonly OutlinePoint[])[]
}

/** dz/dv of the fibre's own end face in this plane. */
export const nearFaceSlopeOf = (parts: JointBodies, axis: 'x' | 'y'): number =>
  parts.facePlane === axis ? Math.tan(parts.nearFaceAngleRad) : 0

export function nearSide({ axis, view, plane, parts, scale, widthPx }: JointShapeOptions): NearSide {
  const { gapUm } = view.joint
  const { tip } = view.near
  const { nearAxisRad } = plane
  const slope = nearFaceSlopeOf(parts, axis)
  const turned = ({ zUm, vUm }: OutlinePoint): OutlinePoint => ({
    zUm: -gapUm + zUm * Math.cos(nearAxisRad) - vUm * Math.sin(nearAxisRad),
    vUm: plane.centreVUm + zUm * Math.sin(nearAxisRad) + vUm * Math.cos(nearAxisRad),
  })
  // Bodies run out of the picture: to its edge, or a little further where their face has left it.
  const leftUm = Math.min(scale.centreZUm - widthPx / scale.pxPerUm + gapUm, -2 * parts.claddingDiameterUm)
  const halfUm = parts.claddingDiameterUm / 2
  const bare = [
    { zUm: leftUm, vUm: halfUm },
    ...(tip === undefined
      ? [
          { zUm: halfUm * slope, vUm: halfUm },
          { zUm: -halfUm * slope, vUm: -halfUm },
        ]
      : tipOutline(0, 0, tip.radiusUm ?? ASSUMED_TIP_RADIUS_UM, halfUm)),
    { zUm: leftUm, vUm: -halfUm },
  ]
  const bodies = parts.solids === null ? [bare] : parts.solids.map((each) => bodyOutline(each, axis, leftUm))
  return { leftUm, turned, bodies: bodies.map((each) => each.map(turned)) }
}

/** How far the bodies reach at the height `vUm`, um along z; -Infinity where there is none. */
export function reachUm(bodies: NearSide['bodies'], vUm: number): number {
  let reach = Number.NEGATIVE_INFINITY
  for (const body of bodies) {
    body.forEach((from, at) => {
      const to = body[(at + 1) % body.length] ?? from
      const share = (vUm - from.vUm) / (to.vUm - from.vUm)
      if (share >= 0 && share <= 1) reach = Math.max(reach, from.zUm + share * (to.zUm - from.zUm))
    })
  }
  return reach
}
