// The waveguide behind the chip's face: a strip, or an inverse taper that widens along the chip.

import type { OutlinePoint } from './envelope'
import type { JointBodies } from './jointBodies'

/** Closed outline from the face at 0 to `endUm`; never thinner than `leastUm`, so that it stays visible. */
export function guideOutline(
  parts: Pick<JointBodies, 'guideWidthUm' | 'guideHeightUm' | 'taper'>,
  axis: 'x' | 'y',
  endUm: number,
  leastUm: number,
): readonly OutlinePoint[] {
  const { taper } = parts
  const stations: readonly (readonly [zUm: number, widthUm: number])[] =
    axis === 'y'
      ? [
          [0, parts.guideHeightUm],
          [endUm, parts.guideHeightUm],
        ]
      : taper === null
        ? [
            [0, parts.guideWidthUm],
            [endUm, parts.guideWidthUm],
          ]
        : [
            [0, taper.tipWidthUm],
            [taper.lengthUm, taper.routingWidthUm],
            [Math.max(endUm, taper.lengthUm), taper.routingWidthUm],
          ]
  const edge = (side: 1 | -1) =>
    stations.map(([zUm, widthUm]) => ({ zUm, vUm: (side * Math.max(leastUm, widthUm)) / 2 }))
  return [...edge(1), ...edge(-1).toReversed()]
}
