// Alignment tolerance of the joint at the chip on each axis for 1 dB excess loss, comparable between all families.
// Offsets and tilts are about the facet, so that the lever of a gap or a relay is ignored.

import type { GaussianJoint } from '../../optics/index'
import { fieldWindows } from '../field/fieldWindows'
import type { JointView } from '../results/evaluation'
import { windowMark } from '../tolerance/toleranceCurve'
import { chipJoint } from '../tolerance/viewWindows'

export const CHIP_AXES = ['offsetXUm', 'offsetYUm', 'gapUm', 'tiltXRad', 'tiltYRad'] as const
export type ChipAxis = (typeof CHIP_AXES)[number]

const EXCESS_DB = 1

/** The nearer of the two displacements with 1 dB excess loss. */
export interface ChipWindow {
  /** Core units. */
  readonly distance: number
  /** The only side on which it is reached: a gap cannot close by more than itself. */
  readonly only: 'below' | 'above' | null
}

function nearer({ below, above }: ReturnType<typeof windowMark>): ChipWindow | null {
  if (below === null) return above === null ? null : { distance: above, only: 'above' }
  return above === null
    ? { distance: below, only: 'below' }
    : { distance: Math.min(below, above), only: null }
}

/** For Gaussian modes; null where 1 dB is never reached. */
export function chipWindow(joint: GaussianJoint, axis: ChipAxis): ChipWindow | null {
  return nearer(windowMark(chipJoint(joint, axis), axis, EXCESS_DB))
}

/** The same by the fields of the joint where it has some, tilts about the facet too; 'pending' while they are computed elsewhere. */
export function viewChipWindow(view: JointView, axis: ChipAxis): ChipWindow | null | 'pending' {
  const real = fieldWindows(view, 'receiver')
  if (real === 'pending') return real
  const mark = real
    ?.find((window) => window.axis === axis)
    ?.marks.find(({ excessDb }) => excessDb === EXCESS_DB)
  return mark === undefined ? chipWindow(view.joint, axis) : nearer(mark)
}
