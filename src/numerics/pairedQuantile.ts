// How far a quantile falls from one sample to another that was made from the same points, and how well that is known. Both
// quantiles are means of the ordered values, weighted about the rank, so that a change that every value shows is averaged over
// those near the quantile and not read from a single one.
// Sources: F. E. Harrell and C. E. Davis, Biometrika 69 (1982) 635 (weights of the ordered values); standard error by the jackknife
// that leaves out one group at a time, e.g. J. Shao and D. Tu, The Jackknife and Bootstrap (1995), sect. 2.3 (both from memory).

import { InputError, requireInRange } from './inputError'
import { incompleteBeta } from './statistics'

interface QuantileFall {
  /** Quantile before less quantile after. */
  readonly fall: number
  readonly standardError: number
}

const MOST_GROUPS = 16
/** Weights below this are omitted. */
const SLIGHT = 1e-12

interface Weights {
  /** Rank of the first weight. */
  readonly from: number
  readonly of: Float64Array
}

/** Probabilities that the wanted ordered value of `count` has each rank: increments of I_x((n + 1) p, (n + 1)(1 − p)). */
function weightsOf(count: number, share: number): Weights {
  const a = (count + 1) * share
  const b = (count + 1) * (1 - share)
  const all = new Float64Array(count)
  let before = 0
  for (let i = 0; i < count; i++) {
    const upTo = incompleteBeta((i + 1) / count, a, b)
    all[i] = upTo - before
    before = upTo
  }
  const from = all.findIndex((each) => each > SLIGHT)
  const to = all.findLastIndex((each) => each > SLIGHT)
  return { from, of: all.subarray(from, to + 1) }
}

/** Places of the values, smallest first. */
function orderOf(values: Float64Array): Uint32Array {
  const indices = Uint32Array.from(values, (_, i) => i)
  return indices.sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0))
}

/** The weighted quantile without the places from `skipFrom` to `skipTo`. */
function quantileOf(
  values: Float64Array,
  order: Uint32Array,
  { from, of }: Weights,
  skipFrom: number,
  skipTo: number,
): number {
  let rank = 0
  let sum = 0
  for (let i = 0; i < order.length && rank < from + of.length; i++) {
    const index = order[i] ?? 0
    if (index >= skipFrom && index < skipTo) continue
    if (rank >= from) sum += (of[rank - from] ?? 0) * (values[index] ?? 0)
    rank++
  }
  return sum
}

/**
 * Compares a sample with others in which value i belongs to the same point: how far the `share` quantile (0 to 1, both excluded)
 * falls. Neighbouring places should be as different as any, as those of a low-discrepancy sequence are. InputError for no value,
 * and for a sample of another length. The error of a single value is infinite.
 */
export function pairedQuantile(before: Float64Array, share: number): (after: Float64Array) => QuantileFall {
  const count = before.length
  if (count < 1) throw new InputError('values', count, 'at least 1')
  requireInRange('share', share, 1e-6, 1 - 1e-6)
  const parts = count < 2 ? 0 : Math.min(MOST_GROUPS, count)
  const edges = Array.from({ length: parts + 1 }, (_, g) => Math.round((g * count) / parts))
  const whole = weightsOf(count, share)
  const left = new Map<number, Weights>()
  const weightsWithout = (size: number): Weights => {
    const known = left.get(size) ?? weightsOf(count - size, share)
    left.set(size, known)
    return known
  }
  const groups = edges.slice(1).map((to, g) => ({ from: edges[g] ?? 0, to }))
  const quantiles = (values: Float64Array) => {
    const order = orderOf(values)
    return {
      whole: quantileOf(values, order, whole, 0, 0),
      without: groups.map(({ from, to }) => quantileOf(values, order, weightsWithout(to - from), from, to)),
    }
  }
  const old = quantiles(before)
  return (after) => {
    if (after.length !== count) throw new InputError('values', after.length, `${count}, as before`)
    const now = quantiles(after)
    const falls = old.without.map((each, g) => each - (now.without[g] ?? 0))
    const mean = falls.reduce((sum, each) => sum + each, 0) / parts
    const squares = falls.reduce((sum, each) => sum + (each - mean) ** 2, 0)
    return {
      fall: old.whole - now.whole,
      standardError: parts === 0 ? Number.POSITIVE_INFINITY : Math.sqrt((squares * (parts - 1)) / parts),
    }
  }
}
