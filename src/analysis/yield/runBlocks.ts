// The Monte Carlo itself: blocks of samples, each a function of the seed and its number alone.

import { type PointKind, type UnitPoints, unitPoints } from '../../numerics/random/unitPoints'
import { atMostNoLight } from '../../optics/index'
import { lossColumn } from '../path/lossColumn'
import { columnsFor } from '../path/vector/columns'
import type { Assembly } from './assembly'
import { BLOCK_SAMPLES, CLASSES, classOf, type Tally, WORST_KEPT, worstOf } from './tally'

export interface SamplingOptions {
  readonly samples: number
  readonly seed: number
  readonly method: PointKind
}

function pointsOf(assembly: Assembly, { seed, method }: SamplingOptions): UnitPoints {
  return unitPoints(method, Math.max(1, assembly.draws.slots.length), seed)
}

/** Samples whose points are made together: few enough to stay in the processor's cache. A block holds whole chunks. */
const CHUNK = 256

/** Number of blocks that hold so many samples; the last may be shorter. */
export function blocksOf(samples: number): number {
  return Math.ceil(samples / BLOCK_SAMPLES)
}

/** Values of sample number `index`: the assembly that a worst sample names. */
export function sampleValues(assembly: Assembly, options: SamplingOptions, index: number): Float64Array {
  const point = new Float64Array(Math.max(1, assembly.draws.slots.length))
  pointsOf(assembly, options).point(index, point)
  const values = Float64Array.from(assembly.compiled.nominal)
  assembly.draws.apply(point, values)
  return values
}

/** Limits the first `count` losses to those that are told apart, and counts them. */
function countLosses(losses: Float64Array, count: number, counts: Uint32Array): void {
  for (let i = 0; i < count; i++) {
    const loss = atMostNoLight(losses[i] as number)
    losses[i] = loss
    const lossClass = classOf(loss)
    counts[lossClass] = (counts[lossClass] as number) + 1
  }
}

/** Tally of the blocks from `first` up to, not including, `end`. */
export function runBlocks(assembly: Assembly, options: SamplingOptions, first: number, end: number): Tally {
  const { draws, lossDb, limitDb, compiled, asBuilt } = assembly
  const points = pointsOf(assembly, options)
  const columns = columnsFor(draws.slots, compiled.nominal, CHUNK)
  const losses = asBuilt ? lossColumn(compiled, columns) : columns.columnOf(lossDb)
  const counts = new Uint32Array(CLASSES)
  const blocks: Tally['blocks'][number][] = []
  let worst: Tally['worst'] = []
  let passed = 0
  let samples = 0
  let leastDb = Number.POSITIVE_INFINITY
  let greatestDb = Number.NEGATIVE_INFINITY
  let notWorstDb = Number.NEGATIVE_INFINITY
  for (let block = first; block < end; block++) {
    const from = block * BLOCK_SAMPLES
    const to = Math.min(options.samples, from + BLOCK_SAMPLES)
    let sumDb = 0
    let sumSquaresDb2 = 0
    for (let start = from; start < to; start += CHUNK) {
      const count = Math.min(CHUNK, to - start)
      if (draws.slots.length > 0) points.fill(start, count, columns.sampled, 1, CHUNK)
      draws.fill(count, columns)
      const found = losses()
      countLosses(found, count, counts)
      for (let i = 0; i < count; i++) {
        const loss = found[i] as number
        if (loss <= limitDb) passed++
        if (loss < leastDb) leastDb = loss
        if (loss > greatestDb) greatestDb = loss
        if (loss > notWorstDb) {
          worst = worstOf([...worst, { index: start + i, lossDb: loss }])
          if (worst.length === WORST_KEPT) notWorstDb = worst[WORST_KEPT - 1]?.lossDb ?? notWorstDb
        }
        sumDb += loss
        sumSquaresDb2 += loss * loss
      }
    }
    samples += to - from
    blocks.push({ block, samples: to - from, sumDb, sumSquaresDb2 })
  }
  return { counts, passed, samples, leastDb, greatestDb, worst, blocks }
}
