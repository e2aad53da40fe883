// Beam widths of a near-field image by second moments (D4σ), as ISO 11146 defines them.
// D4σ of a mode is its Petermann I diameter. The standard mode-field diameter of fibres is Petermann II, which
// is smaller: by 4.0 % for a step-index mode at V = 2.0, by 10.1 % at V = 1.6 (see petermannRatio.ts).

import { InputError, requireInRange } from '../../numerics/inputError'
import { fixedText, significantText } from '../../numerics/numberText'
import { requireReading } from '../fit/requireReading'
import { combine, typeA, typeB, type UncertaintyBudget } from '../fit/uncertaintyBudget'
import { saturatedPixels } from '../images/image'
import { type Background, backgroundOutside, frameBackground } from './imageBackground'
import { backgroundEvenness, backgroundPlane, type Evenness, withoutPlane } from './imageEvenness'
import { apertureLeavesImage, type Moments, momentsInAperture, principalWidths } from './imageMoments'
import { quantisedMoments, roundingStandard } from './quantisedMoments'

export interface ImageInput {
  /** Row-major, first row first, length width × height. */
  readonly pixels: ArrayLike<number>
  readonly width: number
  readonly height: number
  /** Pixel pitch at the object, equal in x and y. */
  readonly pixelUm: number
  /** Highest count of the detector, to detect saturation; 65535 or 255 is guessed where absent. */
  readonly fullScale?: number
  /** Standard uncertainty of pixelUm as a fraction; absent: 0. */
  readonly pixelScaleStandard?: number
  /** Of the detector's exponent: a count that goes as power^(1 + e); absent: 0. */
  readonly linearityStandard?: number
}

export interface SecondMomentResult {
  readonly majorUm: number
  readonly minorUm: number
  /** Of the major axis, from x (along a row) towards y (down the rows), in (−π/2, π/2]. */
  readonly azimuthRad: number
  /** From the centre of the first pixel. */
  readonly centroidXUm: number
  readonly centroidYUm: number
  readonly warnings: readonly string[]
  /** D4σ along the image's own axes. */
  readonly widthXUm: number
  readonly widthYUm: number
  /** Minor over major; above 0.87 ISO 11146-1 calls the beam circular. */
  readonly ellipticity: number
  readonly background: number
  readonly backgroundNoise: number
  readonly peak: number
  readonly saturatedCount: number
  readonly iterations: number
  /** Expanded, k = 2, of the major and the minor width. */
  readonly majorUncertaintyUm: number
  readonly minorUncertaintyUm: number
  readonly budget: {
    readonly major: UncertaintyBudget
    readonly minor: UncertaintyBudget
  }
}

const MOMENT_DEFAULTS = {
  /** Aperture in beam widths (ISO 11146-1). */
  aperture: 3,
  maxIterations: 30,
  /** Relative change of the moments at which the aperture has converged; whole pixels come and go below this. */
  tolerance: 1e-5,
  /** The background is measured afresh in the first few rounds only, then kept. */
  backgroundRounds: 4,
} as const

/** Share of zeros in a background with noise from which it is treated as cut off. */
const CUT_AT_ZERO = 0.1

const UNEVEN = 'uneven background'
/** Share of the combined uncertainty from which it is reported. */
const NOTED_SHARE = 0.3
const LEVEL: Evenness = { unevenCounts: 0, isSkirt: false, isSeen: false }

/** The contribution of a detector whose rounding exceeds its noise. */
export const ROUNDING = 'rounding to whole counts'

/**
 * Finds the beam, its background and its widths. InputError for sizes that do not fit, pixels that are not finite,
 * or an image without a beam above its background.
 */
