// Parts of the chip that can obstruct a body approaching along z: the facet's own face, the ledge in front of it, a lid above it.

import { coreValue } from '../../model/quantity/quantity'
import type { ChipEdge } from '../../model/schema/build/chipEdge'
import type { FacetEntry } from '../../model/schema/parts'
import type { FaceSlopes } from './solids'

/** A part of the chip between two heights, um; it is there for every x, and reaches backwards from its front. */
export interface Obstacle {
  readonly name: string
  readonly fromYUm: number
  readonly toYUm: number
  /** z of the front on the waveguide's axis; the facet is at 0, in front of it is negative. */
  readonly frontZUm: number
  readonly face: FaceSlopes
}

/** Sizes of a chip edge in um; lid and trench null where there is none. */
export interface EdgeSizes {
  readonly recessUm: number
  readonly ledgeDepthUm: number
  readonly trench: {
    readonly lengthUm: number
    readonly depthUm: number
  } | null
  readonly topUm: number
  readonly bottomUm: number
  readonly lid: {
    readonly heightUm: number
    readonly distanceUm: number
  } | null
  /** True where a V-groove recesses the fibre into the ledge, which then does not obstruct it. */
  readonly grooved: boolean
}

export function edgeSizes(facet: Pick<FacetEntry, 'depth'>, edge: ChipEdge): EdgeSizes {
  const topUm = coreValue(facet.depth, 'depth')
  const { trenchLength, trenchDepth, lidHeight, lidDistance } = edge
  return {
    recessUm: coreValue(edge.recess, 'recess'),
    ledgeDepthUm: coreValue(edge.ledgeDepth, 'edgeDepth'),
    trench:
      trenchLength === undefined || trenchDepth === undefined
        ? null
        : {
            lengthUm: coreValue(trenchLength, 'recess'),
            depthUm: coreValue(trenchDepth, 'edgeDepth'),
          },
    topUm,
    bottomUm: topUm - coreValue(edge.chipThickness, 'chipThickness'),
    lid:
      lidHeight === undefined
        ? null
        : {
            heightUm: coreValue(lidHeight, 'lidHeight'),
            distanceUm: lidDistance === undefined ? 0 : coreValue(lidDistance, 'overhang'),
          },
    grooved: edge.groove !== undefined,
  }
}

/** Height of the surface that the dicing edge leaves in front of the facet: the ledge, or the floor of a trench as long as the recess. */
export function ledgeTopUm({ recessUm, ledgeDepthUm, trench }: EdgeSizes): number {
  return trench !== null && trench.lengthUm >= recessUm ? -trench.depthUm : -ledgeDepthUm
}

export function obstaclesOf(edge: EdgeSizes, face: FaceSlopes): readonly Obstacle[] {
  const { recessUm, topUm, bottomUm, lid, grooved } = edge
  const ledgeUm = Math.min(topUm, ledgeTopUm(edge))
  const upright = { x: 0, y: 0 }
  return [
    {
      name: 'end face of the chip',
      fromYUm: bottomUm,
      toYUm: topUm,
      frontZUm: 0,
      face,
    },
    ...(recessUm > 0 && ledgeUm > bottomUm && !grooved
      ? [
          {
            name: 'ledge',
            fromYUm: bottomUm,
            toYUm: ledgeUm,
            frontZUm: -recessUm,
            face: upright,
          },
        ]
      : []),
    ...(lid !== null && lid.heightUm > 0
      ? [
          {
            name: 'lid',
            fromYUm: topUm,
            toYUm: topUm + lid.heightUm,
            frontZUm: lid.distanceUm,
            face: upright,
          },
        ]
      : []),
  ]
}
