// Temperatures at which a simulated assembly is evaluated, as rises over the temperature where it was aligned.

import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { plainText, roundedTo } from '../../numerics/numberText'
import type { CompiledCandidate } from '../path/compileCandidate'
import { assemblyTemperatureC } from './worstTemperature'

/** No rise, and to both ends of the required range; only no rise where no mount is described. */
export function requiredRises(project: Project, compiled: CompiledCandidate): readonly number[] {
  if (compiled.candidate.mount === undefined) return [0]
  const { temperatureMin, temperatureMax } = project.requirements
  const assemblyC = assemblyTemperatureC(compiled)
  const ends = [coreValue(temperatureMin, 'temperature'), coreValue(temperatureMax, 'temperature')]
  return [0, ...ends.map((end) => end - assemblyC)]
}

/** The same as temperatures, degC; empty where no mount is described. */
export function requiredTemperaturesC(project: Project, compiled: CompiledCandidate): readonly number[] {
  if (compiled.candidate.mount === undefined) return []
  return requiredRises(project, compiled).map((rise) => assemblyTemperatureC(compiled) + rise)
}

const JOINED = new Intl.ListFormat('en-GB', { type: 'conjunction' })

/** `23 °C, −20 °C and 60 °C` */
export function temperatureWords(temperaturesC: readonly number[]): string {
  return JOINED.format(temperaturesC.map((each) => `${plainText(roundedTo(each, 2))} °C`))
}
