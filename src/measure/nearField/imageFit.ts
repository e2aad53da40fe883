// A near-field image compared with its best-fit Gaussian: widths, residual map and cuts along the beam's own axes.

import { InputError } from '../../numerics/inputError'
import { ellipseOf, fitGaussian2d } from './gaussian2d'
import type { ImageView } from './imageMoments'
import type { ImageInput, SecondMomentResult } from './secondMomentWidths'

/** Row-major map in image rows; x and y of its first pixel from the image's first pixel. */
export interface PixelMap {
  readonly width: number
  readonly height: number
  readonly xUm: number
  readonly yUm: number
  readonly stepUm: number
  readonly values: Float64Array
}

export interface ImageGaussian {
  readonly majorUm: number
  readonly minorUm: number
  readonly azimuthRad: number
  readonly centreXUm: number
  readonly centreYUm: number
  readonly amplitude: number
  readonly background: number
  readonly residualRms: number
  /** Standard uncertainties from the fit. */
  readonly majorStandardUm: number
  readonly minorStandardUm: number
  /** (data − fit) / amplitude. */
  readonly residualMap: PixelMap
}

export interface LineCut {
  readonly axis: 'major' | 'minor'
  /** From the centre along the axis. */
  readonly positionUm: Float64Array
  /** Background-free, relative to the peak of the fit. */
  readonly measured: Float64Array
  readonly fitted: Float64Array
}

const FITTED_PIXELS = 40_000
/** Half side of the fitted square in major widths: the wings matter, the far background does not. */
const REACH = 1.25
const CUT_POINTS = 201

/** Starts from the moments; large beams are averaged in blocks of pixels. InputError if no Gaussian can be fitted. */
export function fitImageGaussian(input: ImageInput, moments: SecondMomentResult): ImageGaussian {
  const { pixelUm } = input
  const map = beamMap(input, moments)
  const n = map.values.length
  const x = new Float64Array(n)
  const y = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    x[i] = map.xUm + (i % map.width) * map.stepUm
    y[i] = map.yUm + Math.floor(i / map.width) * map.stepUm
  }
  const cos = Math.cos(moments.azimuthRad)
  const sin = Math.sin(moments.azimuthRad)
  const a = (moments.majorUm / 2) ** 2
  const b = (moments.minorUm / 2) ** 2
  const fit = fitGaussian2d(
    { x, y, value: map.values },
    {
      amplitude: moments.peak,
      x: moments.centroidXUm,
      y: moments.centroidYUm,
      background: moments.background,
      matrix: {
        xx: cos * cos * a + sin * sin * b,
        yy: sin * sin * a + cos * cos * b,
        xy: cos * sin * (a - b),
      },
    },
  )
  if (!fit.converged)
    throw new InputError('the image', 'not described by a Gaussian', 'an image of a single beam')
  const ellipse = ellipseOf(fit.matrix)
  // Averaging over a block widens the fitted ⟨x²⟩ by (s² − p²)/12, and W is four times that.
  const blur = (map.stepUm ** 2 - pixelUm ** 2) / 3
  const unblurred = (width: number) => 2 * Math.sqrt(Math.max(0, (width / 2) ** 2 - blur))
  return {
    majorUm: unblurred(ellipse.major),
    minorUm: unblurred(ellipse.minor),
    azimuthRad: ellipse.azimuthRad,
    centreXUm: fit.x,
    centreYUm: fit.y,
    amplitude: fit.amplitude,
    background: fit.background,
    residualRms: fit.residualRms,
    majorStandardUm: fit.standardOf((m) => ellipseOf(m).major),
    minorStandardUm: fit.standardOf((m) => ellipseOf(m).minor),
    residualMap: { ...map, values: fit.residuals.map((r) => -r / fit.amplitude) },
  }
}

