// Whether the background of a beam image is level. A plane through the pixels outside the beam is subtracted where it is
// seen; what is then left uneven, from sector to sector around the beam or as a skirt close to it, is an uncertainty of the
// level beneath the beam, which second moments weigh with the square of the distance. Chance alone leaves some of it in a level
// background: the square is taken times the probability that it is real, with the weights of Schwarz's criterion.
//   w = 1 / (1 + n^(1/2) exp(−Λ/2)),   Λ = z² of the ring's n pixels,   Λ = S − m − m ln (S / m) of m sectors, n = m
// S is the sum of squares of the sectors' means in units of their noise, Λ its likelihood ratio for a variance between sectors.
// Source: G. Schwarz, Ann. Statist. 6 (1978) 461; as odds: R. E. Kass and A. E. Raftery, J. Am. Stat. Assoc. 90 (1995) 773.

import { mean, median, robustDeviation } from '../../numerics/statistics'
import { type ImageView, type Moments, principalWidths } from './imageMoments'

interface BackgroundPlane {
  /** Counts per pixel along a row and down a column, about the beam's centroid. */
  readonly x: number
  readonly y: number
}

export interface Evenness {
  /** Counts by which the level beneath the beam may be off, beyond the noise of its mean. */
  readonly unevenCounts: number
  readonly isSkirt: boolean
  /** True where it is not chance. */
  readonly isSeen: boolean
}

const SECTORS = 12
/** Semi-axes of the ring close to the beam, in beam widths: a Gaussian has fallen below 1e-5 there. */
const RING = { from: 1.2, to: 1.5 } as const
/** Deviations from which a slope, a sector or a ring differs from chance. */
const SEEN = 4
/** The ring is a single test, the sectors are many. */
const SEEN_IN_RING = 2.5
const FEWEST_PIXELS = 30
/** Ratio of sectors to chance above which the background is certainly uneven. */
const CERTAIN = 1e6

interface Sample {
  readonly x: number
  readonly y: number
  readonly value: number
}

/** Calls `visit` with every pixel, its place from the centroid and its distance in beam widths of the ellipse. */
function eachPixel(
  { pixels, width, height }: ImageView,
  beam: Moments,
  visit: (dx: number, dy: number, widths: number, value: number) => void,
): void {
  const axes = principalWidths(beam.xx, beam.yy, beam.xy)
  const cos = Math.cos(axes.azimuthRad)
  const sin = Math.sin(axes.azimuthRad)
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const dx = i - beam.x
      const dy = j - beam.y
      const widths = Math.hypot((cos * dx + sin * dy) / axes.major, (cos * dy - sin * dx) / axes.minor)
      visit(dx, dy, widths, pixels[j * width + i] as number)
    }
  }
}

/** Least squares through the pixels outside the aperture; null where no slope is seen. */
export function backgroundPlane(image: ImageView, beam: Moments): BackgroundPlane | null {
  const samples: Sample[] = []
  eachPixel(image, beam, (x, y, widths, value) => {
    if (widths > RING.to) samples.push({ x, y, value })
  })
  if (samples.length < FEWEST_PIXELS) return null
  const values = samples.map(({ value }) => value)
  const middle = median(values)
  const spread = robustDeviation(values)
  const kept = spread > 0 ? samples.filter(({ value }) => Math.abs(value - middle) <= 5 * spread) : samples
  const level = mean(kept.map(({ value }) => value))
  const centre = { x: mean(kept.map(({ x }) => x)), y: mean(kept.map(({ y }) => y)) }
  let [xx, xy, yy, xv, yv, square] = [0, 0, 0, 0, 0, 0]
  for (const { x, y, value } of kept) {
    const [dx, dy, dv] = [x - centre.x, y - centre.y, value - level]
    xx += dx * dx
    xy += dx * dy
    yy += dy * dy
    xv += dx * dv
    yv += dy * dv
    square += dv * dv
  }
  const determinant = xx * yy - xy * xy
  if (!(determinant > 0)) return null
  const slope = { x: (yy * xv - xy * yv) / determinant, y: (xx * yv - xy * xv) / determinant }
  const gain = slope.x * xv + slope.y * yv
  const variance = Math.max(0, square - gain) / kept.length
  return gain > SEEN ** 2 * variance && gain > 0 ? slope : null
}

/** The image less the plane; the level at the beam's centroid stays. */
export function withoutPlane<I extends ImageView>(image: I, beam: Moments, plane: BackgroundPlane): I {
  const { width } = image
  const pixels = Float64Array.from(
    { length: image.pixels.length },
    (_, k) =>
      (image.pixels[k] as number) -
      plane.x * ((k % width) - beam.x) -
      plane.y * (Math.floor(k / width) - beam.y),
  )
  return { ...image, pixels }
}

/** `noise`: of one pixel, `level` of the background. */
export function backgroundEvenness(image: ImageView, beam: Moments, level: number, noise: number): Evenness {
  const sums = Array.from({ length: SECTORS }, () => ({ count: 0, sum: 0 }))
  const ring = { count: 0, sum: 0 }
  eachPixel(image, beam, (dx, dy, widths, value) => {
    if (Math.abs(value - level) > 6 * noise) return
    const around = Math.floor(((Math.atan2(dy, dx) / (2 * Math.PI) + 1) % 1) * SECTORS)
    const into = widths > RING.to ? sums[around] : widths > RING.from ? ring : undefined
    if (into === undefined) return
    into.count++
    into.sum += value - level
  })
  // Sectors: what their means scatter beyond the noise of each mean.
  const sectors = sums.filter(({ count }) => count >= FEWEST_PIXELS)
  const sectorSquare = sectors.reduce((total, { sum, count }) => total + (sum * sum) / count, 0)
  const sectorExcess = sectorSquare - sectors.length * noise * noise
  const sectorSeen = sectorExcess > SEEN * Math.sqrt(2 * sectors.length) * noise * noise
  const pixelsInSectors = sectors.reduce((total, { count }) => total + count, 0)
  const chance = sectors.length * noise * noise
  const sectorRatio = chance > 0 ? Math.min(CERTAIN, Math.max(1, sectorSquare / chance)) : CERTAIN
  const sectorLikelihood = sectors.length * (sectorRatio - 1 - Math.log(sectorRatio))
  const sectorCounts = Math.sqrt(
    (isReal(sectorLikelihood, sectors.length) * Math.max(0, sectorExcess)) / Math.max(1, pixelsInSectors),
  )
  const ringMean = ring.count >= FEWEST_PIXELS ? ring.sum / ring.count : 0
  const ringStandard = ring.count >= FEWEST_PIXELS ? noise / Math.sqrt(ring.count) : Infinity
  const ringSeen = Math.abs(ringMean) > SEEN_IN_RING * ringStandard
  const ringCounts = Math.sqrt(
    isReal(ringStandard > 0 ? (ringMean / ringStandard) ** 2 : Infinity, ring.count) *
      Math.max(0, ringMean * ringMean - ringStandard * ringStandard),
  )
  return {
    unevenCounts: Math.hypot(sectorCounts, ringCounts),
    isSkirt: ringSeen && ringMean > 0 && ringCounts > sectorCounts,
    isSeen: sectorSeen || ringSeen,
  }
}

/** Probability that a deviation of this likelihood ratio is none of chance. */
function isReal(likelihoodRatio: number, count: number): number {
  return 1 / (1 + Math.sqrt(count) * Math.exp(-likelihoodRatio / 2))
}
