import {
  type AssemblyOptions,
  type AssemblyResult,
  assemblySteps,
} from '../../../src/analysis/assembly/assemblyResult'
import type { AssemblySequence, AssemblyStep } from '../../../src/model/schema/build/assembly'
import type { Project } from '../../../src/model/schema/project'
import { finish } from '../../../src/numerics/steps'

/** A step that takes no time, costs nothing and spoils nothing unless `more` says so. */
export const step = (
  id: string,
  kind: AssemblyStep['kind'],
  more: Partial<AssemblyStep> = {},
): AssemblyStep => ({
  id,
  name: id,
  kind,
  minutes: 0,
  scrapCost: 0,
  spoiledPercent: 0,
  ...more,
})

export const runAssembly = (
  project: Project,
  designId: string,
  sequence: AssemblySequence,
  options: AssemblyOptions = {},
): AssemblyResult => finish(assemblySteps(project, designId, sequence, options))
