// A part as it is ordered for one design, and where in the optical path it is used.

import type { Evaluation } from '../../../analysis/results/evaluation'
import type { Candidate, ChainElement, GapElement, RelayElement } from '../../../model/schema/candidate'
import type { Coating } from '../../../model/schema/coating'
import type { Project } from '../../../model/schema/project'
import { type Characteristic, stated } from '../../characteristics/characteristic'
import { coatingWords } from '../../coatingWords'

export interface OrderedItem {
  /** Kind of element and id of the part: what the order's own texts are kept by. */
  readonly key: string
  readonly name: string
  /** What it is: `Fibre array`, `Lens`. */
  readonly kind: string
  /** What a piece is: `array of 12 fibres`. */
  readonly piece: string
  /** Pieces in one assembly; null for what is bought by volume. */
  readonly perAssembly: number | null
  readonly characteristics: readonly Characteristic[]
  /** What is ordered in words: material, coating, medium at the end face. */
  readonly facts: readonly (readonly [label: string, text: string])[]
  /** Joints where it is used, by element: their drawings belong to the order. */
  readonly jointIds: readonly string[]
  /** Whether order texts ask for connector and length and for the end-face finish, and which axis must be marked. */
  readonly has: {
    readonly cable: boolean
    readonly endFace: boolean
    readonly key: 'slow axis' | 'input polarisation' | null
  }
  /** Open questions that only this kind of part raises. */
  readonly questions: readonly string[]
}

/** An element of a design's optical path. */
export interface PathPosition {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
  readonly at: number
}

type FreeJoint = GapElement | RelayElement

const freeJoint = (element: ChainElement | undefined): FreeJoint | null =>
  element?.kind === 'gap' || element?.kind === 'relay' ? element : null

/** The free-space joint behind a guide, as the light goes to the chip; null for a splice or none. */
export const jointBehind = ({ candidate, at }: PathPosition): FreeJoint | null =>
  freeJoint(candidate.chain[at + 1])
/** The one in front of it. */
const jointBefore = ({ candidate, at }: PathPosition): FreeJoint | null => freeJoint(candidate.chain[at - 1])

interface Face {
  readonly label: string
  readonly joint: FreeJoint
  readonly side: 'near' | 'far'
}

function faces(pathPosition: PathPosition): readonly Face[] {
  const [before, behind] = [jointBefore(pathPosition), jointBehind(pathPosition)]
  const several = before !== null && behind !== null
  return [
    ...(before === null
      ? []
      : [{ label: several ? ', fibre side' : '', joint: before, side: 'far' } as const]),
    ...(behind === null
      ? []
      : [{ label: several ? ', chip side' : '', joint: behind, side: 'near' } as const]),
  ]
}

/** End-face angles and reflectances of a guide's free faces; `lensed` where a ground tip replaces the last one. */
export function faceCharacteristics(pathPosition: PathPosition, lensed = false): readonly Characteristic[] {
  return faces(pathPosition).flatMap(({ label, joint, side }) => {
    const coating = joint[`${side}Coating`]
    return stated([
      [
        `${side}FaceAngle`,
        `End-face angle${label}`,
        lensed && side === 'near' ? undefined : joint[`${side}FaceAngle`],
        'faceAngle',
      ],
      [
        `${side}Reflectance`,
        `Reflectance of the coated end face${label}`,
        coating?.kind === 'reflectance' ? coating.reflectance : undefined,
        'reflectance',
        'at most',
      ],
      ...filmEntries(`${side}Film`, label, coating),
    ])
  })
}

function filmEntries(id: string, label: string, coating: Coating | undefined) {
  return coating?.kind !== 'films'
    ? []
    : coating.films.map(
        ({ thickness }, i) =>
          [
            `${id}${i + 1}`,
            `Thickness of film ${i + 1} from the glass${label}`,
            thickness,
            'filmThickness',
          ] as const,
      )
}

/** Coating and medium of the end faces, in words. */
export function faceFacts(pathPosition: PathPosition): readonly (readonly [string, string])[] {
  return faces(pathPosition).flatMap(({ label, joint, side }) => {
    const coating = joint[`${side}Coating`]
    const medium = pathPosition.project.media.find(({ id }) => id === joint.mediumId)?.name ?? 'not stated'
    return [
      [`End-face coating${label}`, coating === undefined ? 'none' : coatingWords(coating)],
      [`Medium at the end face${label}`, medium],
      ...(joint[`${side}FaceAngle`].value === 0
        ? []
        : [[`Plane of the end-face angle${label}`, `plane of ${joint.facePlane} and z`] as const]),
    ] as const
  })
}

export const jointIdsOf = (pathPosition: PathPosition): readonly string[] =>
  faces(pathPosition).map(({ joint }) => joint.id)

/** Angle of the polarisation axes across a joint or splice, where the design states it. */
export function keyCharacteristics({ candidate, at }: PathPosition): readonly Characteristic[] {
  const joint = candidate.chain[at + 1]
  return joint?.kind === 'gap' || joint?.kind === 'relay' || joint?.kind === 'splice'
    ? stated([
        [
          'keyAngle',
          'Angle between the slow axis and the axis of the next waveguide',
          joint.keyAngle,
          'keyAngle',
        ],
      ])
    : []
}
