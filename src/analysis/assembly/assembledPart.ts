// The simulated part: one channel, or a row of channels in one array, of which every channel must pass. Steps write into one
// vector of values, which all channels share.

import { type Path, type Result, success } from '../../model/issue'
import type { AssemblySequence } from '../../model/schema/build/assembly'
import type { Project } from '../../model/schema/project'
import type { ArrayAim } from '../../model/words/fibreArray'
import { atMostNoLight } from '../../optics/index'
import { isRow } from '../array/arrayDefaults'
import { type ArrayBlock, blockByDirectSums, blockDimensions, blockOf } from '../array/block'
import { blockLosses, type Station, stationOf } from '../array/blockSample'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { Variable } from '../results/evaluation'
import { requiredRises } from '../temperature/rises'
import { type Draws, drawsOf } from '../tolerance/draws'
import { assemblyOf, withDirectSums } from '../yield/assembly'

/** One part on its way. */
interface PartInWork {
  /** Of all channels; steps set and move these. */
  readonly values: Float64Array
  /** Starts a new part: its own tolerances from the deviations starting at `from`, without any effect of the steps. */
  readonly begin: (deviations: Float64Array, from: number) => void
  /** Loss of the worst channel at the current values and the assembly temperature, dB. */
  readonly lossDb: () => number
  /** The worst over the required temperatures, right after the loss where it is built. */
  readonly overRangeDb: (builtDb: number) => number
}

export interface AssembledPart {
  readonly compiled: CompiledCandidate
  /** Coordinates of the part's own tolerances. */
  readonly dimensions: number
  readonly channels: number
  readonly limitDb: number
  /** Turns the first coordinates of `count` points, `stride` apart, into deviations of the part's own tolerances. */
  readonly deviate: (points: Float64Array, count: number, stride: number) => void
  readonly start: () => PartInWork
}

/** Whether steps set or move the quantity of a path. */
type IsOfSteps = (path: Path) => boolean

/** Those of the draws that belong to the part itself. */
function withoutSteps(draws: Draws, variables: readonly Variable[], isOfSteps: IsOfSteps): Draws {
  const sampled = new Set(draws.slots.map((slot) => variables[slot]))
  return drawsOf(variables, (variable) => sampled.has(variable) && !isOfSteps(variable.path))
}

/**
 * The part, or every reason why the design cannot be computed. The tolerances of what `isOfSteps` accepts are not sampled: they only say
 * how far steps move it. Joints whose fit misses its target are summed directly.
 */
export function assembledPart(
  project: Project,
  candidateId: string,
  sequence: AssemblySequence,
  isOfSteps: IsOfSteps,
): Result<AssembledPart> {
  const candidate = project.candidates.find(({ id }) => id === candidateId)
  return candidate !== undefined && isRow(project, candidate)
    ? row(project, candidateId, sequence, isOfSteps)
    : oneChannel(project, candidateId, isOfSteps)
}

function oneChannel(project: Project, candidateId: string, isOfSteps: IsOfSteps): Result<AssembledPart> {
  const result = assemblyOf(project, candidateId)
  if (!result.ok) return result
  const { compiled, limitDb, ...whole } = withDirectSums(result.value, project)
  const draws = withoutSteps(whole.draws, compiled.variables, isOfSteps)
  const { lossDb, nominal, slots } = compiled
  const rises = requiredRises(project, compiled).filter((rise) => rise !== 0)
  return success({
    compiled,
    dimensions: draws.slots.length,
    channels: 1,
    limitDb,
    deviate: draws.deviate,
    start: () => {
      const values = Float64Array.from(nominal)
      return {
        values,
        begin: (deviations, from) => {
          values.set(nominal)
          draws.set(deviations, from, values)
        },
        lossDb: () => atMostNoLight(lossDb(values)),
        overRangeDb: (builtDb) => {
          let worst = builtDb
          for (let i = 0; i < rises.length; i++) {
            values[slots.temperatureRise] = rises[i] ?? 0
            worst = Math.max(worst, atMostNoLight(lossDb(values)))
          }
          return worst
        },
      }
    },
  })
}

/** What the row is aligned on: both outer channels where a step says so, else the strategy of the array. */
function aimOf({ aim }: ArrayBlock, { steps }: AssemblySequence): ArrayAim {
  const isOuter = steps.some(
    ({ kind, signal }) => kind === 'align' && signal === 'power at both outer channels',
  )
  return isOuter ? 'outer two' : aim
}

function row(
  project: Project,
  candidateId: string,
  sequence: AssemblySequence,
  isOfSteps: IsOfSteps,
): Result<AssembledPart> {
  const result = blockOf(project, candidateId)
  if (!result.ok) return result
  const whole = blockByDirectSums(result.value, project)
  const { variables } = whole.compiled
  const block: ArrayBlock = {
    ...whole,
    common: withoutSteps(whole.common, variables, isOfSteps),
    own: withoutSteps(whole.own, variables, isOfSteps),
  }
  const { compiled, common, own, channels, limitDb } = block
  const aim = aimOf(block, sequence)
  const built: ArrayBlock = { ...block, rises: [0] }
  const elsewhere: ArrayBlock = { ...block, rises: block.rises.filter((rise) => rise !== 0) }
  return success({
    compiled,
    dimensions: blockDimensions(block),
    channels,
    limitDb,
    deviate: (points, count, stride) => {
      common.deviate(points, count, stride)
      for (let channel = 0; channel < channels; channel++)
        own.deviate(points, count, stride, common.slots.length + channel * own.slots.length)
    },
    start: () => {
      const values = Float64Array.from(compiled.nominal)
      const ownDeviations = new Float64Array(channels * own.slots.length)
      const each = Array.from({ length: channels }, () => new Float64Array(values.length))
      const losses = new Float64Array(channels)
      const sampled = { shared: values, channels: each }
      let station: Station = { positions: [], moves: [] }
      const worstOf = (at: ArrayBlock): number => {
        blockLosses(at, sampled, station, losses)
        let worst = Number.NEGATIVE_INFINITY
        for (let i = 0; i < channels; i++) {
          worst = Math.max(worst, atMostNoLight(losses[i] ?? Number.NaN))
        }
        return worst
      }
      return {
        values,
        begin: (deviations, from) => {
          values.set(compiled.nominal)
          common.set(deviations, from, values)
          const first = from + common.slots.length
          ownDeviations.set(deviations.subarray(first, first + ownDeviations.length))
        },
        lossDb: () => {
          for (const [channel, v] of each.entries()) {
            v.set(values)
            own.set(ownDeviations, channel * own.slots.length, v)
          }
          station = stationOf(block, sampled, aim)
          return worstOf(built)
        },
        overRangeDb: (builtDb) =>
          elsewhere.rises.length === 0 ? builtDb : Math.max(builtDb, worstOf(elsewhere)),
      }
    },
  })
}
