// Return loss of an end face against its angle, for the modes on both sides of a gap; and the angle for a required
// return loss. A small mode has such a wide acceptance angle that an angled face has little effect.

import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { coreAngleForReturnLoss, faceAngleForReturnLoss, RETURN_LOSS_TRUST_DB } from '../../optics/index'
import { angledReturnDb } from '../path/faces/reflections'
import type { Evaluation, JointView } from '../results/evaluation'

const FACE_ANGLE_DEFAULTS = {
  mostRad: (15 * Math.PI) / 180,
  points: 61,
  /** Used where no return loss is required: the usual specification of angled faces (common practice, no source). */
  wantedDb: 60,
} as const

/** The usual angle of a polished fibre; common practice, no source. */
const USUAL_ANGLE_RAD = (8 * Math.PI) / 180

export interface FaceAngleSide {
  readonly side: 'near' | 'far'
  /** Diameter in the plane of the face angle, um. */
  readonly mfdUm: number
  readonly reflectance: number
  readonly lossesDb: Float64Array
  readonly nowRad: number
  readonly nowDb: number
  readonly usualDb: number
  /** Angle from which on `wantedDb` is met. */
  readonly wantedRad: number
  /** Beyond it no light leaves; null where all angles let light out. */
  readonly criticalRad: number | null
}

export interface FaceAngleCurve {
  readonly elementId: string
  readonly anglesRad: Float64Array
  readonly wantedDb: number
  /** Whether the project requires that return loss; otherwise it is the usual one. */
  readonly isRequired: boolean
  /** Above it computed values mean nothing: scatter and tails that are not Gaussian rule. */
  readonly trustDb: number
  /** Whether the fibre side ends in a lensed tip, which has no flat face to angle: it has no curve. */
  readonly lensed: boolean
  readonly sides: readonly FaceAngleSide[]
}

/** Curves of one gap or relay; a side whose face reflects nothing is omitted, and so is a lensed tip. */
export function faceAngleCurve(
  project: Project,
  evaluation: Evaluation,
  view: JointView,
): FaceAngleCurve | null {
  const gap = byId(byId(project.candidates, evaluation.candidateId)?.chain, view.elementId)
  if (gap?.kind !== 'gap' && gap?.kind !== 'relay') return null
  const { returnLossFibre, returnLossChip } = project.requirements
  const asked = [returnLossFibre, returnLossChip].flatMap((each) =>
    each === undefined ? [] : [coreValue(each, 'returnLoss')],
  )
  const wantedDb = asked.length === 0 ? FACE_ANGLE_DEFAULTS.wantedDb : Math.max(...asked)
  const { mostRad, points } = FACE_ANGLE_DEFAULTS
  const anglesRad = Float64Array.from({ length: points }, (_, i) => (mostRad * i) / (points - 1))
  const { joint } = view
  const sides = (['near', 'far'] as const).flatMap((side): readonly FaceAngleSide[] => {
    const row = evaluation.reflections.find((each) => each.elementId === view.elementId && each.face === side)
    const port = view[side]
    if (row === undefined || row.reflectance === 0 || port.tip !== undefined) return []
    const mfdUm = gap.facePlane === 'x' ? port.mfdXUm : port.mfdYUm
    const inX = gap.facePlane === 'x'
    const lossDb = (angleRad: number) =>
      0 -
      10 * Math.log10(row.reflectance) +
      angledReturnDb(port, joint.wavelengthUm, inX ? angleRad : 0, inX ? 0 : angleRad)
    const nowRad = Math.abs(coreValue(gap[side === 'near' ? 'nearFaceAngle' : 'farFaceAngle'], 'faceAngle'))
    const guide = { wavelengthUm: joint.wavelengthUm, guideIndex: port.index, mfdUm }
    const wanted = Math.min(wantedDb, RETURN_LOSS_TRUST_DB)
    const { core } = port
    const wantedRad =
      core === undefined
        ? faceAngleForReturnLoss(guide, row.reflectance, wanted)
        : coreAngleForReturnLoss(
            { ...guide, core: inX ? core : { ...core, radiusXUm: core.radiusYUm } },
            row.reflectance,
            wanted,
          )
    return [
      {
        side,
        mfdUm,
        reflectance: row.reflectance,
        lossesDb: Float64Array.from(anglesRad, lossDb),
        nowRad,
        nowDb: lossDb(nowRad),
        usualDb: lossDb(USUAL_ANGLE_RAD),
        wantedRad,
        criticalRad: joint.index < port.index ? Math.asin(joint.index / port.index) : null,
      },
    ]
  })
  const isRequired = asked.length > 0
  return {
    elementId: view.elementId,
    anglesRad,
    wantedDb,
    isRequired,
    trustDb: RETURN_LOSS_TRUST_DB,
    lensed: view.near.tip !== undefined,
    sides,
  }
}
