// Lifetime: the exposure of a stress test, the laws of time that its readings may be extrapolated by, and their limits.

import { countText, plainText, rounded } from '../../numerics/numberText'

/** Exposure of a stress test: hours under stress, or cycles. */
export const EXPOSURE_UNITS = ['h', 'cycles'] as const
export type ExposureUnit = (typeof EXPOSURE_UNITS)[number]

export const DRIFT_LAWS = ['linear', 'square root', 'logarithmic'] as const
export type DriftLaw = (typeof DRIFT_LAWS)[number]

export const HOURS_PER_YEAR = 8766

export const LIFETIME_LIMITS = {
  exposure: [0, 1e9],
  serviceYears: [0.001, 200],
  serviceCycles: [1, 1e9],
  activationEnergyEv: [0.01, 3],
  temperatureC: [-200, 400],
  swingC: [1, 500],
  exponent: [0.5, 12],
  basisCharacters: 500,
} as const

/** Service assumed until one is entered: common practice, no source. */
export const USUAL_SERVICE = { years: 20, cycles: 1000 } as const

/** Name and form of each law, as they are on screen and paper. */
export const LAW_TEXTS: Readonly<
  Record<DriftLaw, { readonly label: string; readonly name: string; readonly form: string }>
> = {
  linear: { label: 'Linear', name: 'linear law', form: 't' },
  'square root': { label: 'Square root', name: 'square-root law', form: '√t' },
  logarithmic: { label: 'Logarithmic', name: 'logarithmic law', form: 'log₁₀(1 + t / t₁)' },
}

const GROUPED_FROM = 1000

/** An exposure or a service with its unit, as it is read: "2,000 h". */
export function exposureText(value: number, unit: ExposureUnit): string {
  const number =
    value >= GROUPED_FROM && value < 1e9 ? countText(Math.round(rounded(value, 3))) : plainText(value, 3)
  return `${number} ${unit}`
}
