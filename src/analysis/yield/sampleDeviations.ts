// What is furthest off in a simulated assembly: the quantities with the largest deviations in standard deviations of theirs.

import { ProjectError } from '../../model/project/projectError'
import type { Project } from '../../model/schema/project'
import { standardDeviationOf } from '../tolerance/deviation'
import { assemblyOf } from './assembly'
import { sampleValues } from './runBlocks'
import { type YieldOptions, yieldPlan } from './runYield'

export interface SampleDeviation {
  readonly label: string
  /** Deviation from the value over the standard deviation, with its sign. */
  readonly sigmas: number
}

/** For each sample number its `most` largest deviations, the largest first. Throws as runYield does. */
export function sampleDeviations(
  project: Project,
  candidateId: string,
  options: YieldOptions,
  indices: readonly number[],
  most: number,
): readonly (readonly SampleDeviation[])[] {
  const plan = yieldPlan(project, candidateId, options)
  const result = assemblyOf(project, candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  const { compiled, draws } = result.value
  return indices.map((index) => {
    const values = sampleValues(result.value, plan, index)
    const all = draws.slots.flatMap((slot): readonly SampleDeviation[] => {
      const variable = compiled.variables[slot]
      if (variable === undefined) return []
      const { label, nominal, spread } = variable
      return [{ label, sigmas: ((values[slot] ?? nominal) - nominal) / standardDeviationOf(spread) }]
    })
    return all.sort((a, b) => Math.abs(b.sigmas) - Math.abs(a.sigmas)).slice(0, most)
  })
}
