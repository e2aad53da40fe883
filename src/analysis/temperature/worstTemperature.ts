// The nominal loss over the required range of temperature. The budget needs no more; the drawn band of the sweep is
// apart, because it brings the random numbers along.

import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import type { CompiledCandidate } from '../compileCandidate'
import type { Evaluation } from '../evaluation'

/** Taken where no mount names the temperature of assembly. */
export const ROOM_TEMPERATURE_C = 20

/** Of the mount, or that of a room. */
export function assemblyTemperatureC({ candidate }: CompiledCandidate): number {
  const { mount } = candidate
  return mount === undefined ? ROOM_TEMPERATURE_C : coreValue(mount.assemblyTemperature, 'temperature')
}

/** Evenly spaced temperatures of the required range, both ends included. */
export function temperatureRange({ requirements }: Project, count: number): Float64Array {
  const from = coreValue(requirements.temperatureMin, 'temperature')
  const to = coreValue(requirements.temperatureMax, 'temperature')
  return Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
}

/** Nominal losses at the temperatures, dB. */
export function lossesOverTemperature(
  compiled: CompiledCandidate,
  temperaturesC: Float64Array,
): Float64Array {
  const v = Float64Array.from(compiled.nominal)
  const assemblyC = assemblyTemperatureC(compiled)
  return temperaturesC.map((temperature) => {
    v[compiled.places.temperatureRise] = temperature - assemblyC
    return compiled.lossDb(v)
  })
}

/** Place of the greatest loss. */
export function worstPlace(lossesDb: Float64Array): number {
  let worst = 0
  for (let i = 1; i < lossesDb.length; i++) if ((lossesDb[i] ?? 0) > (lossesDb[worst] ?? 0)) worst = i
  return worst
}

/** Temperatures at which the budget looks; the loss has no narrow peak between them. */
const BUDGET_POINTS = 5

/** The worst nominal loss over the required range; null where no mount is described. */
export function worstTemperature(project: Project, compiled: CompiledCandidate): Evaluation['temperature'] {
  if (compiled.candidate.mount === undefined) return null
  const temperaturesC = temperatureRange(project, BUDGET_POINTS)
  const lossesDb = lossesOverTemperature(compiled, temperaturesC)
  const worst = worstPlace(lossesDb)
  return {
    assemblyC: assemblyTemperatureC(compiled),
    worstC: temperaturesC[worst] ?? 0,
    worstDb: lossesDb[worst] ?? 0,
  }
}
