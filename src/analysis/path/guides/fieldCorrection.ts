// What a gap or an abrupt splice loses by the fields of its modes beyond what it loses by their Gaussians: one signed line of the
// budget, exact at the nominal values. Tolerances, temperatures and wavelengths move it by a fit over the region that they reach.

import { fixedText, significantText } from '../../../numerics/numberText'
import { sparseValue } from '../../../numerics/polynomial/sparseValue'
import type { FieldJointSpec, GaussianJoint, ModeAtFace } from '../../../optics/index'
import { atMostNoLight, jointLossDb } from '../../../optics/index'
import { FIT_AXES, fillCoordinates, type JointRegion, type MovedJoint } from '../../field/fit/jointAxes'
import { FIT_ERROR_DB } from '../../field/fit/jointFit'
import { fitOf } from '../../field/fit/knownFits'
import { fieldLoss } from '../../field/jointField'
import type { JointFieldView, ValidityNote } from '../../results/evaluation'
import type { LineModel, PortReaders } from '../vector/models'
import type { Values } from '../vector/readers'
import { tipAberration } from './tipAberration'

export interface FieldCorrection {
  readonly view: JointFieldView | null
  /** Real less Gaussian joint, dB, for the numbers that the vector makes of the joint. Allocates nothing. */
  readonly differenceDb: (v: Values, n: MovedJoint, mediumIndex: number, wavelengthUm: number) => number
  readonly line: Omit<LineModel, 'lossDb'> | null
  readonly notes: readonly ValidityNote[]
  /** Whether tolerances and conditions leave the difference as it is until its fit is known. */
  readonly awaitsFit?: boolean
}

const GAUSSIAN = 'Gaussian'

/** A shape alone seldom changes a joint by more. Common practice, no source. */
const OTHER_MODE_DB = 1

/** One side of a join: its port, and how much its face stretches the mode. */
interface JoinSide {
  readonly port: PortReaders
  readonly stretchX: number
  readonly stretchY: number
}

/** The mode of one side: its shape where it has one, else the Gaussian that the joint already holds. */
function modeAtFace(
  { port, stretchX, stretchY }: JoinSide,
  nominal: Values,
  gaussian: ModeAtFace['mode'],
): ModeAtFace {
  const radiusUm = port.tip?.radiusUm?.(nominal)
  const tip = radiusUm === undefined ? null : { radiusUm, guideIndex: port.index(nominal) }
  if (port.shape !== undefined) return { mode: port.shape.mode, tip, stretchX, stretchY }
  if (tip === null || port.tip === undefined) {
    return { mode: gaussian, tip: null, stretchX: 1, stretchY: 1 }
  }
  const [mfdXUm, mfdYUm] = [port.tip.modeMfdXUm(nominal), port.tip.modeMfdYUm(nominal)]
  return { mode: { kind: 'gaussian', mfdXUm, mfdYUm, waistXUm: 0, waistYUm: 0 }, tip, stretchX, stretchY }
}

/**
 * The correction, or null where both modes are Gaussians. `joint` holds them, and the pose; `regionOf` tells how far the joint
 * can be taken, and null where nothing moves it.
 */
