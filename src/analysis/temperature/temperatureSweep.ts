// Loss over temperature: what the mount moves and the indices change, with the band that the tolerances make.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/project'
import { coreValue } from '../../model/quantity'
import { unitPoints } from '../../numerics/unitPoints'
import { type CompiledCandidate, compileCandidate } from '../compileCandidate'
import type { Evaluation } from '../evaluation'
import { rootSumSquare, worstCornerNear } from '../tolerances'
import { drawsOf } from '../yield/draws'

export const SWEEP_DEFAULTS = { points: 21, assemblies: 256 } as const

/** Taken where no mount names the temperature of assembly. */
export const ROOM_TEMPERATURE_C = 20

/** Shares of the drawn assemblies between which the band lies. */
export const BAND = [0.05, 0.95] as const

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
}

export function assemblyTemperatureC({ candidate }: CompiledCandidate): number {
  const { mount } = candidate
  return mount === undefined ? ROOM_TEMPERATURE_C : coreValue(mount.assemblyTemperature, 'temperature')
}

/** Evenly spaced temperatures of the required range, both ends included. */
function range({ requirements }: Project, count: number): Float64Array {
  const from = coreValue(requirements.temperatureMin, 'temperature')
  const to = coreValue(requirements.temperatureMax, 'temperature')
  return Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
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

function worstPlace(lossesDb: Float64Array): number {
  let worst = 0
  for (let i = 1; i < lossesDb.length; i++) if ((lossesDb[i] ?? 0) > (lossesDb[worst] ?? 0)) worst = i
  return worst
}

/** Temperatures at which the budget looks; the loss has no narrow peak between them. */
const BUDGET_POINTS = 5

/** The totals of the budget at the worst of the required range; null where no mount is described. */
export function worstTemperature(
  project: Project,
  compiled: CompiledCandidate,
  corner: Evaluation['worstCorner'],
): Evaluation['temperature'] {
  if (compiled.candidate.mount === undefined) return null
  const temperaturesC = range(project, BUDGET_POINTS)
  const lossesDb = lossesOverTemperature(compiled, temperaturesC)
  const worst = worstPlace(lossesDb)
  const assemblyC = assemblyTemperatureC(compiled)
  const ends = [temperaturesC[0] ?? 0, temperaturesC.at(-1) ?? 0].map((end) => {
    const nominal = Float64Array.from(compiled.nominal)
    nominal[compiled.places.temperatureRise] = end - assemblyC
    const there = { ...compiled, nominal }
    return {
      rootSumSquareDb: rootSumSquare(there, compiled.lossDb(nominal)).lossDb,
      worstCornerDb: worstCornerNear(there, corner),
    }
  })
  return {
    assemblyC,
    worstC: temperaturesC[worst] ?? 0,
    worstDb: lossesDb[worst] ?? 0,
    rootSumSquareDb: Math.max(...ends.map((end) => end.rootSumSquareDb)),
    worstCornerDb: Math.max(...ends.map((end) => end.worstCornerDb)),
  }
}

/** The sweep over the required range, or every reason why the candidate cannot be computed. */
export function temperatureSweep(project: Project, candidateId: string): Result<TemperatureSweep> {
  const result = compileCandidate(project, candidateId, { modes: 'tabled' })
  if (!result.ok) return result
  const compiled = result.value
  const assemblyC = assemblyTemperatureC(compiled)
  const temperaturesC = range(project, SWEEP_DEFAULTS.points)
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
    movements: ends.flatMap((end) => movementAt(compiled, end - assemblyC, assemblyC) ?? []),
  })
}

/** Quantiles of drawn assemblies at every temperature; the assemblies are the same at each. */
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
