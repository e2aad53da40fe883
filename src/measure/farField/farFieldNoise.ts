// How the noise of the points reaches the far-field integral. Both integrals are sums over the points, and floor and
// shape follow the points through the fit, so that all of it propagates linearly (JCGM 100:2008, eq. 10).

import { type NoiseModel, noiseSigma } from '../fit/noiseModel'
import type { OrderedScan } from '../fit/orderedScan'
import type { FarFieldFit } from './farFieldFit'
import { type PetermannIntegrals, petermann2MfdUm } from './petermannIntegral'

/** Relative change of the diameter with each power of the scan, floor and shape held. */
export function integralSlopes(
  { at }: OrderedScan,
  axisRad: number,
  limitRad: number,
  whole: PetermannIntegrals,
): Float64Array {
  return at.map((here, i) => {
    const angle = Math.abs(here - axisRad)
    if (angle > limitRad) return 0
    const width = ((at[i + 1] ?? here) - (at[i - 1] ?? here)) / 2
    const s = Math.sin(angle)
    const weight = s * Math.cos(angle) * width
    return (weight / whole.power - (weight * s * s) / whole.moment) / 2
  })
}

/** Standard uncertainty of what changes by `slopes` with each power. */
export function noiseThrough(slopes: Float64Array, { power }: OrderedScan, noise: NoiseModel): number {
  let variance = 0
  for (let i = 0; i < slopes.length; i++) {
    variance += ((slopes[i] as number) * noiseSigma(noise, Math.max(0, power[i] as number))) ** 2
  }
  return Math.sqrt(variance)
}

/** The diameter after lowering the floor that was subtracted from both sides by `extra`. */
export function withFloorLowered(
  whole: PetermannIntegrals,
  limitRad: number,
  extra: number,
  wavelengthUm: number,
): number {
  const s2 = Math.sin(limitRad) ** 2
  return petermann2MfdUm(
    { power: whole.power + extra * s2, moment: whole.moment + (extra * s2 * s2) / 2 },
    wavelengthUm,
  )
}

/** Scan less fitted shape and floor. */
export function fittedResiduals({ at, power }: OrderedScan, fit: FarFieldFit): Float64Array {
  return power.map(
    (value, i) =>
      value -
      fit.floorPower -
      fit.peakPower * fit.intensity(Math.abs(Math.sin((at[i] as number) - fit.axisRad))),
  )
}
