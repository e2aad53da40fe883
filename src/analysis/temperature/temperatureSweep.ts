// Loss over temperature: what the mount moves and the indices change, with the band that the tolerances make.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { unitPoints } from '../../numerics/random/unitPoints'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { movedModels } from '../path/movedModels'
import { drawsOf } from '../tolerance/draws'
import {
  assemblyTemperatureC,
  lossesOverTemperature,
  spacedTemperaturesC,
  worstPlace,
} from './worstTemperature'

const SWEEP_DEFAULTS = { points: 21, assemblies: 256 } as const

/** Shares of the simulated assemblies between which the band lies. */
const BAND = [0.05, 0.95] as const

export interface JointMovement {
  readonly temperatureC: number
  readonly xUm: number
  readonly yUm: number
  /** How much wider the gap is than at assembly. */
  readonly zUm: number
}

export interface TemperatureSweep {
  readonly assemblyC: number
  readonly mounted: boolean
  readonly temperaturesC: Float64Array
  readonly lossesDb: Float64Array
  readonly bandLowDb: Float64Array
  readonly bandHighDb: Float64Array
  readonly atAssemblyDb: number
  readonly worstC: number
  readonly worstDb: number
  /** At both ends of the required range. */
  readonly movements: readonly JointMovement[]
  /** Which models the temperature moves, where they are more than Gaussians. */
  readonly models: readonly string[]
}

function movementAt(compiled: CompiledCandidate, rise: number, assemblyC: number): JointMovement | null {
  const view = compiled.joins.at(-1)?.view
  if (view == null) return null
  const v = Float64Array.from(compiled.nominal)
  const cold = view(v).joint
  v[compiled.places.temperatureRise] = rise
  const warm = view(v).joint
  return {
    temperatureC: assemblyC + rise,
    xUm: warm.offsetXUm - cold.offsetXUm,
    yUm: warm.offsetYUm - cold.offsetYUm,
    zUm: warm.gapUm - cold.gapUm,
  }
}

/** The sweep over the required range, or every reason why the candidate cannot be computed. */
export function temperatureSweep(project: Project, candidateId: string): Result<TemperatureSweep> {
  const result = compileCandidate(project, candidateId, { modes: 'tabled' })
  if (!result.ok) return result
  const compiled = result.value
  const assemblyC = assemblyTemperatureC(compiled)
  const temperaturesC = spacedTemperaturesC(project, SWEEP_DEFAULTS.points)
  const lossesDb = lossesOverTemperature(compiled, temperaturesC)
  const { low, high } = band(compiled, project.seed, temperaturesC, assemblyC)
  const worst = worstPlace(lossesDb)
  const ends = [temperaturesC[0] ?? 0, temperaturesC.at(-1) ?? 0]
  return success({
    assemblyC,
    mounted: compiled.candidate.mount !== undefined,
    temperaturesC,
    lossesDb,
    bandLowDb: low,
    bandHighDb: high,
    atAssemblyDb: compiled.lossDb(compiled.nominal),
    worstC: temperaturesC[worst] ?? 0,
    worstDb: lossesDb[worst] ?? 0,
    models: movedModels(compiled),
    movements: ends.flatMap((end) => movementAt(compiled, end - assemblyC, assemblyC) ?? []),
  })
}

/** Quantiles of simulated assemblies at every temperature; the assemblies are the same at each. */
function band(compiled: CompiledCandidate, seed: number, temperaturesC: Float64Array, assemblyC: number) {
  const draws = drawsOf(compiled.variables)
  const points = unitPoints('sobol', Math.max(1, draws.places.length), seed)
  const point = new Float64Array(points.dimensions)
  const drawn = Array.from({ length: SWEEP_DEFAULTS.assemblies }, (_, n) => {
    points.point(n, point)
    const v = Float64Array.from(compiled.nominal)
    draws.apply(point, v)
    return v
  })
  const [low, high] = [new Float64Array(temperaturesC.length), new Float64Array(temperaturesC.length)]
  for (const [i, temperature] of temperaturesC.entries()) {
    const losses = Float64Array.from(drawn, (v) => {
      v[compiled.places.temperatureRise] = temperature - assemblyC
      return compiled.lossDb(v)
    }).sort()
    low[i] = losses[Math.round(BAND[0] * (losses.length - 1))] ?? 0
    high[i] = losses[Math.round(BAND[1] * (losses.length - 1))] ?? 0
  }
  return { low, high }
}
