// Petermann II mode-field diameter from an angular scan of the far field.
//
// Floor: a constant, found by fitting a mode shape on a floor (farFieldFit.ts) and subtracted before anything else.
// Axis: from the same fit. The standard's integrals (petermannIntegral.ts) then run over a spline of the measured
// points from the axis to the last angle at which the fitted shape is still above the noise; where one side
// of the scan is shorter, the other side replaces it. What lies beyond is estimated from the fitted shape: the
// result is corrected for up to 1 %, and not at all for more (farFieldTruncation.ts).
// Valid for circular modes; scalar far field, so doubtful below about MFD = 1.5 λ.

import { InputError, requireInRange } from '../../numerics/inputError'
import { fixedText, plainText, withMinus } from '../../numerics/numberText'
import { type CubicSpline, cubicSpline, splineValue } from '../fit/cubicSpline'
import { type NoiseModel, residualNoise, scanNoise } from '../fit/noiseModel'
import { orderScan } from '../fit/orderedScan'
import { combine, typeA, typeB, type UncertaintyBudget } from '../fit/uncertaintyBudget'
import { type Widening, wideningOf } from '../fit/widening'
import { farFieldBacklashRad, farFieldDrift } from './farFieldDrift'
import { type FarFieldFit, type FarFieldShape, fitFarField } from './farFieldFit'
import { bestGaussianS0 } from './farFieldGaussian'
import { meanHalfAngle } from './farFieldHalfAngle'
import { fittedResiduals, integralSlopes, noiseThrough, withFloorLowered } from './farFieldNoise'
import { truncationBias, truncationOf } from './farFieldTruncation'
import { farFieldWarnings } from './farFieldWarnings'
import { type PetermannIntegrals, petermann2MfdUm, petermannIntegrals } from './petermannIntegral'

export interface FarFieldInput {
  readonly angleRad: ArrayLike<number>
  /** Linear, any unit. */
  readonly power: ArrayLike<number>
  readonly wavelengthUm: number
  /** Standard uncertainties that cannot be found from the scan itself; a missing one is taken as 0. */
  readonly wavelengthStandardUm?: number
  /** Of the angular scale, as a fraction. */
  readonly angleScaleStandard?: number
  /** Of the detector's exponent: a reading that goes as power^(1 + e). */
  readonly linearityStandard?: number
}

export interface FarFieldResult {
  /** By the standard's integral, corrected for the end of the scan where that matters by 1 % at most. */
  readonly petermann2MfdUm: number
  readonly axisRad: number
  /** Expanded, k = 2, plus the size of a truncation bias that is not corrected. */
  readonly uncertaintyUm: number
  readonly warnings: readonly string[]
  readonly budget: UncertaintyBudget
  /** The integral alone, without any correction. */
  readonly integralMfdUm: number
  /** From the side of growing and of falling angle alone, both to the same limit, corrected like the result. */
  readonly halvesUm: { readonly positive: number; readonly negative: number }
  /** Set where the residuals are correlated. */
  readonly widening: Widening | null
  /** Axis of the rising less that of the falling direction; null for a scan moved one way. */
  readonly backlashRad: number | null
  /** Angle from the axis at which the integrals end. */
  readonly limitRad: number
  /** How much too large the integral reads because it ends at limitRad, as a fraction, by the fitted shape's near field. */
  readonly truncationBias: number
  /** True where the result is the integral less that bias; false where the bias is too large to be corrected. */
  readonly truncationIsCorrected: boolean
  /** The integral less that bias, corrected or not: rests on the fitted shape beyond the last angle. */
  readonly extrapolatedMfdUm: number
  readonly floorPower: number
  readonly peakPower: number
  readonly fittedShape: FarFieldFit['shape']
  /** Of the Gaussian that overlaps best: the value to use per axis where a mode is not circular. */
  readonly gaussianMfdUm: number
  /** Half-angles, mean of both sides; null where the scan does not reach that level. */
  readonly halfAngleE2Rad: number | null
  readonly halfAngle5PercentRad: number | null
  /** Sine of the 5 % half-angle. */
  readonly na: number | null
  /** Floor-subtracted power over angle from the axis, sorted, for plots; and the fitted shape at those angles. */
  readonly profile: {
    readonly angleRad: Float64Array
    readonly power: Float64Array
    readonly fitted: Float64Array
  }
}

/** Weighted rms residual above which the fitted shape is not taken for the mode's. */
const POOR_MISFIT = 3
/** Peak over floor below which there is nothing to measure: no detector resolves a peak 90 dB below its own floor. */
const LEAST_PEAK = 1e-9

const degrees = (angleRad: number) => `${fixedText((angleRad * 180) / Math.PI, 1)}°`

