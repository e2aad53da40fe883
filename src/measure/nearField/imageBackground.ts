// The dark level of a beam image and its noise, from the pixels that the beam does not reach.

import { mean, median, robustDeviation } from '../../numerics/statistics'
import { type ImageView, type Moments, principalWidths } from './imageMoments'

export interface Background {
  readonly level: number
  /** Standard deviation from pixel to pixel. */
  readonly noise: number
  /** Pixels that were averaged. */
  readonly pixelCount: number
  /** Share of the pixels that were looked at. */
  readonly sampled: number
  /** True where more than half of them are one and the same whole count: rounding exceeds the noise of the detector. */
  readonly isRounded: boolean
  /** Of them, those at exactly zero. */
  readonly zeroShare: number
}

const FRAME = 0.04
const MOST_SAMPLES = 50_000

/** First guess: the median of a frame along the image's border. */
export function frameBackground(image: ImageView): Background {
  const { width, height } = image
  const border = Math.max(1, Math.round(FRAME * Math.min(width, height)))
  return summary(image, (x, y) => x < border || y < border || x >= width - border || y >= height - border)
}

/** All pixels outside an ellipse `scale` beam widths wide, less those far off the rest (hot pixels, dust). */
export function backgroundOutside(image: ImageView, beam: Moments, scale: number): Background {
  const axes = principalWidths(beam.xx, beam.yy, beam.xy)
  const cos = Math.cos(axes.azimuthRad)
  const sin = Math.sin(axes.azimuthRad)
  const major = (scale * axes.major) / 2
  const minor = (scale * axes.minor) / 2
  return summary(image, (x, y) => {
    const dx = x - beam.x
    const dy = y - beam.y
    return ((cos * dx + sin * dy) / major) ** 2 + ((cos * dy - sin * dx) / minor) ** 2 > 1
  })
}

function summary(image: ImageView, chosen: (x: number, y: number) => boolean): Background {
  const { pixels, width, height } = image
  const stride = Math.max(1, Math.floor((width * height) / MOST_SAMPLES))
  const values: number[] = []
  for (let i = 0; i < width * height; i += stride) {
    if (chosen(i % width, Math.floor(i / width))) values.push(pixels[i] as number)
  }
  const sampled = 1 / stride
  if (values.length === 0)
    return { level: 0, noise: 0, pixelCount: 0, sampled, isRounded: false, zeroShare: 0 }
  const middle = median(values)
  const spread = robustDeviation(values)
  // Whole counts can leave a spread of zero; then nothing is treated as an outlier.
  const kept = spread > 0 ? values.filter((value) => Math.abs(value - middle) <= 5 * spread) : values
  const zeroShare = values.reduce((count, value) => count + (value === 0 ? 1 : 0), 0) / values.length
  // One count and its neighbours: noise that a camera cuts off at zero leaves as many equal pixels, and a long tail.
  const near = values.reduce((count, value) => count + (Math.abs(value - middle) <= 1 ? 1 : 0), 0)
  const isRounded = spread === 0 && near > 0.9 * values.length && values.every(Number.isInteger)
  const pixelCount = kept.length
  return { level: mean(kept), noise: spread, pixelCount, sampled, isRounded, zeroShare }
}
