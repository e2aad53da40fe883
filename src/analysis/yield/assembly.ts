// A design prepared for many samples: the sampled quantities, and the loss of one simulated assembly.

import { type Result, success } from '../../model/issue'
import { leadingLimitDb, leadingLoss } from '../../model/project/lossCriteria'
import type { Project } from '../../model/schema/project'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import type { ChainContext } from '../path/vector/elementModels'
import type { Reader } from '../path/vector/valueReaders'
import { requiredRises, requiredTemperaturesC } from '../temperature/rises'
import { type Draws, drawsOf } from '../tolerance/draws'
import { fitsMiss } from '../tolerance/exactCorner'

export interface Assembly {
  readonly compiled: CompiledCandidate
  readonly draws: Draws
  /** Temperatures at which every assembly is looked at, degC; empty where no mount is described. */
  readonly temperaturesC: readonly number[]
  /** Loss of one assembly, dB: the worst over the temperatures. */
  readonly lossDb: Reader
  /** Whether it is that of the chain as built: no other temperature is looked at. */
  readonly asBuilt: boolean
  readonly limitDb: number
  /** Share of the leading loss criterion, 0 to 1. */
  readonly percentile: number
}

function worstOver(compiled: CompiledCandidate, over: readonly number[]): Reader {
  if (over.length === 1) return compiled.lossDb
  const slot = compiled.slots.temperatureRise
  return (v) => {
    let worst = 0
    for (let i = 0; i < over.length; i++) {
      v[slot] = over[i] ?? 0
      const loss = compiled.lossDb(v)
      if (!(loss <= worst)) worst = loss
    }
    v[slot] = 0
    return worst
  }
}

/** Wide enough for the ranking, which looks at slightly wider tolerances than the entered ones. */
const RANKING_WIDENING = 1.2

/**
 * The assembly, or every reason why the candidate cannot be computed. Tolerances may be sampled `widening` times as wide
 * as they are entered; where a core has no mode there, the loss is NaN, and such an assembly does not pass. `sums` as for
 * `compileCandidate`.
 */
export function assemblyOf(
  project: Project,
  candidateId: string,
  widening = RANKING_WIDENING,
  sums: ChainContext['sums'] = 'fitted',
): Result<Assembly> {
  const result = compileCandidate(project, candidateId, { modes: 'tabled', widening, sums })
  if (!result.ok) return result
  const compiled = result.value
  const rises = requiredRises(project, compiled)
  return success({
    compiled,
    draws: drawsOf(compiled.variables),
    temperaturesC: requiredTemperaturesC(project, compiled),
    lossDb: worstOver(compiled, rises),
    asBuilt: rises.length === 1,
    limitDb: leadingLimitDb(project.requirements),
    percentile: leadingLoss(project.requirements).percentile / 100,
  })
}

/** The same with the real fields summed for every assembly, where their fit misses its target; the assembly itself where no fit does. */
export function withDirectSums(
  assembly: Assembly,
  project: Project,
  widening: number = RANKING_WIDENING,
): Assembly {
  if (!fitsMiss(assembly.compiled)) return assembly
  const direct = assemblyOf(project, assembly.compiled.candidate.id, widening, 'direct')
  return direct.ok ? direct.value : assembly
}

/**
 * The same for tolerances `widening` times as wide as entered: joints that a fit moves are summed beyond its region, and everywhere where it
 * misses its target; the assembly itself where no fit moves one.
 */
export function withSumsBeyond(assembly: Assembly, project: Project, widening: number): Assembly {
  const { joins, candidate } = assembly.compiled
  if (joins.every(({ beyondFitDb, aberrated }) => beyondFitDb === undefined && aberrated !== true))
    return assembly
  const summed = assemblyOf(project, candidate.id, widening, 'direct')
  return summed.ok ? summed.value : assembly
}
