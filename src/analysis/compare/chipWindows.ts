// How far the joint at the chip may go on each axis before it costs 1 dB more: numbers that all families share.
// Offsets and tilts are about the facet, so that the lever of a gap or a relay plays no part.

import type { GaussianJoint } from '../../optics/index'
import { windowMark } from '../tolerance/toleranceCurve'
import { chipJoint } from '../tolerance/viewWindows'

export const CHIP_AXES = ['offsetXUm', 'offsetYUm', 'gapUm', 'tiltXRad', 'tiltYRad'] as const
export type ChipAxis = (typeof CHIP_AXES)[number]

const EXCESS_DB = 1

/** The nearer of the two sides at which the axis has cost 1 dB more, core units; null where it never does. */
export function chipWindow(joint: GaussianJoint, axis: ChipAxis): number | null {
  const { below, above } = windowMark(chipJoint(joint, axis), axis, EXCESS_DB)
  const sides = [below, above].filter((side) => side !== null)
  return sides.length === 0 ? null : Math.min(...sides)
}
