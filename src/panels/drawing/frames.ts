// How much of a joint a view shows: what fits fibre, joint or waveguide, and whether two views are larger one above the other or
// side by side.

import type { JointView } from '../../analysis/results/evaluation'
import type { JointBodies } from '../../figures/drawing/jointBodies'
import { fittedPxPerUm, type ViewFrame } from '../../figures/drawing/scale'
import type { ElementSize } from '../../ui/figures/useSize'

export const PRESETS = ['fibre', 'joint', 'waveguide'] as const
export type Preset = (typeof PRESETS)[number]

/** The length along z and the height that a preset shows, um, with the middle of the length. */
function extent(preset: Preset, { joint, near, far }: JointView, parts: JointBodies) {
  const { gapUm, offsetXUm, offsetYUm } = joint
  if (preset === 'waveguide') {
    const guideUm = Math.max(parts.guideWidthUm, parts.guideHeightUm)
    return { lengthUm: 0, heightUm: 12 * guideUm, centreZUm: 0 }
  }
  const offsetUm = 2 * Math.max(Math.abs(offsetXUm), Math.abs(offsetYUm))
  const acrossUm =
    preset === 'fibre'
      ? 1.15 * parts.claddingDiameterUm
      : 2 * Math.max(near.mfdXUm, near.mfdYUm, far.mfdXUm, far.mfdYUm)
  return { lengthUm: gapUm + 2 * acrossUm, heightUm: acrossUm + offsetUm, centreZUm: -gapUm / 2 }
}

/** The frame in which a view of that size shows the preset. */
export function presetFrame(
  preset: Preset,
  view: JointView,
  parts: JointBodies,
  { widthPx, heightPx }: ElementSize,
): ViewFrame {
  const { lengthUm, heightUm, centreZUm } = extent(preset, view, parts)
  return { pxPerUm: fittedPxPerUm(lengthUm, heightUm, widthPx, heightPx), centreZUm }
}

interface Arrangement {
  readonly beside: boolean
  /** Size of each of the two views. */
  readonly size: ElementSize
}

/** Two views in a place of that size, one above the other or side by side, whichever shows the joint larger. */
export function arrange(
  paneSize: ElementSize,
  apartPx: number,
  view: JointView,
  parts: JointBodies,
): Arrangement {
  const above: ElementSize = {
    widthPx: paneSize.widthPx,
    heightPx: Math.max(0, (paneSize.heightPx - apartPx) / 2),
  }
  const beside: ElementSize = {
    widthPx: Math.max(0, (paneSize.widthPx - apartPx) / 2),
    heightPx: paneSize.heightPx,
  }
  const scale = (size: ElementSize) => presetFrame('joint', view, parts, size).pxPerUm
  return scale(beside) > scale(above) ? { beside: true, size: beside } : { beside: false, size: above }
}
