// The nominal chain over the temperatures of the requirements, at its worst: what the budget shows.

import { leadingLimitDb } from '../../model/project/lossCriteria'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import type { CompiledCandidate } from '../path/compileCandidate'
import { ROOM_TEMPERATURE_C } from '../path/vector/requiredConditions'
import type { Evaluation } from '../results/evaluation'
import { cornerBeyondDb, fitsMiss, missedDb } from '../tolerance/exactCorner'
import { exactSquares } from '../tolerance/exactSquares'
import { rootSumSquare, worstCornerNear } from '../tolerance/tolerances'
import { temperatureReach } from './temperatureReach'

export function assemblyTemperatureC({ candidate }: CompiledCandidate): number {
  const { mount } = candidate
  return mount === undefined ? ROOM_TEMPERATURE_C : coreValue(mount.assemblyTemperature, 'temperature')
}

/** Evenly spaced temperatures of the required range, both ends included, degC. */
export function spacedTemperaturesC({ requirements }: Project, count: number): Float64Array {
  const from = coreValue(requirements.temperatureMin, 'temperature')
  const to = coreValue(requirements.temperatureMax, 'temperature')
  return Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
}

/** Nominal losses at the temperatures, dB; where a fit misses its target, by exact sums once they are known. */
export function lossesOverTemperature(
  compiled: CompiledCandidate,
  temperaturesC: Float64Array,
): Float64Array {
  const v = Float64Array.from(compiled.nominal)
  const assemblyC = assemblyTemperatureC(compiled)
  const slot = compiled.slots.temperatureRise
  const lossesDb = temperaturesC.map((temperature) => {
    v[slot] = temperature - assemblyC
    return compiled.lossDb(v)
  })
  if (!fitsMiss(compiled)) return lossesDb
  const missed = missedDb(
    compiled,
    Array.from(temperaturesC, (temperature) => ({
      v: compiled.nominal.with(slot, temperature - assemblyC),
    })),
  )
  return missed === 'pending' ? lossesDb : lossesDb.map((lossDb, i) => lossDb + (missed[i] ?? 0))
}

/** Place of the greatest loss. */
export function worstIndex(lossesDb: Float64Array): number {
  let worst = 0
  for (let i = 1; i < lossesDb.length; i++) if ((lossesDb[i] ?? 0) > (lossesDb[worst] ?? 0)) worst = i
  return worst
}

/** Temperatures at which the budget looks; the loss has no narrow peak between them. */
const BUDGET_POINTS = 5

/** RSS about the nominal values, its joints summed exactly where a fit misses its target. */
function squaresDb(compiled: CompiledCandidate): number {
  const fittedDb = compiled.lossDb(compiled.nominal)
  const missed = fitsMiss(compiled) ? missedDb(compiled, [{ v: compiled.nominal }]) : [0]
  const nominalDb = fittedDb + (missed === 'pending' ? 0 : (missed[0] ?? 0))
  return exactSquares(compiled, rootSumSquare(compiled, nominalDb), nominalDb).squares.lossDb
}

/**
 * The totals of the budget at the worst of the required range, and the reach for the loss limit; null where no mount is
 * described.
 */
export function worstTemperature(
  project: Project,
  compiled: CompiledCandidate,
  corner: Evaluation['worstCorner'],
): Evaluation['temperature'] {
  if (compiled.candidate.mount === undefined) return null
  const temperaturesC = spacedTemperaturesC(project, BUDGET_POINTS)
  const lossesDb = lossesOverTemperature(compiled, temperaturesC)
  const worst = worstIndex(lossesDb)
  const assemblyC = assemblyTemperatureC(compiled)
  const ends = [temperaturesC[0] ?? 0, temperaturesC.at(-1) ?? 0].map((end) => {
    const nominal = Float64Array.from(compiled.nominal)
    nominal[compiled.slots.temperatureRise] = end - assemblyC
    const there = { ...compiled, nominal }
    return {
      rootSumSquareDb: squaresDb(there),
      worstCornerDb: worstCornerNear(there, corner) + cornerBeyondDb(there, corner),
    }
  })
  return {
    assemblyC,
    worstC: temperaturesC[worst] ?? 0,
    worstDb: lossesDb[worst] ?? 0,
    rootSumSquareDb: Math.max(...ends.map((end) => end.rootSumSquareDb)),
    worstCornerDb: Math.max(...ends.map((end) => end.worstCornerDb)),
    reachC: temperatureReach(compiled, assemblyC, leadingLimitDb(project.requirements)),
  }
}
