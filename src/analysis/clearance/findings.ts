// Whether each joint of a design reaches the gap that is entered, with what touches first and what would help.

import { coreValue } from '../../model/quantity/quantity'
import type { Candidate, GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { plainText, roundedTo } from '../../numerics/numberText'
import type { Contact } from '../results/contact'
import type { Evaluation, JointView, ValidityNote } from '../results/evaluation'
import { type BodyPose, contactOf } from './contact'
import { type ClearanceSetup, clearanceSetup } from './jointClearance'
import { remediesFor } from './remedies'

export interface ClearanceFinding {
  readonly elementId: string
  /**
   * What is entered, um: of a relay the distance from the last lens, less its axial shift; where a station aligns along the light, the
   * gap that it finds.
   */
  readonly gapUm: number
  /** Null where nothing is in the way. */
  readonly contact: Contact | null
  readonly reached: boolean
  readonly setup: ClearanceSetup
  readonly pose: BodyPose
}

/** The pose in a view; the last lens of a relay is assumed centred and untilted. */
function poseOf(view: JointView | undefined): BodyPose {
  const directions = view?.directions
  return {
    axisXRad: directions?.nearAxisXRad ?? 0,
    axisYRad: directions?.nearAxisYRad ?? 0,
    rollRad: directions === undefined ? 0 : (view?.joint.rollRad ?? 0),
    beamXRad: directions?.farBeamXRad ?? 0,
    beamYRad: directions?.farBeamYRad ?? 0,
    offsetXUm: directions === undefined ? 0 : (view?.joint.offsetXUm ?? 0),
    offsetYUm: directions === undefined ? 0 : (view?.joint.offsetYUm ?? 0),
  }
}

const isFoundByStation = (element: GapElement | RelayElement): boolean =>
  element.kind === 'gap'
    ? element.aligned?.includes('gap') === true
    : element.lens2.aligned?.includes('offsetZ') === true

const enteredGapUm = (element: GapElement | RelayElement): number =>
  element.kind === 'gap'
    ? coreValue(element.gap, 'gap')
    : coreValue(element.backGap, 'gap') - coreValue(element.lens2.offsetZ, 'offset')

/** One finding for every gap and relay of which a chip edge, an outline or a barrel is stated. */
export function clearanceFindings(
  project: Project,
  candidate: Candidate,
  { joints }: Pick<Evaluation, 'joints'>,
): readonly ClearanceFinding[] {
  return candidate.chain.flatMap((element, at): readonly ClearanceFinding[] => {
    if (element.kind !== 'gap' && element.kind !== 'relay') return []
    const setup = clearanceSetup(project, candidate, at)
    if (setup === null) return []
    const view = joints.find(({ elementId }) => elementId === element.id)
    const pose = poseOf(view)
    const contact = view?.contact ?? contactOf(setup.solids, setup.obstacles, pose)
    const gapUm = isFoundByStation(element) ? (view?.joint.gapUm ?? 0) : enteredGapUm(element)
    return [
      {
        elementId: element.id,
        gapUm,
        contact,
        reached: contact === null || contact.gapUm <= gapUm,
        setup,
        pose,
      },
    ]
  })
}

const um = (value: number) => `${plainText(roundedTo(value, 1))} µm`

/** `the 125 µm cladding touches the ledge at a gap of 15 µm` */
export function contactText({ body, obstacle, gapUm }: Contact): string {
  return `the ${body} touches the ${obstacle} at a gap of ${um(gapUm)}`
}

function sentence({ setup, pose, gapUm, contact }: ClearanceFinding): string {
  if (contact === null) return ''
  const remedies = remediesFor(setup, pose, gapUm, contact)
  return `Not reachable: ${contactText(contact)}; the entered gap is ${um(gapUm)}. All results are for contact. Possible remedies: ${remedies.join('; or ')}.`
}

/** Cautions that must be read before the budget is trusted. */
export function clearanceNotes(findings: readonly ClearanceFinding[]): readonly ValidityNote[] {
  return findings
    .filter(({ reached }) => !reached)
    .map((finding) => ({ elementId: finding.elementId, message: sentence(finding), caution: true }))
}
