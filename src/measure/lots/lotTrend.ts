// Whether the losses of a lot go up or down from assembly to assembly: a straight line by least squares through the means of the assemblies
// in their order. Where whole batches follow one another, the steps between them are no drift of their own: the line then goes
// through the means of the batches, whose scatter gives its interval (summary measures of clusters, e.g. W. G. Cochran,
// Sampling Techniques, 3rd ed. (1977), chapter 9, from memory).

import { mean, studentT } from '../../numerics/statistics'

export interface LotTrend {
  /** dB from one assembly to the next. */
  readonly slope: number
  /** Half width of the 95 % interval; null where two batches cannot be told from a drift. */
  readonly slopePlusMinus: number | null
  readonly from: 'batches' | 'assemblies'
}

/** Means of assemblies in their order, at least three, and the batch of each; null for batches that are not known. */
export function lotTrend(values: readonly number[], batches: readonly number[] | null): LotTrend {
  const groups = batches === null ? null : consecutive(values, batches)
  if (groups === null) {
    const { slope, plusMinus } = line(values.map((value, at) => ({ at, value })))
    return { slope, slopePlusMinus: plusMinus, from: 'assemblies' }
  }
  const { slope, plusMinus } = line(groups)
  return { slope, slopePlusMinus: plusMinus, from: 'batches' }
}

interface Point {
  readonly at: number
  readonly value: number
}

/** Middle and mean of each batch; null for a single one, and where a batch comes back after another. */
function consecutive(values: readonly number[], batches: readonly number[]): readonly Point[] | null {
  const starts = values.flatMap((_, i) => (i === 0 || batches[i] !== batches[i - 1] ? [i] : []))
  if (starts.length < 2 || starts.length > new Set(batches).size || starts.length === values.length)
    return null
  return starts.map((from, i) => {
    const to = starts[i + 1] ?? values.length
    return { at: (from + to - 1) / 2, value: mean(values.slice(from, to)) }
  })
}

function line(points: readonly Point[]): { readonly slope: number; readonly plusMinus: number | null } {
  const middle = mean(points.map(({ at }) => at))
  const centre = mean(points.map(({ value }) => value))
  let [squares, products] = [0, 0]
  for (const { at, value } of points) {
    squares += (at - middle) ** 2
    products += (at - middle) * (value - centre)
  }
  const slope = products / squares
  const free = points.length - 2
  if (free < 1) return { slope, plusMinus: null }
  const left = points.reduce((sum, { at, value }) => sum + (value - centre - slope * (at - middle)) ** 2, 0)
  return { slope, plusMinus: studentT(0.95, free) * Math.sqrt(left / free / squares) }
}
