// A fusion splice: the typed loss of a process with core diffusion, or the abrupt mode mismatch as its bound.

import type { ElementOf } from '../../model/candidate'
import type { Path } from '../../model/issue'
import { fresnelReflectance, jointEfficiencyAt, lossDb } from '../../optics/index'
import type { FaceReflection } from '../light/lightResults'
import type { ChainContext, JoinModel, LineModel, PortReaders } from './models'
import type { Reader, Values } from './readers'
import { returnDb } from './reflections'

const abruptText = (reflectance: number) => {
  const back = returnDb(reflectance)
  return back === null ? 'nothing' : `${back.toFixed(0)} dB`
}

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
  const reader = typed
    ? context.readers.quantity(element.loss, 'loss', 'splice loss', [...path, 'loss'])
    : abruptLoss(near, far, context.wavelength)
  /** A fused step of index: spread out by diffusion where the process has it, and then counted as nothing. */
  const reflections = (v: Values): readonly FaceReflection[] => {
    const { unpolarised } = fresnelReflectance({ index1: near.index(v), index2: far.index(v) })
    const back = typed ? null : returnDb(unpolarised)
    return [
      {
        elementId: element.id,
        face: 'splice',
        label: 'Splice',
        ...(typed && { note: `not counted; ${abruptText(unpolarised)} if its step of index were abrupt` }),
        reflectance: typed ? 0 : unpolarised,
        intoNearDb: back,
        intoFarDb: back,
      },
    ]
  }
  const line: LineModel = {
    id: `${element.id}/splice`,
    label: typed ? 'Splice' : 'Splice, abrupt mismatch',
    kind: 'splice',
    provenance: typed ? element.loss.provenance : 'computed',
    elementId: element.id,
    lossDb: reader,
  }
  return { lines: [line], lossDb: reader, view: null, reflections, notes: () => [] }
}
