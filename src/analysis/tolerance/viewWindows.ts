// Alignment tolerances of a joint as a screen shows it. Of a plain gap they are those of the fibre-side guide, turned about
// its own end face; of a relay those of the image, turned about the chip-side face on which it lies.

import { type GaussianJoint, MISALIGNMENT_AXES, type MisalignmentAxis } from '../../optics/index'
import { atReceiver } from '../path/relay/relayOptics'
import type { JointView } from '../results/evaluation'
import { type AxisWindow, axisWindow } from './toleranceCurve'

/** The joint with offsets and tilts about the chip-side face; a gap is that of the joint itself. */
export function chipJoint(joint: GaussianJoint, axis: MisalignmentAxis): GaussianJoint {
  return axis === 'gapUm' ? joint : atReceiver(joint)
}

/** The joint on which the axes of a curve or a map are moved. */
export function seenJoint(
  { joint, isImage }: Pick<JointView, 'joint' | 'isImage'>,
  ...axes: readonly MisalignmentAxis[]
): GaussianJoint {
  return isImage === true && !axes.includes('gapUm') ? atReceiver(joint) : joint
}

/** Windows of all six axes by Gaussians, paraxial for a relay. Throws InputError for a bad joint. */
export function viewWindows(view: JointView): readonly AxisWindow[] {
  return MISALIGNMENT_AXES.map((axis) => axisWindow(seenJoint(view, axis), axis))
}

/** What is moved, and about which point its tilts turn. */
export function pivotText({ isImage }: Pick<JointView, 'isImage'>): string {
  return isImage === true
    ? 'Displacements of the image of the fibre mode at the chip, with tilts about the facet.'
    : 'Displacements of the fibre side, with tilts about the centre of its end face. In comparisons of designs, tilts are about the facet.'
}
