// The loss that a share of simulated assemblies stays at or below.

/** Losses above this are treated as this, dB: a few dark assemblies must not make all of a spread or a ranking. */
export const LOSS_CEILING_DB = 64

/** A loss as it enters a percentile or a ranking: at most the ceiling, also where the light is not known. */
export const cappedLossDb = (lossDb: number): number =>
  Number.isNaN(lossDb) ? LOSS_CEILING_DB : Math.min(LOSS_CEILING_DB, lossDb)

/** By the rank of the losses; `share` from 0 to 1. Losses without light count at the ceiling. */
export function lossAtShare(losses: Float64Array, share: number): number {
  const sorted = losses.map(cappedLossDb).sort()
  return (
    sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))] ?? LOSS_CEILING_DB
  )
}
