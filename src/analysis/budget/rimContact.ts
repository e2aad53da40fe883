// End faces that are not parallel touch at the rim before their centres do.

import { coreValue } from '../../model/quantity/quantity'
import type { Candidate, GapElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { endBodyUm } from '../clearance/endBody'
import type { JointView, ValidityNote } from '../results/evaluation'

/**
 * The smallest gap in the middle, um, of a round end of `bodyUm` across before a face that it makes a wedge with, by plane
 * geometry along the steepest line of the wedge. The other face is assumed to extend as far.
 */
export function leastGapUm(bodyUm: number, wedgeXRad: number, wedgeYRad: number): number {
  return (bodyUm / 2) * Math.hypot(Math.tan(wedgeXRad), Math.tan(wedgeYRad))
}

/** A caution for each gap that is smaller than its faces allow, with the smallest possible gap. */
export function rimContactNotes(
  project: Project,
  candidate: Candidate,
  joints: readonly JointView[],
): readonly ValidityNote[] {
  return joints.flatMap((view) => {
    const at = candidate.chain.findIndex((element) => element.id === view.elementId)
    const gap = candidate.chain[at]
    const bodyUm = endBodyUm(project, candidate.chain[at - 1])
    const { directions, near, joint, contact } = view
    // Where chip edge or outline is given, contact is computed more accurately.
    const isKnown = contact !== undefined || near.tip !== undefined
    if (gap?.kind !== 'gap' || bodyUm === null || directions === undefined || isKnown) return []
    const leastUm = leastGapUm(
      bodyUm,
      directions.nearAxisXRad - leanDifference(gap, 'x'),
      directions.nearAxisYRad - leanDifference(gap, 'y'),
    )
    if (leastUm <= joint.gapUm) return []
    return [
      {
        elementId: view.elementId,
        message: `The end faces are not parallel: the rim of the ${fixedText(bodyUm, 0)} µm body touches the chip at an on-axis gap of ${fixedText(leastUm, 2)} µm, unless the chip is narrower there or the body is bevelled. The gap here is ${fixedText(joint.gapUm, 2)} µm.`,
      },
    ]
  })
}

/** Near face angle less the far one in a plane, rad. */
function leanDifference(gap: GapElement, plane: 'x' | 'y'): number {
  if (gap.facePlane !== plane) return 0
  return coreValue(gap.nearFaceAngle, 'faceAngle') - coreValue(gap.farFaceAngle, 'faceAngle')
}