/** The square around the beam, averaged in whole blocks so that no more than FITTED_PIXELS remain. */
function beamMap(input: ImageInput, moments: SecondMomentResult): PixelMap {
  const { pixels, width, height, pixelUm } = input
  const half = (REACH * moments.majorUm) / pixelUm
  const cx = moments.centroidXUm / pixelUm
  const cy = moments.centroidYUm / pixelUm
  const fromX = Math.max(0, Math.floor(cx - half))
  const fromY = Math.max(0, Math.floor(cy - half))
  const across = Math.min(width - 1, Math.ceil(cx + half)) - fromX + 1
  const down = Math.min(height - 1, Math.ceil(cy + half)) - fromY + 1
  const block = Math.max(1, Math.ceil(Math.sqrt((across * down) / FITTED_PIXELS)))
  const mapWidth = Math.floor(across / block)
  const mapHeight = Math.floor(down / block)
  const values = new Float64Array(mapWidth * mapHeight)
  for (let j = 0; j < mapHeight; j++) {
    for (let i = 0; i < mapWidth; i++) {
      let sum = 0
      for (let v = 0; v < block; v++) {
        const row = (fromY + j * block + v) * width + fromX + i * block
        for (let u = 0; u < block; u++) sum += pixels[row + u] as number
      }
      values[j * mapWidth + i] = sum / (block * block)
    }
  }
  const middle = (block - 1) / 2
  return {
    width: mapWidth,
    height: mapHeight,
    xUm: (fromX + middle) * pixelUm,
    yUm: (fromY + middle) * pixelUm,
    stepUm: block * pixelUm,
    values,
  }
}

/** Cuts through the fitted centre along both axes, cubic between pixels, as far as the image goes. */
export function lineCuts(input: ImageInput, fit: ImageGaussian): readonly [LineCut, LineCut] {
  return [cut(input, fit, 'major'), cut(input, fit, 'minor')]
}

function cut(input: ImageInput, fit: ImageGaussian, axis: 'major' | 'minor'): LineCut {
  const angle = fit.azimuthRad + (axis === 'major' ? 0 : Math.PI / 2)
  const width = axis === 'major' ? fit.majorUm : fit.minorUm
  const position: number[] = []
  const measured: number[] = []
  const fitted: number[] = []
  for (let k = 0; k < CUT_POINTS; k++) {
    const at = ((2 * k) / (CUT_POINTS - 1) - 1) * 1.5 * width
    const value = between(
      input,
      (fit.centreXUm + at * Math.cos(angle)) / input.pixelUm,
      (fit.centreYUm + at * Math.sin(angle)) / input.pixelUm,
    )
    if (value === null) continue
    position.push(at)
    measured.push((value - fit.background) / fit.amplitude)
    fitted.push(Math.exp(-2 * ((2 * at) / width) ** 2))
  }
  return {
    axis,
    positionUm: Float64Array.from(position),
    measured: Float64Array.from(measured),
    fitted: Float64Array.from(fitted),
  }
}

/**
 * Weights of the four neighbours at `t` of the way from the second to the third: cubic convolution, third order.
 * Straight lines between pixels would flatten a peak by more than the noise of a good image.
 * Source: R. G. Keys, IEEE Trans. Acoust. Speech Signal Process. 29 (1981) 1153, a = -1/2 (from memory).
 */
function cubicWeights(t: number): readonly [number, number, number, number] {
  return [
    ((2 - t) * t - 1) * t * 0.5,
    ((3 * t - 5) * t * t + 2) * 0.5,
    ((4 - 3 * t) * t + 1) * t * 0.5,
    (t - 1) * t * t * 0.5,
  ]
}

function between(image: ImageView, x: number, y: number): number | null {
  const left = Math.floor(x)
  const top = Math.floor(y)
  if (left < 1 || top < 1 || left >= image.width - 2 || top >= image.height - 2) return null
  const across = cubicWeights(x - left)
  const down = cubicWeights(y - top)
  let sum = 0
  for (let j = 0; j < 4; j++) {
    const row = (top - 1 + j) * image.width + left - 1
    for (let i = 0; i < 4; i++)
      sum += (down[j] as number) * (across[i] as number) * (image.pixels[row + i] as number)
  }
  return sum
}
