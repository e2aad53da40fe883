// Modes at end faces, as readers and as numbers.

import type { Port } from '../../results/evaluation'
import type { PortReaders } from './elementModels'
import { constantReader, type Reader, type Values } from './valueReaders'

const NOTHING = constantReader(0)

/** A plain end face: the waist lies in it. */
export function flatPort(mfdXUm: Reader, mfdYUm: Reader, index: Reader): PortReaders {
  return { mfdXUm, mfdYUm, index, waistXUm: NOTHING, waistYUm: NOTHING }
}

export function portAt(port: PortReaders, v: Values): Port {
  const plain = {
    mfdXUm: port.mfdXUm(v),
    mfdYUm: port.mfdYUm(v),
    index: port.index(v),
    waistXUm: port.waistXUm(v),
    waistYUm: port.waistYUm(v),
    ...(port.core && { core: { ...port.core.at(v), isAssumed: port.core.isAssumed } }),
  }
  const { tip } = port
  if (tip === undefined) return plain
  return {
    ...plain,
    tip: {
      radiusUm: tip.radiusUm?.(v) ?? null,
      modeMfdXUm: tip.modeMfdXUm(v),
      modeMfdYUm: tip.modeMfdYUm(v),
    },
  }
}
