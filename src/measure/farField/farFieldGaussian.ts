// The Gaussian that a far field overlaps best: the per-axis value where a mode is not circular.
//   maximise ( ∫ |F| g s ds )² / ∫ g² s ds,   g = exp(−(s/s0)²),   s = |sin θ|,   MFD = 2 λ / (π s0)
// Both integrals run to the angle where the power is 30 dB down, so that an exact Gaussian returns itself.
// For a circular mode this is the Gaussian of least splice loss (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703),
// since overlap is the same in the near and the far field; for an elliptical Gaussian it is exact along each axis.

import { minimiseBrent } from '../../numerics/minimise'

/** Below this share of the peak the field is omitted: its sign beyond the first null cannot be seen. */
const LEAST_SHARE = 1e-3
const SIMPSON_PANELS = 400

/** `intensity` over angle from the axis, floor-free, mean of both sides; `firstGuess` of s0 within a factor 3. */
export function bestGaussianS0(
  intensity: (angleRad: number) => number,
  peak: number,
  limitRad: number,
  firstGuess: number,
): number {
  const s = new Float64Array(SIMPSON_PANELS + 1)
  const field = new Float64Array(SIMPSON_PANELS + 1)
  let reach = 0
  for (let i = 0; i <= SIMPSON_PANELS; i++) {
    const value = intensity((i / SIMPSON_PANELS) * limitRad)
    if (value < LEAST_SHARE * peak) break
    reach = (i / SIMPSON_PANELS) * limitRad
  }
  for (let i = 0; i <= SIMPSON_PANELS; i++) {
    const angle = (i / SIMPSON_PANELS) * reach
    const weight = i === 0 || i === SIMPSON_PANELS ? 1 : i % 2 === 1 ? 4 : 2
    s[i] = Math.sin(angle)
    field[i] = weight * Math.sqrt(Math.max(0, intensity(angle))) * Math.sin(angle) * Math.cos(angle)
  }
  const loss = (s0: number) => {
    let sum = 0
    for (let i = 0; i <= SIMPSON_PANELS; i++)
      sum += (field[i] as number) * Math.exp(-(((s[i] as number) / s0) ** 2))
    return -(sum * sum) / (s0 * s0 * (1 - Math.exp(-2 * (Math.sin(reach) / s0) ** 2)))
  }
  return minimiseBrent(loss, firstGuess / 3, firstGuess * 3).x
}
