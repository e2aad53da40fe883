// Assemblies of a design as a lot has them: an array as a whole, or channels aligned one by one, with each tolerance scaled.

import { type Path, type Result, success } from '../../model/issue'
import { RULES } from '../../model/quantity/quantityRules'
import { unitFactor, unitLabel } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'
import { unitPoints } from '../../numerics/random/unitPoints'
import { NO_LIGHT_DB } from '../../optics/index'
import { isRow } from '../array/arrayDefaults'
import { blockDimensions, blockOf, blockQuantities } from '../array/block'
import { blockLosses, sampleBlock, stationOf } from '../array/blockSample'
import type { Variable } from '../results/evaluation'
import { fitsMiss } from '../tolerance/exactCorner'
import { assemblyOf } from '../yield/assembly'

export interface LotTolerance {
  readonly path: Path
  readonly label: string
  /** Half width as stated, in its unit. */
  readonly plusMinus: number
  readonly unit: string
}

export interface LotSimulator {
  /** Channels of one simulated assembly. */
  readonly channels: number
  readonly tolerances: readonly LotTolerance[]
  /** Whether the fields of a joint are summed for every assembly, because its fit misses its target: that takes long. */
  readonly isDirect: boolean
  /** Losses of assembly number `index`, dB, to `out`; `factors` scale the tolerances, in their order. */
  readonly simulate: (index: number, factors: Float64Array, out: Float64Array) => void
}

/** Modes are tabled for tolerances up to so many times as wide as stated. */
const WIDENING = 6

function toleranceOf({ path, label, unit, rule, spread }: Variable): LotTolerance {
  const plusMinus = spread.halfWidth / (unitFactor(RULES[rule].dimension, unit) ?? 1)
  return { path, label, plusMinus, unit: unitLabel(unit) }
}

const finite = (loss: number) => (loss < NO_LIGHT_DB ? Math.max(0, loss) : NO_LIGHT_DB)

/** The simulator, or every reason why the design cannot be computed. */
export function lotSimulator(project: Project, candidateId: string, seed: number): Result<LotSimulator> {
  const candidate = project.candidates.find(({ id }) => id === candidateId)
  return candidate !== undefined && isRow(project, candidate)
    ? arraySimulator(project, candidateId, seed)
    : channelSimulator(project, candidateId, seed)
}

function arraySimulator(project: Project, candidateId: string, seed: number): Result<LotSimulator> {
  const result = blockOf(project, candidateId, WIDENING, 'direct')
  if (!result.ok) return result
  const block = result.value
  const points = unitPoints('random', blockDimensions(block), seed)
  const point = new Float64Array(points.dimensions)
  return success({
    channels: block.channels,
    isDirect: fitsMiss(block.compiled),
    tolerances: blockQuantities(block).flatMap((slot) => {
      const variable = block.compiled.variables[slot]
      return variable === undefined ? [] : [toleranceOf(variable)]
    }),
    simulate: (index, factors, out) => {
      points.point(index, point)
      const sampled = sampleBlock(block, point, factors)
      blockLosses(block, sampled, stationOf(block, sampled, block.aim), out)
      for (let c = 0; c < block.channels; c++) out[c] = finite(out[c] ?? NO_LIGHT_DB)
    },
  })
}

function channelSimulator(project: Project, candidateId: string, seed: number): Result<LotSimulator> {
  const result = assemblyOf(project, candidateId, WIDENING, 'direct')
  if (!result.ok) return result
  const { compiled, draws, lossDb } = result.value
  const { channels } = project.requirements
  const points = unitPoints('random', Math.max(1, draws.slots.length), seed)
  const point = new Float64Array(points.dimensions)
  const values = Float64Array.from(compiled.nominal)
  return success({
    channels,
    isDirect: fitsMiss(compiled),
    tolerances: draws.slots.flatMap((slot) => {
      const variable = compiled.variables[slot]
      return variable === undefined ? [] : [toleranceOf(variable)]
    }),
    simulate: (index, factors, out) => {
      for (let c = 0; c < channels; c++) {
        points.point(index * channels + c, point)
        draws.apply(point, values, factors)
        out[c] = finite(lossDb(values))
      }
    },
  })
}
