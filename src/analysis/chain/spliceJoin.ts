// A fusion splice: the typed loss of a process with core diffusion, or the abrupt mode mismatch as its bound.

import type { ElementOf } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { jointEfficiencyAt, lossDb } from '../../optics/index'
import type { ChainContext, JoinModel, LineModel, PortReaders } from './models'
import type { Reader } from './readers'

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
  const line: LineModel = {
    id: `${element.id}/splice`,
    label: typed ? 'Splice' : 'Splice, abrupt mismatch',
    kind: 'splice',
    provenance: typed ? element.loss.provenance : 'computed',
    elementId: element.id,
    lossDb: reader,
  }
  return { lines: [line], lossDb: reader, view: null, returnLossDb: () => null, notes: () => [] }
}
