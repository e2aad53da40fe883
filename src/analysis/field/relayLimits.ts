// The highest loss of a pose for which sums through the real lenses of a relay are used.

/**
 * Losses of the Gaussian joint, dB, up to which sums through real lenses are resolved, and from which on a relay is Gaussian. Finer sums
 * move the losses of strongly aberrated relays by a quarter of a dB at 17 dB, by 1 dB at 20 dB, and by 10 dB at 28 dB.
 */
export const RELAY_RESOLVED_DB = 15
export const RELAY_GAUSSIAN_DB = 20

/** Weight of the real lenses in a pose with this Gaussian loss, 0 to 1. */
export function realLensShare(gaussianDb: number): number {
  const share = (RELAY_GAUSSIAN_DB - gaussianDb) / (RELAY_GAUSSIAN_DB - RELAY_RESOLVED_DB)
  return Math.max(0, Math.min(1, share))
}
