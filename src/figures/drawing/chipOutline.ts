// The chip at a joint: its body with the ledge in front of the facet and the lid above it, and where no end face can be.

import type { EdgeSizes } from '../../analysis/clearance/obstacles'
import type { OutlinePoint } from './envelope'

/** The chip reaches this far below and next to its waveguide in the drawing, where its thickness is not known. */
export const CHIP_HALF_UM = 400

interface ChipShape {
  readonly className: string
  readonly points: readonly OutlinePoint[]
}

const rectangle = (fromZ: number, toZ: number, fromV: number, toV: number): readonly OutlinePoint[] => [
  { zUm: fromZ, vUm: fromV },
  { zUm: toZ, vUm: fromV },
  { zUm: toZ, vUm: toV },
  { zUm: fromZ, vUm: toV },
]

/** The chip's section in the plane of the axis, or its top view; `slope` is dz/dv of the facet, `depthUm` the surface above the waveguide. */
export function chipShapes(
  axis: 'x' | 'y',
  edge: EdgeSizes | null,
  depthUm: number,
  slope: number,
  rightUm: number,
): readonly ChipShape[] {
  const topUm = axis === 'x' ? CHIP_HALF_UM : depthUm
  const bottomUm = axis === 'x' || edge === null ? -CHIP_HALF_UM : edge.bottomUm
  const face = (vUm: number): OutlinePoint => ({ zUm: vUm * slope, vUm })
  const body = (floor: readonly OutlinePoint[]): ChipShape => ({
    className: 'drawn-body',
    points: [{ zUm: rightUm, vUm: topUm }, face(topUm), ...floor, { zUm: rightUm, vUm: bottomUm }],
  })
  if (edge === null) return [body([face(bottomUm)])]
  const { recessUm, ledgeDepthUm, trench, lid, grooved } = edge
  const lidEndUm = Math.max(rightUm, lid?.distanceUm ?? 0)
  if (axis === 'x') {
    return [
      // The ledge lies below what the plane cuts.
      ...(recessUm > 0
        ? [{ className: 'drawn-below', points: rectangle(-recessUm, 0, -CHIP_HALF_UM, CHIP_HALF_UM) }]
        : []),
      body([face(bottomUm)]),
      ...(lid === null
        ? []
        : [{ className: 'drawn-above', points: rectangle(lid.distanceUm, lidEndUm, bottomUm, topUm) }]),
    ]
  }
  const trenchUm = Math.min(recessUm, trench?.lengthUm ?? 0)
  const floor =
    recessUm === 0 || grooved
      ? [face(bottomUm)]
      : [
          ...(trench === null || trenchUm === 0
            ? [face(-ledgeDepthUm)]
            : [face(-trench.depthUm), { zUm: -trenchUm, vUm: -trench.depthUm }]),
          ...(trenchUm < recessUm
            ? [
                { zUm: -trenchUm, vUm: -ledgeDepthUm },
                { zUm: -recessUm, vUm: -ledgeDepthUm },
              ]
            : []),
          { zUm: -recessUm, vUm: bottomUm },
        ]
  return [
    body(floor),
    ...(lid === null || lid.heightUm === 0
      ? []
      : [
          {
            className: 'drawn-body',
            points: rectangle(lid.distanceUm, lidEndUm, topUm, topUm + lid.heightUm),
          },
        ]),
  ]
}

/** Where the middle of the end face cannot be: from the facet to contact, as high as the end. */
export function keepOut(contactUm: number, fromVUm: number, toVUm: number): readonly OutlinePoint[] {
  return rectangle(-contactUm, 0, fromVUm, toVUm)
}
