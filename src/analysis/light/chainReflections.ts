// Every reflection of a path, seen from both ends: all elements before a face are passed twice.

import type { CompiledCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/valueReaders'
import type { ChainReflection, PathPort, PortReturn } from '../results/lightResults'

const sum = (losses: readonly number[]) => losses.reduce((all, each) => all + each, 0)

/**
 * In the order from fibre to chip. A round trip passes an isolator once each way, and so loses its isolation once, whichever way it
 * points. Losses that no join or guide has, such as user lines, weaken nothing here.
 */
export function chainReflections(compiled: CompiledCandidate, v: Values): readonly ChainReflection[] {
  const guidesDb = compiled.guideLossesDb.map((lossDb) => lossDb(v))
  const roundTripsDb = compiled.joins.map((join) => 2 * join.lossDb(v) + (join.isolationDb?.(v) ?? 0))
  const afterDb = compiled.lastGuideLossDb(v)
  return compiled.joins.flatMap((join, i) => {
    const beforeDb = 2 * sum(guidesDb.slice(0, i + 1)) + sum(roundTripsDb.slice(0, i))
    const behindDb = 2 * (sum(guidesDb.slice(i + 1)) + afterDb) + sum(roundTripsDb.slice(i + 1))
    return join.reflections(v).map((each) => ({
      ...each,
      atFibreDb: each.intoNearDb === null ? null : each.intoNearDb + beforeDb,
      atChipDb: each.intoFarDb === null ? null : each.intoFarDb + behindDb,
    }))
  })
}

/** Faces that send back no more than this share of the total leave it as it is, dB. */
const NEGLIGIBLE_DB = 0.005

function portReturn(returns: readonly (readonly [lossDb: number | null, atMost: boolean])[]): PortReturn {
  let power = 0
  let amplitude = 0
  let known = 0
  for (const [lossDb, atMost] of returns) {
    if (lossDb === null) continue
    const ratio = 10 ** (-lossDb / 10)
    power += ratio
    amplitude += Math.sqrt(ratio)
    if (!atMost) known += ratio
  }
  if (power === 0) return { incoherentDb: null, coherentDb: null, atLeast: false, atMostDb: null }
  return {
    incoherentDb: 0 - 10 * Math.log10(power),
    // Faces that send back more than the whole light together cannot all be in phase.
    coherentDb: 0 - 20 * Math.log10(Math.min(1, amplitude)),
    atLeast: known === 0 || 10 * Math.log10(power / known) > NEGLIGIBLE_DB,
    atMostDb: known === 0 ? null : 0 - 10 * Math.log10(known),
  }
}

/** Powers added, and amplitudes added as if all were in phase: no setting of the phases returns more. */
export function totalReturns(
  reflections: readonly ChainReflection[],
): Readonly<Record<PathPort, PortReturn>> {
  return {
    fibre: portReturn(reflections.map(({ atFibreDb, atMost }) => [atFibreDb, atMost === true])),
    chip: portReturn(reflections.map(({ atChipDb, atMost }) => [atChipDb, atMost === true])),
  }
}
