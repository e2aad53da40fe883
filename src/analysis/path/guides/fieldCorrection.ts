// What a gap or an abrupt splice loses by the fields of its modes beyond what it loses by their Gaussians: one signed line of the budget,
// computed at the nominal values. Tolerances move the Gaussian joint and leave this line as it is.

import type { GaussianJoint, ModeAtFace } from '../../../optics/index'
import { atMostNoLight, jointLossDb } from '../../../optics/index'
import { fieldLoss } from '../../field/jointField'
import type { JointFieldView, ValidityNote } from '../../results/evaluation'
import type { LineModel, PortReaders } from '../vector/models'
import type { Values } from '../vector/readers'
import { tipAberration } from './tipAberration'

export interface FieldCorrection {
  readonly view: JointFieldView | null
  /** Real less Gaussian joint at a gap, dB. */
  readonly differenceDb: (v: Values, gapUm: number) => number
  readonly line: Omit<LineModel, 'lossDb'> | null
  readonly notes: readonly ValidityNote[]
}

const GAUSSIAN = 'Gaussian'

/** A shape alone seldom changes a joint by more. Common practice, no source. */
const OTHER_MODE_DB = 1

/** One side of a join: its port, and how much its face stretches the mode. */
export interface JoinSide {
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

/** The correction, or null where both modes are Gaussians. `joint` holds them, and the pose. */
export function fieldCorrection(
  elementId: string,
  near: JoinSide,
  far: JoinSide,
  nominal: Values,
  joint: GaussianJoint,
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
    note: `${gaussianDb.toFixed(3)} dB by Gaussians, ${(loss.fieldDb - clippedDb).toFixed(3)} dB by fields, good to ${errorText(loss.errorDb)} dB`,
  }
  const notes: ValidityNote[] = [
    {
      elementId,
      message: `Fields (${view.nearName} to ${view.farName}) make the joint ${(loss.fieldDb - clippedDb).toFixed(3)} dB where Gaussians make it ${gaussianDb.toFixed(3)} dB. ${Math.abs(differenceDb) > OTHER_MODE_DB ? 'So much says that the diameters given for the Gaussian are those of another mode. ' : ''}Tolerances, yield and temperature move the Gaussian joint and keep this difference.`,
    },
  ]
  return { view, differenceDb: () => differenceDb, line, notes }
}

function errorText(errorDb: number): string {
  return errorDb < 1e-4 ? '0.0001' : errorDb.toPrecision(1)
}
