// Loss over temperature: what the mount moves and the indices change, with the band that the tolerances make.

import { type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { unitPoints } from '../../numerics/random/unitPoints'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { movedModels } from '../path/movedModels'
import { drawsOf } from '../tolerance/draws'
import { fitsMiss, missedDb } from '../tolerance/exactCorner'
import {
  assemblyTemperatureC,
  lossesOverTemperature,
  spacedTemperaturesC,
  worstIndex,
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
  /** At both ends of the required range, fibre side relative to chip; none without a mount. */
  readonly movements: readonly JointMovement[]
  /** Which models the temperature moves, where they are more than Gaussians. */
  readonly models: readonly string[]
}

function movementAt(
  { nominal, slots, mount }: CompiledCandidate,
  rise: number,
  assemblyC: number,
): JointMovement | null {
  if (mount === null) return null
  const v = nominal.with(slots.temperatureRise, rise)
  return { temperatureC: assemblyC + rise, xUm: mount.x(v), yUm: mount.y(v), zUm: mount.z(v) }
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
  const worst = worstIndex(lossesDb)
  const ends = [temperaturesC[0] as number, temperaturesC.at(-1) ?? 0]
  return success({
    assemblyC,
    mounted: compiled.mount !== null,
    temperaturesC,
    lossesDb,
    bandLowDb: low,
    bandHighDb: high,
    atAssemblyDb: compiled.lossDb(compiled.nominal),
    worstC: temperaturesC[worst] as number,
    worstDb: lossesDb[worst] as number,
    models: movedModels(compiled),
    movements: ends.flatMap((end) => movementAt(compiled, end - assemblyC, assemblyC) ?? []),
  })
}

/** Assemblies on either side of each end of the band that are summed exactly, with it, where a fit misses its target. */
const HALF_LOOKED_AT = 1

/**
 * Quantiles of simulated assemblies at every temperature; the assemblies are the same at each. Where a fit misses its target, they are
 * moved by what exact sums add, on average, to the assemblies next to them.
 */
function band(compiled: CompiledCandidate, seed: number, temperaturesC: Float64Array, assemblyC: number) {
  const draws = drawsOf(compiled.variables)
  const points = unitPoints('sobol', Math.max(1, draws.slots.length), seed)
  const point = new Float64Array(points.dimensions)
  const sampled = Array.from({ length: SWEEP_DEFAULTS.assemblies }, (_, n) => {
    points.point(n, point)
    const v = Float64Array.from(compiled.nominal)
    draws.apply(point, v)
    return v
  })
  const ends = Array.from(temperaturesC, (temperature) => {
    const assemblies = sampled.map((values) => {
      const v = values.with(compiled.slots.temperatureRise, temperature - assemblyC)
      return { v, lossDb: compiled.lossDb(v) }
    })
    assemblies.sort((a, b) => a.lossDb - b.lossDb)
    return BAND.map((share) => {
      const rank = Math.round(share * (assemblies.length - 1))
      return assemblies.slice(rank - HALF_LOOKED_AT, rank + HALF_LOOKED_AT + 1)
    })
  })
  // All of them in one request.
  const missed = fitsMiss(compiled) ? missedDb(compiled, ends.flat(2)) : []
  const count = 2 * HALF_LOOKED_AT + 1
  const endsDb = ends.flat().map((near, i) => {
    const added = missed === 'pending' ? [] : missed.slice(count * i, count * (i + 1))
    return (near[HALF_LOOKED_AT]?.lossDb ?? 0) + added.reduce((sum, db) => sum + db, 0) / count
  })
  const low = Float64Array.from(temperaturesC, (_, i) => endsDb[2 * i] as number)
  const high = Float64Array.from(temperaturesC, (_, i) => endsDb[2 * i + 1] ?? 0)
  return { low, high }
}
