// The mount of a design as the Path strip shows it: what carries the fibre side and the chip side, up from one base.

import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { MountLayer } from '../../model/schema/mount'
import { type Child, element } from '../render/markup'
import type { Palette, Tone } from '../render/palette'
import { px, rect } from '../render/svgShapes'

/** Heights of the layers in order from the base, um. Layers along the chip or the light carry nothing upwards. */
export interface MountStacks {
  readonly fibreSide: readonly number[]
  readonly chipSide: readonly number[]
}

export function mountStacks({ mount }: Pick<Candidate, 'mount'>): MountStacks | null {
  if (mount === undefined) return null
  const heights = (layers: readonly MountLayer[]) =>
    layers
      .filter(({ axis }) => axis === 'y')
      .map(({ length }) => Math.abs(coreValue(length, 'mountLength')))
      .filter((heightUm) => heightUm > 0)
  return { fibreSide: heights(mount.fibreSide), chipSide: heights(mount.chipSide) }
}

/** Neighbours differ, and the lowest layers of both sides are alike. */
const TONES: readonly Tone[] = ['rule', 'soft', 'band']
const BASE_PX = 2

/**
 * Both stacks below the body, to scale against each other, on their common base: the fibre side's up to the joint, the
 * chip side's from there on.
 */
export function mountShapes(
  { fibreSide, chipSide }: MountStacks,
  frame: { readonly topPx: number; readonly heightPx: number; readonly jointPx: readonly [number, number] },
  widthPx: number,
  palette: Palette,
): Child {
  const { topPx, heightPx, jointPx } = frame
  const sum = (heights: readonly number[]) => heights.reduce((total, each) => total + each, 0)
  const pxPerUm = (heightPx - BASE_PX) / Math.max(1e-9, sum(fibreSide), sum(chipSide))
  const basePx = topPx + heightPx - BASE_PX
  const stack = (heights: readonly number[], fromPx: number, toPx: number) => {
    let atPx = basePx
    return heights.map((heightUm, i) => {
      const lowerPx = atPx
      atPx -= heightUm * pxPerUm
      return rect(fromPx, lowerPx, toPx, atPx, {
        fill: palette[TONES[i % TONES.length] ?? 'rule'],
        stroke: palette.glassEdge,
        'stroke-width': 0.75,
      })
    })
  }
  return [
    stack(fibreSide, 0, jointPx[0]),
    stack(chipSide, jointPx[1], widthPx),
    element('path', {
      stroke: palette.quiet,
      'stroke-width': BASE_PX,
      d: `M0 ${px(basePx + BASE_PX / 2)}H${px(widthPx)}`,
    }),
  ]
}