/**
 * Evaluates one scan. Angles in rad within ±π/2, in any order, at least 8; powers linear.
 * InputError for values that are not finite, too few points, no signal, angles that must be degrees, or a scan
 * that does not hold a peak with both flanks.
 */
export function farFieldMfd(input: FarFieldInput): FarFieldResult {
  const wavelengthUm = requireInRange('wavelengthUm', input.wavelengthUm, 0.2, 20)
  const scan = orderScan('angle', input.angleRad, input.power)
  const first = scan.at[0] ?? 0
  const last = scan.at.at(-1) ?? 0
  if (first < -Math.PI / 2 || last > Math.PI / 2) {
    throw new InputError(
      'range of the angles',
      withMinus(`${plainText(first, 4)} to ${plainText(last, 4)} rad`),
      'within ± 1.5708 rad; check whether they are in degrees',
    )
  }
  const local = scanNoise(scan.at, scan.power)
  const fit = fitFarField(scan.at, scan.power, local)
  if (fit.axisRad - first < (last - first) / 20 || last - fit.axisRad < (last - first) / 20) {
    throw new InputError(
      'range of the scan',
      `${degrees(first)} to ${degrees(last)}`,
      `wide enough for both flanks of the peak near ${degrees(fit.axisRad)}`,
    )
  }
  const power = scan.power.map((value) => value - fit.floorPower)
  const spline = cubicSpline(scan.at, power)
  const side = { positive: last - fit.axisRad, negative: fit.axisRad - first }
  const integralTo = (limitRad: number, through: CubicSpline) => {
    const along = (direction: 1 | -1, reach: number) => (angle: number) =>
      splineValue(through, fit.axisRad + (angle <= reach ? direction : -direction) * angle)
    return {
      positive: petermannIntegrals(along(1, side.positive), limitRad),
      negative: petermannIntegrals(along(-1, side.negative), limitRad),
    }
  }
  const integrate = (noise: NoiseModel) => {
    const farthest = Math.max(side.positive, side.negative)
    const limitRad = Math.min(signalLimit(fit, noise.absolute, farthest), Math.PI / 2)
    const whole = sum(integralTo(limitRad, spline))
    const slopes = integralSlopes(scan, fit.axisRad, limitRad, whole)
    return { noise, limitRad, whole, slopes, noiseShare: noiseThrough(slopes, scan, noise) }
  }
  // Both estimates contain the noise and a systematic error: too few points per lobe, or a shape other than that of the mode.
  const byNeighbours = integrate(local)
  const byShape = integrate(residualNoise(fittedResiduals(scan, fit), power, fit.parameterCount))
  const { noise, limitRad, whole, slopes, noiseShare } =
    byShape.noiseShare < byNeighbours.noiseShare ? byShape : byNeighbours
  const integralUm = petermann2MfdUm(whole, wavelengthUm)
  if (!(integralUm > 0) || !(fit.peakPower > LEAST_PEAK * Math.abs(fit.floorPower)))
    throw new InputError(
      'net signal of the scan',
      'zero or negative',
      'positive, with a peak above the floor',
    )

  const truncation = truncationOf(fit, limitRad)
  const factor = (shape: FarFieldShape, limit: number) =>
    truncation.isCorrected ? 1 + truncationBias(shape, limit) : 1
  const mfdUm = integralUm / factor(fit, limitRad)
  const shared = Math.min(side.positive, side.negative, limitRad)
  const halves = integralTo(shared, spline)
  const positive = petermann2MfdUm(halves.positive, wavelengthUm) / factor(fit, shared)
  const negative = petermann2MfdUm(halves.negative, wavelengthUm) / factor(fit, shared)
  if (!(positive > 0 && negative > 0))
    throw new InputError('net signal on one side of the scan', 'zero or negative', 'positive on both sides')

  const byFloorAndShape = (floorPower: number, shape: FarFieldShape) =>
    withFloorLowered(whole, limitRad, fit.floorPower - floorPower, wavelengthUm) / factor(shape, limitRad)
  const throughFit = fit.influenceOf(byFloorAndShape)
  const weights = slopes.map((slope, i) => mfdUm * slope + (throughFit[i] as number))
  const noiseUm = noiseThrough(weights, scan, noise)
  const drift = farFieldDrift(scan, fit, noise, weights)
  const widening = wideningOf(
    Math.hypot(noiseUm, drift.standardUm),
    noiseUm,
    scan.taken.at.length,
    drift.causes,
  )
  const backlashRad = farFieldBacklashRad(scan, fit)
  const backlashShare = backlashRad === null ? 0 : smearBias(fit, limitRad, backlashRad / 2)
  // A shape that does not fit cannot separate floor and wings: then anything from no floor to all of it is possible.
  const withoutFloor = byFloorAndShape(0, fit)
  const floorChange = Number.isFinite(withoutFloor) ? Math.abs(withoutFloor - mfdUm) : mfdUm
  const floorDoubt = fit.misfit > POOR_MISFIT ? floorChange / Math.sqrt(3) : 0
  // The halves differ by twice the noise of the whole; what exceeds two standard deviations is not noise.
  const unevenness = Math.sqrt(Math.max(0, (positive - negative) ** 2 - (4 * mfdUm * noiseShare) ** 2))
  // The fitted shape through the same points shows the error of a spline between them.
  const atPoints = scan.at.map((angle) => fit.intensity(Math.abs(Math.sin(angle - fit.axisRad))))
  const interpolated = petermann2MfdUm(
    sum(integralTo(limitRad, cubicSpline(scan.at, atPoints))),
    wavelengthUm,
  )
  const spacing = Math.abs(interpolated / (fit.mfdInWavelengths * wavelengthUm * (1 + truncation.bias)) - 1)
  const ofBothSides = (angle: number) =>
    (splineValue(spline, fit.axisRad + (angle <= side.positive ? angle : -angle)) +
      splineValue(spline, fit.axisRad - (angle <= side.negative ? angle : -angle))) /
    2
  const s0 = bestGaussianS0(ofBothSides, fit.peakPower, limitRad, 2 / (Math.PI * fit.mfdInWavelengths))
  const budget = combine(
    [
      typeA('noise of the scan', noiseUm, scan.at.length - 5),
      typeA('correlated residuals', drift.standardUm, scan.at.length - 5),
      typeB('backlash', (mfdUm * backlashShare) / Math.sqrt(3)),
      typeB('spacing of the points', mfdUm * spacing),
      typeB('floor', floorDoubt),
      typeB('far field beyond the scan', truncation.isCorrected ? mfdUm * truncation.shapeStandard : 0),
      typeB('difference between the halves', unevenness / Math.sqrt(12)),
      typeB('wavelength', (mfdUm * (input.wavelengthStandardUm ?? 0)) / wavelengthUm),
      typeB('angular scale', mfdUm * (input.angleScaleStandard ?? 0)),
      typeB('detector linearity', (mfdUm * (input.linearityStandard ?? 0)) / 2),
    ],
    !truncation.isCorrected && Number.isFinite(truncation.bias) ? truncation.bias * mfdUm : 0,
  )
  const halfAngle = (level: number) => meanHalfAngle(scan.at, power, fit, level)
  const na = halfAngle(0.05)
  const result: Omit<FarFieldResult, 'warnings'> = {
    petermann2MfdUm: mfdUm,
    axisRad: fit.axisRad,
    uncertaintyUm: budget.expandedUm,
    budget,
    integralMfdUm: integralUm,
    halvesUm: { positive, negative },
    widening,
    backlashRad,
    limitRad,
    truncationBias: truncation.bias,
    truncationIsCorrected: truncation.isCorrected,
    extrapolatedMfdUm: integralUm / (1 + truncation.bias),
    floorPower: fit.floorPower,
    peakPower: fit.peakPower,
    fittedShape: fit.shape,
    gaussianMfdUm: (2 * wavelengthUm) / (Math.PI * s0),
    halfAngleE2Rad: halfAngle(Math.exp(-2)),
    halfAngle5PercentRad: na,
    na: na === null ? null : Math.sin(na),
    profile: {
      angleRad: scan.at.map((angle) => angle - fit.axisRad),
      power,
      fitted: scan.at.map((angle) => fit.peakPower * fit.intensity(Math.abs(Math.sin(angle - fit.axisRad)))),
    },
  }
  return { ...result, warnings: [...scan.warnings, ...farFieldWarnings(result, wavelengthUm, fit.misfit)] }
}

const sum = (sides: {
  readonly positive: PetermannIntegrals
  readonly negative: PetermannIntegrals
}): PetermannIntegrals => ({
  power: sides.positive.power + sides.negative.power,
  moment: sides.positive.moment + sides.negative.moment,
})

/** Relative change of the diameter where two directions of travel, so far from their mean, were averaged. */
function smearBias(fit: FarFieldFit, limitRad: number, awayRad: number): number {
  const diameter = (away: number) => {
    const at = (angle: number) => fit.intensity(Math.abs(Math.sin(angle)))
    return petermann2MfdUm(
      petermannIntegrals((angle) => (at(angle + away) + at(angle - away)) / 2, limitRad),
      1,
    )
  }
  return Math.abs(diameter(awayRad) / diameter(0) - 1)
}

/** The largest angle up to `reach` at which the fitted shape is not below the floor's noise. */
function signalLimit(fit: FarFieldFit, noise: number, reach: number): number {
  const steps = 1000
  for (let i = steps; i > 0; i--) {
    const angle = (i / steps) * reach
    if (fit.peakPower * fit.intensity(Math.sin(angle)) >= noise) return angle
  }
  return reach
}