export function secondMomentWidths(input: ImageInput): SecondMomentResult {
  const pixelUm = requireInRange('pixelUm', input.pixelUm, 1e-4, 1e4)
  const range = checkPixels(input)
  const first = settled(input, range)
  // Rounding hides a slope of less than a count; the beam on a floor of whole counts is fitted without one.
  const plane = first.background.isRounded ? null : backgroundPlane(input, first.beam)
  const image = plane === null ? input : withoutPlane(input, first.beam, plane)
  let { beam, background } = plane === null ? first : settled(image, range)
  const { iterations, change } = first
  const rounded = background.isRounded
    ? quantisedMoments(input, beam, background.level, range.high - background.level)
    : null
  if (rounded !== null) {
    beam = rounded.beam
    background = { ...background, level: rounded.background }
  }
  const axes = principalWidths(beam.xx, beam.yy, beam.xy)
  const peak = range.high - background.level
  const saturatedCount = saturatedPixels(input.pixels, input.fullScale ?? (range.high > 255 ? 65_535 : 255))
  const warnings: string[] = []
  if (saturatedCount > 0)
    warnings.push(`Saturated pixels: ${saturatedCount} (${range.high} counts); widths are overestimated.`)
  if (apertureLeavesImage(input, beam, 2)) {
    warnings.push('The beam reaches the edge of the image: it is clipped and the widths are underestimated.')
  } else if (apertureLeavesImage(input, beam, MOMENT_DEFAULTS.aperture)) {
    warnings.push(
      'The image is smaller than the three beam widths that ISO 11146 requires: the background is unreliable.',
    )
  }
  if (peak < 20 * background.noise) {
    warnings.push(
      `The peak is only ${fixedText(peak / background.noise, 0)} times the background noise: second moments amplify noise far from the peak.`,
    )
  }
  if (axes.minor < 6)
    warnings.push(`The minor width is ${fixedText(axes.minor, 1)} pixels: the sampling is too coarse.`)
  if (change > 1e-2 && rounded === null)
    warnings.push('The integration window did not converge: the background may not be level.')
  if (background.zeroShare > CUT_AT_ZERO && !background.isRounded) {
    warnings.push(
      'Much of the background is exactly zero: the camera clips its noise there, and the background is overestimated. Raise its black level.',
    )
  }
  if (background.isRounded) {
    warnings.push(
      'More than half of the background has the same count: rounding hides the wings of the beam. Those of a fitted Gaussian are used instead.',
    )
  }
  const evenness = background.isRounded
    ? LEVEL
    : backgroundEvenness(image, beam, background.level, background.noise)
  const budget = (width: number) =>
    widthBudget(width * pixelUm, width, axes, beam, background, evenness.unevenCounts, peak, input)
  const major = budget(axes.major)
  if (plane !== null) {
    const across = Math.abs(plane.x) * input.width + Math.abs(plane.y) * input.height
    warnings.push(
      `The background is sloped: it changes by ${significantText((100 * across) / peak, 2)} % of the peak across the image. A plane was subtracted.`,
    )
  }
  const uneven = major.contributions.find(({ source }) => source === UNEVEN)?.standardUm ?? 0
  if (evenness.isSeen && uneven > NOTED_SHARE * major.combinedUm) {
    warnings.push(
      evenness.isSkirt
        ? `A weak skirt surrounds the beam (${significantText((100 * evenness.unevenCounts) / peak, 2)} % of the peak): scattered or cladding light widens the second moments. The interval allows for it.`
        : `The background is uneven by ${significantText((100 * evenness.unevenCounts) / peak, 2)} % of the peak around the beam. The interval allows for it.`,
    )
  }
  const minor = budget(axes.minor)
  return {
    majorUm: axes.major * pixelUm,
    minorUm: axes.minor * pixelUm,
    azimuthRad: axes.azimuthRad,
    centroidXUm: beam.x * pixelUm,
    centroidYUm: beam.y * pixelUm,
    warnings,
    widthXUm: 4 * Math.sqrt(Math.max(0, beam.xx)) * pixelUm,
    widthYUm: 4 * Math.sqrt(Math.max(0, beam.yy)) * pixelUm,
    ellipticity: axes.minor / axes.major,
    background: background.level,
    backgroundNoise: background.noise,
    peak,
    saturatedCount,
    iterations,
    majorUncertaintyUm: major.expandedUm,
    minorUncertaintyUm: minor.expandedUm,
    budget: { major, minor },
  }
}

function checkPixels({ pixels, width, height }: ImageInput) {
  if (!Number.isInteger(width) || width < 4) throw new InputError('width', width, 'a whole number from 4')
  if (!Number.isInteger(height) || height < 4) throw new InputError('height', height, 'a whole number from 4')
  if (pixels.length !== width * height)
    throw new InputError('pixels', `${pixels.length} long`, `width × height (${width * height})`)
  let low = Infinity
  let high = -Infinity
  for (let i = 0; i < pixels.length; i++) {
    const value = requireReading('pixel', pixels, i, 'relative')
    if (value < low) low = value
    if (value > high) high = value
  }
  if (low === high)
    throw new InputError('brightness of the image', `${low} everywhere`, 'different from pixel to pixel')
  return { low, high }
}

