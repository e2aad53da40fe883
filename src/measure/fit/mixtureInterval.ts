// The interval of a value for which several explanations of the readings remain possible.
//   P(|θ − θ₀| ≤ U) = Σ w [F((U − δ) / u) + F((U + δ) / u) − 1],   δ = θ_m − θ₀
// U is the half width at which this reaches the coverage. Twice the root of the mean variance, which it replaces, is too wide where one
// unlikely explanation is far less certain than the others, and too narrow where two of about the same weight are.
// Source: the posterior distribution averaged over models, J. A. Hoeting et al., Stat. Sci. 14 (1999) 382, eq. (1); coverage as the
// probability of an interval, JCGM 101:2008, 7.7.

export interface Explained {
  /** Of this explanation, relative to those of the others. */
  readonly weight: number
  /** Its value less the stated one. */
  readonly offset: number
  /** Standard uncertainty if this explanation is the true one, above 0. */
  readonly standard: number
}

/** Explanations of less weight than this cannot be seen in the coverage. */
const LEAST_WEIGHT = 1e-5
const RELATIVE_TOLERANCE = 1e-6

/** Half width of the interval about the stated value that holds `coverage`; `probability` is F, symmetrical about 0. */
export function mixtureHalfWidth(
  explained: readonly Explained[],
  coverage: number,
  probability: (z: number) => number,
): number {
  const whole = explained.reduce((sum, { weight }) => sum + weight, 0)
  const parts = explained.filter(({ weight }) => weight > LEAST_WEIGHT * whole)
  const total = parts.reduce((sum, { weight }) => sum + weight, 0)
  const held = (half: number) => {
    let sum = 0
    for (const { weight, offset, standard } of parts) {
      sum += weight * (probability((half - offset) / standard) + probability((half + offset) / standard) - 1)
    }
    return sum / total
  }
  let low = 0
  let high = Math.max(...parts.map(({ offset, standard }) => Math.abs(offset) + standard))
  while (held(high) < coverage) [low, high] = [high, 2 * high]
  while (high - low > RELATIVE_TOLERANCE * high) {
    const middle = (low + high) / 2
    if (held(middle) < coverage) low = middle
    else high = middle
  }
  return high
}
