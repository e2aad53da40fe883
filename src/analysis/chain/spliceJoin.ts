// A fusion splice: the typed loss of a process with core diffusion, or the abrupt mode mismatch as its bound.

import type { ElementOf } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { jointEfficiencyAt, lossDb } from '../../optics/index'
import type { ValidityNote } from '../evaluation'
import type { ChainContext, JoinModel, LineModel, PortReaders } from './models'
import type { Reader, Values } from './readers'

/** Figures that agree to the two decimals they are shown with are the same. */
const SAME_DB = 0.005

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
  const abrupt = abruptLoss(near, far, context.wavelengthUm)
  const reader = typed
    ? context.readers.quantity(element.loss, 'loss', 'splice loss', [...path, 'loss'])
    : abrupt
  const line: LineModel = {
    id: `${element.id}/splice`,
    label: typed ? 'Splice, typed figure' : 'Splice, abrupt mismatch',
    kind: 'splice',
    provenance: typed ? element.loss.provenance : 'computed',
    elementId: element.id,
    lossDb: reader,
  }
  const notes = (v: Values): readonly ValidityNote[] => {
    if (!typed) return []
    const [own, bound] = [reader(v), abrupt(v)]
    const bounded = `without diffusion of the cores the two modes would lose ${bound.toFixed(2)} dB`
    return own > bound + SAME_DB
      ? [
          {
            elementId: element.id,
            message: `The typed splice loss of ${own.toFixed(2)} dB is more than an abrupt joint: ${bounded}. Use the abrupt mismatch, or check the figure.`,
            caution: true,
          },
        ]
      : [
          {
            elementId: element.id,
            message: `Splice: a typed figure, ${own.toFixed(2)} dB; ${bounded}, the bound.`,
          },
        ]
  }
  return { lines: [line], lossDb: reader, view: null, returnLossDb: () => null, notes }
}
