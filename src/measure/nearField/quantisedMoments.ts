// Second moments where rounding exceeds the noise of the detector. Far from the beam every pixel then has one and the same
// count, off by up to half a count from the background that the beam itself adds to, and r² weighs that heavily.
// Within the ellipse where the beam is several counts high, rounding errs as often up as down: there the pixels
// are summed, on the background of a Gaussian fitted to them, and that Gaussian replaces the wings outside.
//   outside ρ = p (in 1/e² radii): share e^(−2p²) of the power, (1 + 2p²) e^(−2p²) of every second moment

import { fitGaussian2d } from './gaussian2d'
import { type ImageView, type Moments, principalWidths } from './imageMoments'

/** The beam is summed where it is this many counts high. */
const LEAST_COUNTS = 3
const FITTED_PIXELS = 40_000
const ROUNDS = 2
/** How far the wings of a mode that looks like a Gaussian may be from it (common practice, no source). */
const WING_DOUBT = 0.1

interface QuantisedMoments {
  readonly beam: Moments
  readonly background: number
}

/** Null where the beam is too small or too faint to be fitted. */
export function quantisedMoments(
  image: ImageView,
  start: Moments,
  background: number,
  peak: number,
): QuantisedMoments | null {
  let found: QuantisedMoments | null = { beam: start, background }
  for (let round = 0; round < ROUNDS && found !== null; round++) {
    found = once(image, found.beam, found.background, peak)
  }
  return found
}

function once(image: ImageView, about: Moments, background: number, peak: number): QuantisedMoments | null {
  const p2 = Math.log(peak / LEAST_COUNTS) / 2
  if (!(p2 > 0.5)) return null
  const inside = pixelsWithin(image, about, Math.sqrt(p2))
  if (inside.value.length < 50) return null
  const { xx, yy, xy } = about
  const fit = fitGaussian2d(everyNth(inside), {
    amplitude: peak,
    x: about.x,
    y: about.y,
    background,
    matrix: { xx: 4 * xx, yy: 4 * yy, xy: 4 * xy },
  })
  if (!fit.converged) return null
  // Of the fitted Gaussian: what lies outside the ellipse that was summed.
  const { matrix } = fit
  const power = (fit.amplitude * Math.PI * Math.sqrt(matrix.xx * matrix.yy - matrix.xy ** 2)) / 2
  const share = Math.exp(-2 * p2)
  const moment = (power * share * (1 + 2 * p2)) / 4
  const sums = {
    one: power * share,
    x: 0,
    y: 0,
    xx: moment * matrix.xx,
    yy: moment * matrix.yy,
    xy: moment * matrix.xy,
  }
  for (let i = 0; i < inside.value.length; i++) {
    const value = (inside.value[i] ?? 0) - fit.background
    const dx = (inside.x[i] ?? 0) - fit.x
    const dy = (inside.y[i] ?? 0) - fit.y
    sums.one += value
    sums.x += value * dx
    sums.y += value * dy
    sums.xx += value * dx * dx
    sums.yy += value * dy * dy
    sums.xy += value * dx * dy
  }
  const mx = sums.x / sums.one
  const my = sums.y / sums.one
  return {
    background: fit.background,
    beam: {
      x: fit.x + mx,
      y: fit.y + my,
      xx: sums.xx / sums.one - mx * mx,
      yy: sums.yy / sums.one - my * my,
      xy: sums.xy / sums.one - mx * my,
      sum: sums.one,
    },
  }
}

/** Pixels within `scale` 1/e² radii of the beam's own axes. */
function pixelsWithin({ pixels, width, height }: ImageView, beam: Moments, scale: number) {
  const axes = principalWidths(beam.xx, beam.yy, beam.xy)
  const cos = Math.cos(axes.azimuthRad)
  const sin = Math.sin(axes.azimuthRad)
  const major = (scale * axes.major) / 2
  const minor = (scale * axes.minor) / 2
  const x: number[] = []
  const y: number[] = []
  const value: number[] = []
  for (let j = Math.max(0, Math.ceil(beam.y - major)); j <= Math.min(height - 1, beam.y + major); j++) {
    for (let i = Math.max(0, Math.ceil(beam.x - major)); i <= Math.min(width - 1, beam.x + major); i++) {
      const dx = i - beam.x
      const dy = j - beam.y
      if (((cos * dx + sin * dy) / major) ** 2 + ((cos * dy - sin * dx) / minor) ** 2 > 1) continue
      x.push(i)
      y.push(j)
      value.push(pixels[j * width + i] ?? 0)
    }
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y), value: Float64Array.from(value) }
}

type Points = ReturnType<typeof pixelsWithin>

function everyNth({ x, y, value }: Points): Points {
  const stride = Math.ceil(value.length / FITTED_PIXELS)
  const every = (all: Float64Array) => all.filter((_, i) => i % stride === 0)
  return stride === 1 ? { x, y, value } : { x: every(x), y: every(y), value: every(value) }
}

/** Relative standard uncertainty of a width whose wings below LEAST_COUNTS are a Gaussian's; `peak` in counts. */
export function roundingStandard(peak: number): number {
  const share = Math.min(1, LEAST_COUNTS / peak)
  return (WING_DOUBT * share * (1 - Math.log(share))) / 2
}
