// A percentile by direct sums, without summing every sample: those whose fitted loss lies near it decide it, since a sample far from it stays
// on its side however far the fit is off. How far samples must be summed is read from what the sums find.

import type { Steps } from '../../numerics/steps'

/** Samples to either side of a rank that are summed in any case, and at most. */
const LEAST_HALF = 32
const MOST_HALF = 512
/** Samples further from the percentile than this many times the root mean square of what the fit misses are left to the fit. */
const FAR = 4

/**
 * Replaces the fitted losses around each rank by direct ones, in steps; returns how many were summed. `above` are ranks, counted from
 * the largest loss, 0. A sample as far from the percentile as FAR times the error of the fit near it, or MOST_HALF ranks, stays fitted.
 */
export function* decideDirectly(
  lossesDb: Float64Array,
  directDb: (i: number) => number,
  above: readonly number[],
): Steps<number> {
  const fitted = Float64Array.from(lossesDb)
  const order = Uint32Array.from(fitted, (_, i) => i).sort(
    (a, b) => (fitted[b] as number) - (fitted[a] as number),
  )
  const last = order.length - 1
  const isSummed = new Uint8Array(order.length)
  let summed = 0
  let squares = 0
  const isFar = (rank: number, half: number): boolean => {
    const sorted = Float64Array.from(lossesDb).sort()
    const percentileDb = sorted[last - rank] as number
    const missedDb = FAR * Math.sqrt(squares / Math.max(1, summed))
    const [worse, better] = [rank - half, rank + half]
    return (
      (worse < 0 || (fitted[order[worse] as number] as number) - missedDb >= percentileDb) &&
      (better > last || (fitted[order[better] as number] as number) + missedDb <= percentileDb)
    )
  }
  for (const [k, rank] of above.entries()) {
    for (let half = LEAST_HALF; half <= MOST_HALF; half *= 2) {
      for (let at = Math.max(0, rank - half); at <= Math.min(last, rank + half); at++) {
        const i = order[at] as number
        if (isSummed[i] === 1) continue
        isSummed[i] = 1
        summed++
        lossesDb[i] = directDb(i)
        squares += ((lossesDb[i] as number) - (fitted[i] as number)) ** 2
        yield (k + half / (2 * MOST_HALF)) / above.length
      }
      if (isFar(rank, half)) break
    }
  }
  return summed
}
