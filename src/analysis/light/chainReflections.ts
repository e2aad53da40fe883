// Every reflection of a chain, seen from the fibre: what is before a face is passed twice.

import type { CompiledCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/readers'
import type { Evaluation } from '../results/evaluation'
import type { ChainReflection } from '../results/lightResults'

/** In the order of the light. Losses that no join or guide has, such as user lines, weaken nothing here. */
export function chainReflections(compiled: CompiledCandidate, v: Values): readonly ChainReflection[] {
  let beforeDb = 0
  return compiled.joins.flatMap((join, i) => {
    beforeDb += compiled.guideLossesDb[i]?.(v) ?? 0
    const passedDb = 2 * beforeDb
    beforeDb += join.lossDb(v)
    return join.reflections(v).map((each) => ({
      ...each,
      atFibreDb: each.intoNearDb === null ? null : each.intoNearDb + passedDb,
    }))
  })
}

/** Powers added, and amplitudes added as if all were in phase: no setting of the phases returns more. */
export function totalReturns(
  reflections: readonly ChainReflection[],
): Pick<Evaluation, 'returnLossDb' | 'coherentReturnLossDb'> {
  let power = 0
  let amplitude = 0
  for (const { atFibreDb } of reflections) {
    if (atFibreDb === null) continue
    power += 10 ** (-atFibreDb / 10)
    amplitude += 10 ** (-atFibreDb / 20)
  }
  if (power === 0) return { returnLossDb: null, coherentReturnLossDb: null }
  // Faces that send back more than the whole light together cannot all be in phase.
  return {
    returnLossDb: 0 - 10 * Math.log10(power),
    coherentReturnLossDb: 0 - 20 * Math.log10(Math.min(1, amplitude)),
  }
}