/** Beam and background, each measured about the other until both converge. */
function settled(image: ImageInput, range: { readonly low: number; readonly high: number }) {
  let background = frameBackground(image)
  let beam = firstGuess(image, background.level)
  let iterations = 0
  let change = Infinity
  while (iterations < MOMENT_DEFAULTS.maxIterations && change > MOMENT_DEFAULTS.tolerance) {
    iterations++
    if (iterations <= MOMENT_DEFAULTS.backgroundRounds) {
      const outside = backgroundOutside(image, beam, MOMENT_DEFAULTS.aperture)
      if (outside.pixelCount > 100) background = outside
    }
    const next = momentsInAperture(image, background.level, beam, MOMENT_DEFAULTS.aperture)
    if (!(next.sum > 0 && next.xx + next.yy > 0)) {
      throw new InputError(
        'net power of the image',
        `zero or negative at ${range.low} to ${range.high} counts`,
        'positive, with a beam above the background',
      )
    }
    change = Math.abs(next.xx + next.yy - beam.xx - beam.yy) / (next.xx + next.yy)
    beam = next
  }
  return { beam, background, iterations, change }
}

/** Moments of what is above 30 % of the peak, spread to the whole Gaussian. */
function firstGuess(input: ImageInput, background: number): Moments {
  let peak = -Infinity
  for (let i = 0; i < input.pixels.length; i++)
    peak = Math.max(peak, (input.pixels[i] as number) - background)
  let sum = 0
  let sx = 0
  let sy = 0
  let sxx = 0
  let syy = 0
  for (let i = 0; i < input.pixels.length; i++) {
    const value = (input.pixels[i] as number) - background - 0.3 * peak
    if (value <= 0) continue
    const x = i % input.width
    const y = Math.floor(i / input.width)
    sum += value
    sx += value * x
    sy += value * y
    sxx += value * x * x
    syy += value * y * y
  }
  const x = sx / sum
  const y = sy / sum
  const size = Math.max(2.5 * (sxx / sum - x * x + syy / sum - y * y), 1)
  return { x, y, xx: size, yy: size, xy: 0, sum }
}

/**
 * Over an aperture a × b (half lengths) pixel noise σ gives ⟨x²⟩ a variance σ² ab·4 (a⁴/5 − …)/S²; with a = 3 d/2 this is
 * evaluated in closed form about the axis of `width`, and the background's own error, common to all pixels, is added. The corners
 * of the aperture are pixels of the background as well (outside the ellipse in it), and what they add to the moment their share
 * of the level takes away again: Σ (c_i − P/N)² = Σ c_i² + P²/N − 2 (P/N) Σ_corners c_i, JCGM 100, 5.2.
 */
function widthBudget(
  widthUm: number,
  width: number,
  axes: { major: number; minor: number },
  beam: Moments,
  background: Background,
  unevenCounts: number,
  peak: number,
  { pixelScaleStandard = 0, linearityStandard = 0 }: ImageInput,
): UncertaintyBudget {
  const half = (MOMENT_DEFAULTS.aperture * width) / 2
  const other = (MOMENT_DEFAULTS.aperture * (width === axes.major ? axes.minor : axes.major)) / 2
  const area = 4 * half * other
  const variance = (width / 4) ** 2
  // Σ (u² − ⟨u²⟩)² over the rectangle, per pixel: a⁴/5 − 2⟨u²⟩a²/3 + ⟨u²⟩².
  const spread = half ** 4 / 5 - (2 * variance * half * half) / 3 + variance * variance
  const momentNoise = (background.noise * Math.sqrt(area * Math.max(0, spread))) / beam.sum
  const levelError = background.noise / Math.sqrt(Math.max(1, background.pixelCount))
  const perCount = (area * ((half * half) / 3 - variance)) / beam.sum
  // Over the ellipse in the rectangle Σ (u² − ⟨u²⟩) is π ab (a²/4 − ⟨u²⟩).
  const inEllipse = (Math.PI * half * other * ((half * half) / 4 - variance)) / beam.sum
  const corners = perCount > 0 ? 1 - inEllipse / perCount : 0
  const momentLevel = levelError * perCount * Math.sqrt(Math.max(0, 1 - 2 * corners * background.sampled))
  // d = 4 sqrt⟨u²⟩, so u(d) = d u(⟨u²⟩) / (2⟨u²⟩).
  const toWidth = widthUm / (2 * variance)
  return combine([
    typeA('pixel noise', momentNoise * toWidth, Infinity),
    typeA('background level', Math.abs(momentLevel) * toWidth, Math.max(1, background.pixelCount - 1)),
    typeB(UNEVEN, Math.abs(unevenCounts * perCount) * toWidth),
    typeB(ROUNDING, background.isRounded ? widthUm * roundingStandard(peak) : 0),
    typeB('pixel scale', widthUm * pixelScaleStandard),
    typeB('detector linearity', (widthUm * linearityStandard) / 2),
  ])
}