export function fieldCorrection(
  elementId: string,
  near: JoinSide,
  far: JoinSide,
  nominal: Values,
  joint: GaussianJoint,
  regionOf: (nominal: GaussianJoint) => JointRegion | null,
): FieldCorrection | null {
  const gaussians = near.port.shape === undefined && far.port.shape === undefined
  if (gaussians && near.port.tip?.real === undefined) return null
  const { wavelengthUm, index } = joint
  const spec = {
    emitter: modeAtFace(near, nominal, {
      kind: 'gaussian',
      mfdXUm: joint.emitterMfdXUm,
      mfdYUm: joint.emitterMfdYUm,
      waistXUm: joint.waistXUm,
      waistYUm: joint.waistYUm,
    }),
    receiver: modeAtFace(far, nominal, {
      kind: 'gaussian',
      mfdXUm: joint.receiverMfdXUm,
      mfdYUm: joint.receiverMfdYUm,
      waistXUm: 0,
      waistYUm: 0,
    }),
    wavelengthUm,
    index,
    propagation: 'exact',
  } as const
  if (gaussians) return tipAberration(elementId, near.port, nominal, joint, spec)
  const gaussianDb = atMostNoLight(jointLossDb(joint))
  const loss = fieldLoss(spec, joint, gaussianDb)
  const view = {
    spec,
    nearName: near.port.shape?.name ?? GAUSSIAN,
    farName: far.port.shape?.name ?? GAUSSIAN,
    loss,
  }
  if ('refusal' in loss) {
    const message = `The field of this joint is not used: ${loss.refusal}. The budget holds its Gaussians.`
    return { view, differenceDb: () => 0, line: null, notes: [{ elementId, message }] }
  }
  // What a tip clips is a line of its own, and the field of the tip holds it too.
  const clippedDb = near.port.tip?.real?.clippingDb(nominal) ?? 0
  const differenceDb = loss.fieldDb - clippedDb - gaussianDb
  const line: FieldCorrection['line'] = {
    id: `${elementId}/mode shape`,
    label: 'Fields instead of Gaussians',
    kind: 'mode shape',
    provenance: 'computed',
    elementId,
    note: `${fixedText(gaussianDb, 3)} dB by Gaussians, ${fixedText(loss.fieldDb - clippedDb, 3)} dB by fields, good to ${errorText(loss.errorDb)} dB`,
  }
  const moving = movingDifference(spec, joint, regionOf(joint))
  const notes: ValidityNote[] = [
    {
      elementId,
      message: `Fields (${view.nearName} to ${view.farName}) make the joint ${fixedText(loss.fieldDb - clippedDb, 3)} dB where Gaussians make it ${fixedText(gaussianDb, 3)} dB. ${Math.abs(differenceDb) > OTHER_MODE_DB ? 'So much says that the diameters given for the Gaussian are those of another mode. ' : ''}${moving.words}`,
    },
  ]
  const { changeDb } = moving
  return {
    view: { ...view, moves: moving.words },
    differenceDb: (_v, n, mediumIndex, wavelengthUm) => differenceDb + changeDb(n, mediumIndex, wavelengthUm),
    line,
    notes,
    awaitsFit: moving.awaitsFit,
  }
}

interface MovingDifference {
  /** What the difference grows by from the nominal joint, dB. */
  readonly changeDb: (n: MovedJoint, mediumIndex: number, wavelengthUm: number) => number
  /** What tolerances, yield and temperature move. */
  readonly words: string
  readonly awaitsFit: boolean
}

/** How the difference moves with pose, sizes and wavelength. */
function movingDifference(
  spec: FieldJointSpec,
  joint: GaussianJoint,
  region: JointRegion | null,
): MovingDifference {
  const still = () => 0
  const settled = { awaitsFit: false }
  if (region === null)
    return { changeDb: still, words: 'Tolerances leave this difference as it is.', ...settled }
  const fit = fitOf({ kind: 'gap', spec, nominal: joint, region })
  if (fit === 'pending') {
    return {
      changeDb: still,
      words: 'Tolerances, yield and temperature: Gaussian, fields pending.',
      awaitsFit: true,
    }
  }
  if (fit === null) {
    const words =
      'Tolerances, yield and temperature move the Gaussian joint and keep this difference: the fields reach too far apart within the tolerances.'
    return { changeDb: still, words, ...settled }
  }
  const value = sparseValue(fit.series)
  const at = new Float64Array(FIT_AXES.length)
  fillCoordinates(joint, joint.index, joint.wavelengthUm, joint, at)
  const nominalDb = value(at)
  const missed = fit.errorDb > FIT_ERROR_DB ? `, above the ${FIT_ERROR_DB} dB aimed at` : ''
  return {
    changeDb: (n, mediumIndex, wavelengthUm) => {
      fillCoordinates(n, mediumIndex, wavelengthUm, joint, at)
      return value(at) - nominalDb
    },
    words: `Tolerances, yield and temperature move the real fields; fit error ${fixedText(fit.errorDb, 3)} dB${missed}.`,
    ...settled,
  }
}

function errorText(errorDb: number): string {
  return errorDb < 1e-4 ? '0.0001' : significantText(errorDb, 1)
}
