// The record of the samples: counts in fine classes of loss, so that memory does not grow with the number of samples
// and tallies of any workers add up to the same integers in any order.

import { NO_LIGHT_DB } from '../../optics/index'

export const CLASSES_PER_DB = 2000
/** Losses from here on are resolved to a tenth of a dB only, and from NO_LIGHT_DB on not at all. */
const FINE_UP_TO_DB = 64
export const FINE_CLASSES = CLASSES_PER_DB * FINE_UP_TO_DB
const COARSE_PER_DB = 10
export const CLASSES = FINE_CLASSES + COARSE_PER_DB * (NO_LIGHT_DB - FINE_UP_TO_DB) + 1
export const WORST_KEPT = 20
/** Samples of one block: the unit of work, of progress and of sums. */
export const BLOCK_SAMPLES = 4096

export interface WorstSample {
  readonly index: number
  readonly lossDb: number
}

/** Sums of one block; kept by block, so that adding them up in order gives the same last bits on any workers. */
interface BlockSums {
  readonly block: number
  readonly samples: number
  readonly sumDb: number
  readonly sumSquaresDb2: number
}

export interface Tally {
  readonly counts: Uint32Array
  readonly passed: number
  readonly samples: number
  readonly leastDb: number
  readonly greatestDb: number
  readonly worst: readonly WorstSample[]
  readonly blocks: readonly BlockSums[]
}

export function emptyTally(): Tally {
  return {
    counts: new Uint32Array(CLASSES),
    passed: 0,
    samples: 0,
    leastDb: Number.POSITIVE_INFINITY,
    greatestDb: Number.NEGATIVE_INFINITY,
    worst: [],
    blocks: [],
  }
}

export function classOf(lossDb: number): number {
  if (!(lossDb < NO_LIGHT_DB)) return CLASSES - 1
  if (lossDb >= FINE_UP_TO_DB) return FINE_CLASSES + Math.floor((lossDb - FINE_UP_TO_DB) * COARSE_PER_DB)
  return lossDb <= 0 ? 0 : Math.floor(lossDb * CLASSES_PER_DB)
}

/** The loss at a place in the classes: whole numbers are the lower edges. */
function lossAtClass(lossClass: number): number {
  return lossClass < FINE_CLASSES
    ? lossClass / CLASSES_PER_DB
    : Math.min(NO_LIGHT_DB, FINE_UP_TO_DB + (lossClass - FINE_CLASSES) / COARSE_PER_DB)
}

/** Worst first; equal losses by their number, so that the order does not depend on who counted. */
export function worstOf(samples: readonly WorstSample[]): readonly WorstSample[] {
  return [...samples].sort((a, b) => b.lossDb - a.lossDb || a.index - b.index).slice(0, WORST_KEPT)
}

/** Both tallies together; they must not share a block. */
export function addTallies(a: Tally, b: Tally): Tally {
  const counts = Uint32Array.from(a.counts)
  for (let i = 0; i < counts.length; i++) counts[i] = (counts[i] ?? 0) + (b.counts[i] ?? 0)
  return {
    counts,
    passed: a.passed + b.passed,
    samples: a.samples + b.samples,
    leastDb: Math.min(a.leastDb, b.leastDb),
    greatestDb: Math.max(a.greatestDb, b.greatestDb),
    worst: worstOf([...a.worst, ...b.worst]),
    blocks: [...a.blocks, ...b.blocks].sort((x, y) => x.block - y.block),
  }
}

/** Loss that a share `p` of the samples stays at or below; NO_LIGHT_DB at most. Linear within a class. */
export function tallyQuantile(tally: Tally, p: number): number {
  const wanted = p * tally.samples
  let below = 0
  for (let i = 0; i < CLASSES; i++) {
    const here = tally.counts[i] ?? 0
    if (here > 0 && below + here >= wanted) {
      const loss = lossAtClass(i + (wanted - below) / here)
      return Math.min(tally.greatestDb, Math.max(tally.leastDb, loss))
    }
    below += here
  }
  return tally.greatestDb
}

/** All tallies together. */
export function addAll(tallies: readonly Tally[]): Tally {
  return tallies.reduce(addTallies, emptyTally())
}
