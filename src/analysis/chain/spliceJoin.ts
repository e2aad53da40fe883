// A fusion splice: the typed loss of a process with core diffusion, or the abrupt mode mismatch as its bound.

import type { ElementOf } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { ALIGNED_POSE, type GaussianJoint, jointEfficiencyAt, lossDb } from '../../optics/index'
import { fieldCorrection } from './fieldCorrection'
import type { ChainContext, JoinModel, LineModel, PortReaders } from './models'
import type { Reader, Values } from './readers'

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
function abruptLoss(near: PortReaders, far: PortReaders, wavelengthUm: number): Reader {
  return (v) =>
    lossDb(
      jointEfficiencyAt(
        wavelengthUm,
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
  const reader = typed
    ? context.readers.quantity(element.loss, 'loss', 'splice loss', [...path, 'loss'])
    : abruptLoss(near, far, context.wavelengthUm)
  const correction = typed ? null : abruptCorrection(context, element.id, near, far)
  const line: LineModel = {
    id: `${element.id}/splice`,
    label: typed ? 'Splice' : 'Splice, abrupt mismatch',
    kind: 'splice',
    provenance: typed ? element.loss.provenance : 'computed',
    elementId: element.id,
    lossDb: reader,
  }
  const beyondDb = correction?.differenceDb ?? 0
  return {
    lines: [line, ...(correction?.line ? [correction.line] : [])],
    lossDb: beyondDb === 0 ? reader : (v) => reader(v) + beyondDb,
    view: null,
    returnLossDb: () => null,
    notes: () => correction?.notes ?? [],
  }
}

/** What the fields of both modes make of an abrupt splice; null where they are Gaussians. */
function abruptCorrection(context: ChainContext, elementId: string, near: PortReaders, far: PortReaders) {
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const side = (port: PortReaders) => ({ port, stretchX: 1, stretchY: 1 })
  const joint = abruptJoint(near, far, context.wavelengthUm, nominal)
  return fieldCorrection(elementId, side(near), side(far), nominal, joint)
}
