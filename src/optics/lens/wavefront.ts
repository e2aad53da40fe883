// How far a lens is from a perfect one, judged by the wavefront that it forms from a mode.
//   quality = max over a, b of |sum P exp(i k0 (W - a - b r^2))|^2,  P the power of each ring, W its path difference
// The Strehl ratio of a pupil illuminated by the mode: 1 for a perfect lens. Defocus is removed, because the gap can be refocused.
//   rms = sqrt(sum P (W - a - b r^2)^2) at the least-squares a and b
// Source: M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 9.1 (from memory), with Gaussian weights. Micrometres.

import { minimiseBrent } from '../../numerics/minimise'
import type { RingField } from './collimatedField'

export interface WavefrontQuality {
  /** Gaussian-weighted Strehl ratio at best focus, 0 to 1. */
  readonly strehl: number
  readonly rmsUm: number
}

export function wavefrontQuality(field: RingField, wavelengthUm: number): WavefrontQuality {
  const { radiusUm, errorUm, power, beamRadiusUm } = field
  let [s0, s1, s2, t0, t1] = [0, 0, 0, 0, 0]
  const square = radiusUm.map((r) => (r / beamRadiusUm) ** 2)
  for (let i = 0; i < radiusUm.length; i++) {
    const p = power[i] as number
    const x = square[i] as number
    s0 += p
    s1 += p * x
    s2 += p * x * x
    t0 += p * (errorUm[i] as number)
    t1 += p * x * (errorUm[i] as number)
  }
  const below = s0 * s2 - s1 * s1
  const bend = below > 0 ? (s0 * t1 - s1 * t0) / below : 0
  const level = s0 > 0 ? (t0 - bend * s1) / s0 : 0
  let left = 0
  for (let i = 0; i < radiusUm.length; i++) {
    left += (power[i] as number) * ((errorUm[i] as number) - level - bend * (square[i] as number)) ** 2
  }
  const rmsUm = Math.sqrt(left / Math.max(s0, Number.MIN_VALUE))
  const k0 = (2 * Math.PI) / wavelengthUm
  const strehlAt = (b: number) => {
    let [re, im] = [0, 0]
    for (let i = 0; i < radiusUm.length; i++) {
      const phase = k0 * ((errorUm[i] as number) - b * (square[i] as number))
      re += (power[i] as number) * Math.cos(phase)
      im += (power[i] as number) * Math.sin(phase)
    }
    return (re * re + im * im) / (s0 * s0)
  }
  const reach = Math.abs(bend) + 0.1 * wavelengthUm
  const best = minimiseBrent((b) => -strehlAt(b), bend - reach, bend + reach, { tolerance: 1e-5 })
  return { strehl: Math.min(1, -best.value), rmsUm }
}
