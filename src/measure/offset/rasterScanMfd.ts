// Mode-field diameters from a raster: the probe moved over the unknown mode in x and y.
//   P(r) = A exp(−2 (r − c)ᵀ (W_probe + W_unknown)⁻¹ (r − c)) + b
// Source: overlap of two elliptical Gaussians of any orientation (derived here, confirmed by 2-D numerical overlap).
// Same validity as offsetScanMfd.ts, and no assumption about where the mode's axes point.

import { InputError, requireInRange } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import { quantile } from '../../numerics/statistics'
import { requireReading } from '../fit/requireReading'
import { combine, typeA, typeB, type UncertaintyBudget } from '../fit/uncertaintyBudget'
import { ellipseOf, fitGaussian2d, type RadiusMatrix } from '../nearField/gaussian2d'

export interface RasterScanInput {
  readonly xUm: ArrayLike<number>
  readonly yUm: ArrayLike<number>
  readonly power: ArrayLike<number>
  readonly probeMfdUm: number
  readonly probeMfdStandardUm?: number
  readonly stageScaleStandard?: number
  /** Of the detector's exponent: the reading is proportional to power^(1 + e). */
  readonly linearityStandard?: number
}

export interface RasterScanResult {
  readonly majorUm: number
  readonly minorUm: number
  readonly azimuthRad: number
  /** Widths along the stage's axes, for a mode whose axes are the stage's. */
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly centreXUm: number
  readonly centreYUm: number
  /** Expanded, k = 2. */
  readonly majorUncertaintyUm: number
  readonly minorUncertaintyUm: number
  readonly budget: { readonly major: UncertaintyBudget; readonly minor: UncertaintyBudget }
  readonly peakPower: number
  readonly backgroundPower: number
  readonly residualRms: number
  /** Data minus fit, in input order. */
  readonly residual: Float64Array
  readonly warnings: readonly string[]
}

const FEWEST_POINTS = 12

/** InputError for too few points, values that are not finite, a raster without a peak or narrower than the probe. */
export function rasterScanMfd(input: RasterScanInput): RasterScanResult {
  const probeMfdUm = requireInRange('probeMfdUm', input.probeMfdUm, 0.1, 200)
  const x = checked('position x of point', input.xUm, 'um')
  const y = checked('position y of point', input.yUm, 'um')
  const value = checked('power', input.power, 'relative')
  if (x.length !== y.length || x.length !== value.length) {
    throw new InputError(
      'number of powers',
      value.length,
      `that of the positions along x (${x.length}) and along y (${y.length})`,
    )
  }
  if (x.length < FEWEST_POINTS)
    throw new InputError('number of points of the raster', x.length, `${FEWEST_POINTS} or more`)
  const fit = fitGaussian2d({ x, y, value }, startOf(x, y, value))
  const inside = (at: number, along: Float64Array) => along.some((v) => v <= at) && along.some((v) => v >= at)
  if (!fit.converged || !inside(fit.x, x) || !inside(fit.y, y)) {
    throw new InputError(
      'the peak of the raster',
      'unclear or at the border',
      'a single peak that falls off on all sides',
    )
  }
  const square = (probeMfdUm / 2) ** 2
  const unknown = (m: RadiusMatrix): RadiusMatrix => ({ xx: m.xx - square, yy: m.yy - square, xy: m.xy })
  const ellipse = ellipseOf(unknown(fit.matrix))
  if (!(ellipse.minor > 0)) {
    throw new InputError(
      'the raster',
      `${significantText(ellipseOf(fit.matrix).minor, 4)} µm wide (1/e²) along its minor axis`,
      `wider than the probe alone, which is ${probeMfdUm} µm. Check the probe MFD, the stage's scale and the power unit`,
    )
  }
  const budget = (axis: 'major' | 'minor') => {
    const mfd = ellipse[axis]
    return combine([
      typeA(
        'fit',
        fit.standardOf((m) => ellipseOf(unknown(m))[axis]),
        fit.degreesOfFreedom,
      ),
      typeB('probe MFD', (probeMfdUm * (input.probeMfdStandardUm ?? 0)) / mfd),
      typeB('stage scale', ((mfd * mfd + probeMfdUm ** 2) * (input.stageScaleStandard ?? 0)) / mfd),
      typeB(
        'detector linearity',
        ((mfd * mfd + probeMfdUm ** 2) * (input.linearityStandard ?? 0)) / (2 * mfd),
      ),
    ])
  }
  const major = budget('major')
  const minor = budget('minor')
  const warnings: string[] = []
  if (fit.residualRms > 0.02) {
    warnings.push(
      `The raster departs from a Gaussian by ${significantText(100 * fit.residualRms, 2)} % of the peak (rms).`,
    )
  }
  if (major.expandedUm + minor.expandedUm > ellipse.major - ellipse.minor) {
    warnings.push('The mode is circular within the uncertainty: the azimuth is not meaningful.')
  }
  const along = unknown(fit.matrix)
  return {
    majorUm: ellipse.major,
    minorUm: ellipse.minor,
    azimuthRad: ellipse.azimuthRad,
    mfdXUm: 2 * Math.sqrt(Math.max(0, along.xx)),
    mfdYUm: 2 * Math.sqrt(Math.max(0, along.yy)),
    centreXUm: fit.x,
    centreYUm: fit.y,
    majorUncertaintyUm: major.expandedUm,
    minorUncertaintyUm: minor.expandedUm,
    budget: { major, minor },
    peakPower: fit.amplitude,
    backgroundPower: fit.background,
    residualRms: fit.residualRms,
    residual: fit.residuals.map((r) => -r),
    warnings,
  }
}

function checked(field: string, values: ArrayLike<number>, unit: 'um' | 'relative'): Float64Array {
  return Float64Array.from(values, (_, i) => requireReading(field, values, i, unit))
}

/** Moments of the readings above a third of the range. */
function startOf(x: Float64Array, y: Float64Array, value: Float64Array) {
  const background = quantile(value, 0.05)
  const top = value.reduce((high, v) => Math.max(high, v), -Infinity)
  if (!(top > background)) throw new InputError('power', `${top} everywhere`, 'different from point to point')
  let sum = 0
  let sx = 0
  let sy = 0
  let sxx = 0
  let syy = 0
  for (let i = 0; i < value.length; i++) {
    const weight = (value[i] as number) - background - (top - background) / 3
    if (weight <= 0) continue
    const px = x[i] as number
    const py = y[i] as number
    sum += weight
    sx += weight * px
    sy += weight * py
    sxx += weight * px * px
    syy += weight * py * py
  }
  const cx = sx / sum
  const cy = sy / sum
  // Cutting a Gaussian at a third leaves about 0.35 of its squared radius W = 4⟨x²⟩.
  const spread = (square: number, centre: number) =>
    Math.max((4 * (square / sum - centre * centre)) / 0.35, 1e-6)
  return {
    amplitude: top - background,
    x: cx,
    y: cy,
    background,
    matrix: { xx: spread(sxx, cx), yy: spread(syy, cy), xy: 0 },
  }
}
