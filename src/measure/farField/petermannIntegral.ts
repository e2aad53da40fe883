// The standard's two integrals over a far-field scan.
//   2w = (λ √2 / π) · [ ∫ F² sin θ cos θ dθ / ∫ F² sin³θ cos θ dθ ]^½
// Source: ITU-T G.650.1 / IEC 60793-1-45 method A / TIA-455-191 (from memory; numbers confirmed). Without an obliquity
// factor: R. C. Wittmann and M. Young, Symp. on Optical Fiber Measurements (1998).

const SIMPSON_PANELS = 2000

export interface PetermannIntegrals {
  /** ∫ F² sin θ cos θ dθ */
  readonly power: number
  /** ∫ F² sin³θ cos θ dθ */
  readonly moment: number
}

/** Both integrals of `intensity(θ)` from 0 to `limitRad` by Simpson's rule. */
export function petermannIntegrals(
  intensity: (angleRad: number) => number,
  limitRad: number,
): PetermannIntegrals {
  const step = limitRad / SIMPSON_PANELS
  let power = 0
  let moment = 0
  for (let i = 0; i <= SIMPSON_PANELS; i++) {
    const angle = i * step
    const s = Math.sin(angle)
    const weight = i === 0 || i === SIMPSON_PANELS ? 1 : i % 2 === 1 ? 4 : 2
    const part = weight * intensity(angle) * s * Math.cos(angle)
    power += part
    moment += part * s * s
  }
  return { power: (power * step) / 3, moment: (moment * step) / 3 }
}

/** Petermann II mode-field diameter from the integrals; NaN if either is not above zero. */
export function petermann2MfdUm({ power, moment }: PetermannIntegrals, wavelengthUm: number): number {
  return ((wavelengthUm * Math.SQRT2) / Math.PI) * Math.sqrt(power / moment)
}
