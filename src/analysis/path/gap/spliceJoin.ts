// A fusion splice: the entered loss of a process with core diffusion, or the abrupt mode mismatch as its bound.

import type { Path } from '../../../model/issue'
import type { ElementOf } from '../../../model/schema/candidate'
import { fixedText } from '../../../numerics/numberText'
import {
  ALIGNED_POSE,
  fresnelReflectance,
  type GaussianJoint,
  jointEfficiencyAt,
  lossDb,
} from '../../../optics/index'
import type { ValidityNote } from '../../results/evaluation'
import type { FaceReflection } from '../../results/lightResults'
import { returnDb } from '../faces/reflections'
import { fieldCorrection } from '../guides/fieldCorrection'
import type { ChainContext, JoinModel, LineModel, PortReaders } from '../vector/elementModels'
import type { Reader, Values } from '../vector/valueReaders'

/** Figures that agree to the two decimals they are shown with are the same. */
const SAME_DB = 0.005

const abruptText = (reflectance: number) => {
  const back = returnDb(reflectance)
  return back === null ? 'nothing' : `${fixedText(back, 0)} dB`
}

/** Both modes on one axis, in contact, in the glass of the near guide. */
function abruptJoint(near: PortReaders, far: PortReaders, wavelengthUm: number, v: Values): GaussianJoint {
  return {
    ...ALIGNED_POSE,
    wavelengthUm,
    index: near.index(v),
    emitterMfdXUm: near.mfdXUm(v),
    emitterMfdYUm: near.mfdYUm(v),
    receiverMfdXUm: far.mfdXUm(v),
    receiverMfdYUm: far.mfdYUm(v),
    waistXUm: 0,
    waistYUm: 0,
  }
}

/** The same joint for hot loops: no record, no checks. */
function abruptLoss(near: PortReaders, far: PortReaders, wavelength: Reader): Reader {
  return (v) =>
    lossDb(
      jointEfficiencyAt(
        wavelength(v),
        near.index(v),
        near.mfdXUm(v),
        near.mfdYUm(v),
        far.mfdXUm(v),
        far.mfdYUm(v),
        0,
        0,
        0,
        0,
        0,
        0,
        0,
        0,
      ),
    )
}

export function spliceJoin(
  context: ChainContext,
  element: ElementOf<'splice'>,
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel {
  const typed = element.basis === 'typed'
  const abrupt = abruptLoss(near, far, context.wavelength)
  const reader = typed
    ? context.readers.quantity(element.loss, 'loss', 'splice loss', [...path, 'loss'])
    : abrupt
  /** A fused step of index: spread out by diffusion where the process has it, and then counted as nothing. */
  const reflections = (v: Values): readonly FaceReflection[] => {
    const { unpolarised } = fresnelReflectance({ index1: near.index(v), index2: far.index(v) })
    const back = typed ? null : returnDb(unpolarised)
    return [
      {
        elementId: element.id,
        face: 'splice',
        label: 'Splice',
        ...(typed && { note: `not included; ${abruptText(unpolarised)} if its index step were abrupt` }),
        reflectance: typed ? 0 : unpolarised,
        intoNearDb: back,
        intoFarDb: back,
      },
    ]
  }
  const correction = typed ? null : abruptCorrection(context, element.id, near, far)
  const line: LineModel = {
    id: `${element.id}/splice`,
    label: typed ? 'Splice, entered value' : 'Splice, abrupt mismatch',
    kind: 'splice',
    provenance: typed ? element.loss.provenance : 'computed',
    elementId: element.id,
    lossDb: reader,
  }
  const notes = (v: Values): readonly ValidityNote[] => {
    if (!typed) return correction?.notes ?? []
    const [own, bound] = [reader(v), abrupt(v)]
    const bounded = `without core diffusion the mode mismatch would be ${fixedText(bound, 2)} dB`
    return own > bound + SAME_DB
      ? [
          {
            elementId: element.id,
            message: `The entered splice loss of ${fixedText(own, 2)} dB exceeds that of an abrupt splice: ${bounded}. Use the abrupt mismatch, or check the value.`,
            caution: true,
          },
        ]
      : [
          {
            elementId: element.id,
            message: `Splice: entered value, ${fixedText(own, 2)} dB; ${bounded}, the upper bound.`,
          },
        ]
  }
  const beyond: Reader = (v) => {
    if (correction === null) return 0
    const wavelengthUm = context.wavelength(v)
    const joint = abruptJoint(near, far, wavelengthUm, v)
    return correction.differenceDb(v, joint, joint.index, wavelengthUm)
  }
  return {
    lines: [line, ...(correction?.line ? [{ ...correction.line, lossDb: beyond }] : [])],
    lossDb: correction === null ? reader : (v) => reader(v) + beyond(v),
    view: null,
    reflections,
    notes,
  }
}

/** What the fields of both modes make of an abrupt splice; null where they are Gaussians. */
function abruptCorrection(context: ChainContext, elementId: string, near: PortReaders, far: PortReaders) {
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const side = (port: PortReaders) => ({ port, stretchX: 1, stretchY: 1 })
  const joint = abruptJoint(near, far, context.wavelengthUm, nominal)
  // A splice in contact keeps its difference: a core of another size is nearer to that than to its own mode stretched.
  return fieldCorrection(elementId, side(near), side(far), nominal, joint, () => null)
}
