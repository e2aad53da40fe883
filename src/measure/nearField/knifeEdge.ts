// Knife-edge widths of an image: how far an edge travels between two shares of the power.
//   Gaussian of 1/e² radius w: 10–90 % is 1.281552 w, 16–84 % is 0.994458 w, 20–80 % is 0.841621 w
// Source: error function; travels of other beams give other factors, so these widths are a check in addition to D4σ.

import { InputError } from '../../numerics/inputError'
import type { ImageInput, SecondMomentResult } from './secondMomentWidths'

/** Travel over w for a Gaussian: twice Φ⁻¹(upper share) / 2. */
export const KNIFE_EDGE_FACTORS = {
  '10-90': 1.2815515655446004,
  '16-84': 0.994457883209753,
  '20-80': 0.8416212335729143,
} as const
export type KnifeEdgeClip = keyof typeof KNIFE_EDGE_FACTORS

export interface KnifeEdgeWidth {
  readonly clip: KnifeEdgeClip
  readonly travelUm: number
  /** 2w of the Gaussian with that travel. */
  readonly mfdUm: number
}

/** Width along a direction (rad from x towards y), over an aperture three widths long centred on the centroid. */
export function knifeEdgeWidth(
  input: ImageInput,
  moments: SecondMomentResult,
  directionRad: number,
  clip: KnifeEdgeClip = '16-84',
): KnifeEdgeWidth {
  const { pixels, width, height, pixelUm } = input
  const cos = Math.cos(directionRad)
  const sin = Math.sin(directionRad)
  const cx = moments.centroidXUm / pixelUm
  const cy = moments.centroidYUm / pixelUm
  const half = (1.5 * moments.majorUm) / pixelUm
  // Pixels are shared between neighbouring bins a quarter of a pixel wide.
  const perPixel = 4
  const bins = new Float64Array(2 * Math.ceil(half * perPixel) + 3)
  const zero = (bins.length - 1) / 2
  for (let y = Math.max(0, Math.ceil(cy - half)); y <= Math.min(height - 1, cy + half); y++) {
    for (let x = Math.max(0, Math.ceil(cx - half)); x <= Math.min(width - 1, cx + half); x++) {
      const at = (cos * (x - cx) + sin * (y - cy)) * perPixel + zero
      const low = Math.floor(at)
      if (low < 0 || low >= bins.length - 1) continue
      const value = (pixels[y * width + x] as number) - moments.background
      bins[low] = (bins[low] as number) + value * (low + 1 - at)
      bins[low + 1] = (bins[low + 1] ?? 0) + value * (at - low)
    }
  }
  const share = Number(clip.slice(0, 2)) / 100
  const from = passing(bins, share)
  const to = passing(bins, 1 - share)
  if (from === null || to === null)
    throw new InputError(
      'net power of the image',
      'zero or negative',
      'positive, with a beam above the background',
    )
  const travelUm = ((to - from) / perPixel) * pixelUm
  return { clip, travelUm, mfdUm: (2 * travelUm) / KNIFE_EDGE_FACTORS[clip] }
}

/** The place, in bins, where the running sum passes `share` of the total. */
function passing(bins: Float64Array, share: number): number | null {
  const total = bins.reduce((sum, value) => sum + value, 0)
  if (!(total > 0)) return null
  let sum = 0
  for (let i = 0; i < bins.length; i++) {
    const value = bins[i] as number
    if (sum + value >= share * total && value > 0) return i - 0.5 + (share * total - sum) / value
    sum += value
  }
  return null
}
