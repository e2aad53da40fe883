// Alignment tolerance of the joint at the chip on each axis for 1 dB excess loss, comparable between all families.
// Offsets and tilts are about the facet, so that the lever of a gap or a relay is ignored.

import type { GaussianJoint } from '../../optics/index'
import { fieldWindows, type RealJoint } from '../field/fieldWindows'
import { windowMark } from '../tolerance/toleranceCurve'
import { chipJoint } from '../tolerance/viewWindows'

export const CHIP_AXES = ['offsetXUm', 'offsetYUm', 'gapUm', 'tiltXRad', 'tiltYRad'] as const
export type ChipAxis = (typeof CHIP_AXES)[number]

export const CHIP_EXCESS_DB = 1

/** The nearer of the two displacements with 1 dB excess loss. */
export interface ChipWindow {
  /** Core units. */
  readonly distance: number
  /** The only side on which it is reached: a gap cannot close by more than itself. */
  readonly only: 'below' | 'above' | null
}

function nearer({ below, above }: Pick<ChipMark, 'below' | 'above'>): ChipWindow | null {
  if (below === null) return above === null ? null : { distance: above, only: 'above' }
  return above === null
    ? { distance: below, only: 'below' }
    : { distance: Math.min(below, above), only: null }
}

/** For Gaussian modes; null where 1 dB is never reached. */
export function chipWindow(joint: GaussianJoint, axis: ChipAxis): ChipWindow | null {
  return nearer(windowMark(chipJoint(joint, axis), axis, CHIP_EXCESS_DB))
}

/** The displacements to either side with 1 dB excess loss, core units; null where it is never reached. */
interface ChipMark {
  readonly below: number | null
  readonly above: number | null
  /** Whether Gaussian modes hold the place of fields or real lenses, by which it is being computed elsewhere. */
  readonly isProvisional: boolean
}

/** By the fields of the joint or the real lenses of the relay where it has some, tilts about the facet. */
export function viewChipMark(view: RealJoint, axis: ChipAxis): ChipMark {
  const real = fieldWindows(view, 'receiver')
  const isProvisional = real === 'pending'
  const found = isProvisional ? undefined : real?.find((window) => window.axis === axis)
  const mark = found?.marks.find(({ excessDb }) => excessDb === CHIP_EXCESS_DB)
  const { below, above } = mark ?? windowMark(chipJoint(view.joint, axis), axis, CHIP_EXCESS_DB)
  return { below, above, isProvisional }
}

/** The nearer of these; 'pending' while they are computed elsewhere. */
export function viewChipWindow(view: RealJoint, axis: ChipAxis): ChipWindow | null | 'pending' {
  const mark = viewChipMark(view, axis)
  return mark.isProvisional ? 'pending' : nearer(mark)
}
