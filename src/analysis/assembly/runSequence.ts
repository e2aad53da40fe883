// Assemblies one by one through the steps of a sequence: blocks of numbers, each a function of the seed and its number alone, so
// that any worker may do any block.

import { normalQuantile } from '../../numerics/normal'
import { mix32 } from '../../numerics/random/randomWords'
import { type UnitPoints, unitPoints } from '../../numerics/random/unitPoints'
import { CLASSES, classOf } from '../yield/tally'
import type { CompiledSequence, CompiledStep, Write } from './compileSequence'

/** Counts only, so that tallies of any workers add up to the same numbers. */
export interface SequenceTally {
  readonly samples: number
  /** By step: assemblies that reach it, that it damages, that it finally rejects. */
  readonly reached: Float64Array
  readonly spoiled: Float64Array
  readonly rejected: Float64Array
  /** By step: how often it is done, repeats included, and how often its check sends an assembly back. */
  readonly done: Float64Array
  readonly repeated: Float64Array
  /** Assemblies that pass all steps, and those of them within the loss limit. */
  readonly finished: number
  readonly good: number
  /** Loss of the finished ones, in the classes of a yield run. */
  readonly counts: Uint32Array
}

export function emptySequenceTally(steps: number): SequenceTally {
  return {
    samples: 0,
    reached: new Float64Array(steps),
    spoiled: new Float64Array(steps),
    rejected: new Float64Array(steps),
    done: new Float64Array(steps),
    repeated: new Float64Array(steps),
    finished: 0,
    good: 0,
    counts: new Uint32Array(CLASSES),
  }
}

function added<T extends Float64Array | Uint32Array>(a: T, b: T): T {
  const sum = a.slice() as T
  for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] ?? 0) + (b[i] ?? 0)
  return sum
}

export function addSequenceTallies(a: SequenceTally, b: SequenceTally): SequenceTally {
  return {
    samples: a.samples + b.samples,
    reached: added(a.reached, b.reached),
    spoiled: added(a.spoiled, b.spoiled),
    rejected: added(a.rejected, b.rejected),
    done: added(a.done, b.done),
    repeated: added(a.repeated, b.repeated),
    finished: a.finished + b.finished,
    good: a.good + b.good,
    counts: added(a.counts, b.counts),
  }
}

/** Points generated at a time. */
const CHUNK = 256

/** Turns the coordinates of what the steps set and move into deviations, of `count` points `stride` apart. */
function deviateSteps(steps: readonly CompiledStep[], points: Float64Array, count: number, stride: number) {
  for (const { sets, moves } of steps)
    for (const { deviate, coordinate } of [...sets, ...moves])
      deviate?.(points, coordinate, stride * count, stride)
}

const sampledValue = (
  { value, deviate, coordinate }: Write,
  deviations: Float64Array,
  from: number,
): number => (deviate === null ? value : value + (deviations[from + coordinate] as number))

/** Writes what a step sets and moves; the deviations of the assembly begin at `from`. */
function doStep(
  { sets, moves }: CompiledStep,
  deviations: Float64Array,
  from: number,
  values: Float64Array,
): void {
  for (let i = 0; i < sets.length; i++) {
    const write = sets[i] as Write
    values[write.slot] = sampledValue(write, deviations, from)
    if (write.clears >= 0) values[write.clears] = 0
  }
  for (let i = 0; i < moves.length; i++) {
    const write = moves[i] as Write
    values[write.slot] = (values[write.slot] as number) + sampledValue(write, deviations, from)
  }
}

/** Assemblies number `from` up to `to`. */
export function sequenceRange(
  { part, steps, moveSlots, dimensions }: CompiledSequence,
  seed: number,
  from: number,
  to: number,
): SequenceTally {
  const { limitDb } = part
  const inWork = part.start()
  const { values } = inWork
  const points = unitPoints('sobol', dimensions, seed)
  const chunk = new Float64Array(CHUNK * dimensions)
  const reached = new Float64Array(steps.length)
  const spoiled = new Float64Array(steps.length)
  const rejected = new Float64Array(steps.length)
  const done = new Float64Array(steps.length)
  const repeated = new Float64Array(steps.length)
  /** Repeats are sampled independently: another shift of the same sequence would be correlated with the rejected samples. */
  const again = new Float64Array(dimensions)
  const repeats: UnitPoints[] = []
  const triesOf = new Uint8Array(steps.length)
  const counts = new Uint32Array(CLASSES)
  let finished = 0
  let good = 0
  for (let index = from; index < to; index++) {
    const inChunk = (index - from) % CHUNK
    if (inChunk === 0) {
      const count = Math.min(CHUNK, to - index)
      points.fill(index, count, chunk)
      part.deviate(chunk, count, dimensions)
      deviateSteps(steps, chunk, count, dimensions)
    }
    let first = inChunk * dimensions
    inWork.begin(chunk, first)
    for (let i = 0; i < moveSlots.length; i++) values[moveSlots[i] ?? 0] = 0
    let alive = true
    let deviations = chunk
    let furthest = -1
    let tries = 0
    triesOf.fill(0)
    let known = Number.NaN // the loss as the values are now, at the temperature of assembly
    for (let s = 0; s < steps.length && alive; s++) {
      const step = steps[s] as CompiledStep
      if (s > furthest) {
        furthest = s
        reached[s] = (reached[s] ?? 0) + 1
      }
      done[s] = (done[s] ?? 0) + 1
      if (step.spoiledCoordinate >= 0 && (deviations[first + step.spoiledCoordinate] ?? 1) < step.spoiled) {
        spoiled[s] = (spoiled[s] ?? 0) + 1
        alive = false
      } else if (step.limitDb !== null) {
        if (Number.isNaN(known)) known = inWork.lossDb()
        const seen =
          step.uncertaintyCoordinate < 0
            ? known
            : known +
              step.uncertaintyDb * normalQuantile(deviations[first + step.uncertaintyCoordinate] ?? 0.5)
        if (seen <= step.limitDb) continue
        const { rework } = step
        if (rework !== null && (triesOf[s] ?? 0) < rework.repeats) {
          triesOf[s] = (triesOf[s] ?? 0) + 1
          repeated[s] = (repeated[s] ?? 0) + 1
          const source = repeats[tries] ?? unitPoints('random', dimensions, mix32(seed + 1 + tries))
          repeats[tries] = source
          tries++
          source.point(index, again)
          deviateSteps(steps, again, 1, dimensions)
          deviations = again
          first = 0
          for (let i = 0; i < rework.clears.length; i++) values[rework.clears[i] ?? 0] = 0
          known = Number.NaN
          s = rework.from - 1
        } else {
          rejected[s] = (rejected[s] ?? 0) + 1
          alive = false
        }
      } else if (step.sets.length + step.moves.length > 0) {
        doStep(step, deviations, first, values)
        known = Number.NaN
      }
    }
    if (!alive) continue
    if (Number.isNaN(known)) known = inWork.lossDb()
    // A check is made at the assembly temperature; a good part must work over the whole range.
    const worst = inWork.overRangeDb(known)
    finished++
    const lossClass = classOf(worst)
    counts[lossClass] = (counts[lossClass] ?? 0) + 1
    if (worst <= limitDb) good++
  }
  return {
    samples: Math.max(0, to - from),
    reached,
    spoiled,
    rejected,
    done,
    repeated,
    finished,
    good,
    counts,
  }
}
