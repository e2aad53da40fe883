// Petermann II mode-field diameter from an angular scan of the far field.
//
// Floor: a constant, found by fitting a mode shape on a floor (farFieldFit.ts) and subtracted before anything else.
// Axis: from the same fit. The standard's integrals (petermannIntegral.ts) then run over a spline of the measured
// points from the axis to the last angle at which the fitted shape still stands above the noise; where one side
// of the scan is shorter, the other side stands in for it. What lies beyond is estimated from the fitted shape and
// reported as `truncationBias`: the result is not corrected for it, its uncertainty is widened by it.
// Valid for circular modes; scalar far field, so doubtful below about MFD = 1.5 λ.

import { InputError, requireInRange } from '../numerics/inputError'
import { cubicSpline, splineValue } from './cubicSpline'
import { type FarFieldFit, fitFarField } from './farFieldFit'
import { bestGaussianS0 } from './farFieldGaussian'
import { farFieldWarnings } from './farFieldWarnings'
import { noiseSigma, scanNoise } from './noiseModel'
import { orderScan } from './orderedScan'
import { type PetermannIntegrals, petermann2MfdUm, petermannIntegrals } from './petermannIntegral'
import { combine, typeA, typeB, type UncertaintyBudget } from './uncertaintyBudget'

export interface FarFieldInput {
  readonly angleRad: ArrayLike<number>
  /** Linear, any unit. */
  readonly power: ArrayLike<number>
  readonly wavelengthUm: number
  /** Standard uncertainties that the scan itself cannot show; a missing one is taken as 0. */
  readonly wavelengthStandardUm?: number
  /** Of the angular scale, as a fraction. */
  readonly angleScaleStandard?: number
  /** Of the detector's exponent: a reading that goes as power^(1 + e). */
  readonly linearityStandard?: number
}

export interface FarFieldResult {
  readonly petermann2MfdUm: number
  readonly axisRad: number
  /** Expanded, k = 2, plus the size of the truncation bias. */
  readonly uncertaintyUm: number
  readonly warnings: readonly string[]
  readonly budget: UncertaintyBudget
  /** From the side of growing and of falling angle alone, both to the same limit. */
  readonly halvesUm: { readonly positive: number; readonly negative: number }
  /** Angle from the axis at which the integrals end. */
  readonly limitRad: number
  /** How much too large the integral reads because it ends at limitRad, as a fraction, by the fitted shape's near field. */
  readonly truncationBias: number
  /** The result less that bias: an estimate that rests on the fitted shape beyond the last angle. */
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

/**
 * Evaluates one scan. Angles in rad within ±π/2, in any order, at least 8; powers linear.
 * InputError for values that are not finite, too few points, no signal, angles that must be degrees, or a scan
 * that does not hold a peak with both flanks.
 */
export function farFieldMfd(input: FarFieldInput): FarFieldResult {
  const wavelengthUm = requireInRange('wavelengthUm', input.wavelengthUm, 0.2, 20)
  const scan = orderScan('angleRad', input.angleRad, input.power)
  const first = scan.at[0] ?? 0
  const last = scan.at.at(-1) ?? 0
  if (first < -Math.PI / 2 || last > Math.PI / 2) {
    throw new InputError('angleRad', `${first} to ${last}`, 'within ±1.5708: are these degrees?')
  }
  const noise = scanNoise(scan.at, scan.power)
  const fit = fitFarField(scan.at, scan.power, noise)
  if (fit.axisRad - first < (last - first) / 20 || last - fit.axisRad < (last - first) / 20) {
    throw new InputError(
      'angleRad',
      `${first} to ${last}`,
      `a scan over both flanks of the peak, which is near ${fit.axisRad}`,
    )
  }
  const power = scan.power.map((value) => value - fit.floorPower)
  const spline = cubicSpline(scan.at, power)
  const side = { positive: last - fit.axisRad, negative: fit.axisRad - first }
  const limitRad = Math.min(
    signalLimit(fit, noise.absolute, Math.max(side.positive, side.negative)),
    Math.PI / 2,
  )
  const along = (direction: 1 | -1, reach: number) => (angle: number) =>
    splineValue(spline, fit.axisRad + (angle <= reach ? direction : -direction) * angle)
  const shared = Math.min(side.positive, side.negative, limitRad)
  const whole = add(
    petermannIntegrals(along(1, side.positive), limitRad),
    petermannIntegrals(along(-1, side.negative), limitRad),
  )
  const mfdUm = petermann2MfdUm(whole, wavelengthUm)
  if (!(mfdUm > 0)) throw new InputError('power', 'a scan without a net signal', 'a peak above its own floor')
  const positive = petermann2MfdUm(petermannIntegrals(along(1, side.positive), shared), wavelengthUm)
  const negative = petermann2MfdUm(petermannIntegrals(along(-1, side.negative), shared), wavelengthUm)

  const shape = (angle: number) => fit.intensity(Math.sin(angle))
  const seen = petermann2MfdUm(petermannIntegrals(shape, limitRad), wavelengthUm)
  const full = fit.mfdInWavelengths * wavelengthUm
  const truncationBias = seen / full - 1

  const noisePart = noiseUm(scan.at, scan.power, fit, limitRad, whole, mfdUm, noise)
  // A shape that does not fit cannot tell floor from wings: then anything from no floor to all of it is possible.
  const floorDoubt = fit.misfit > POOR_MISFIT ? Math.abs(fit.floorPower) / Math.sqrt(3) : 0
  const floorStandard = Math.hypot(fit.floorStandardPower, floorDoubt)
  const step = Math.max(floorStandard, 1e-6 * fit.peakPower)
  const floorSlope = (petermann2MfdUm(withFloor(whole, limitRad, step), wavelengthUm) - mfdUm) / step
  const unevenness = Math.sqrt(Math.max(0, (positive - negative) ** 2 - (4 * noisePart) ** 2))
  const sides = (angle: number) => (along(1, side.positive)(angle) + along(-1, side.negative)(angle)) / 2
  const s0 = bestGaussianS0(sides, fit.peakPower, limitRad, 2 / (Math.PI * fit.mfdInWavelengths))
  const budget = combine(
    [
      typeA('noise of the scan', noisePart, scan.at.length - 5),
      typeA('floor', Math.abs(floorSlope) * floorStandard, scan.at.length - 5),
      typeB('difference of the halves', unevenness / Math.sqrt(12)),
      typeB('wavelength', (mfdUm * (input.wavelengthStandardUm ?? 0)) / wavelengthUm),
      typeB('angular scale', mfdUm * (input.angleScaleStandard ?? 0)),
      typeB('detector linearity', (mfdUm * (input.linearityStandard ?? 0)) / 2),
    ],
    Number.isFinite(truncationBias) ? truncationBias * mfdUm : 0,
  )
  const halfAngle = (level: number) => meanHalfAngle(scan.at, power, fit, level)
  const na = halfAngle(0.05)
  const result: Omit<FarFieldResult, 'warnings'> = {
    petermann2MfdUm: mfdUm,
    axisRad: fit.axisRad,
    uncertaintyUm: budget.expandedUm,
    budget,
    halvesUm: { positive, negative },
    limitRad,
    truncationBias,
    extrapolatedMfdUm: mfdUm / (1 + truncationBias),
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

const add = (a: PetermannIntegrals, b: PetermannIntegrals): PetermannIntegrals => ({
  power: a.power + b.power,
  moment: a.moment + b.moment,
})

/** The integrals after lowering a floor that was left in both sides by `extra`. */
function withFloor(whole: PetermannIntegrals, limitRad: number, extra: number): PetermannIntegrals {
  const s2 = Math.sin(limitRad) ** 2
  return { power: whole.power + extra * s2, moment: whole.moment + (extra * s2 * s2) / 2 }
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

/** Standard uncertainty from point noise: both integrals are sums over the points, so it propagates linearly. */
function noiseUm(
  at: Float64Array,
  power: Float64Array,
  fit: FarFieldFit,
  limitRad: number,
  whole: PetermannIntegrals,
  mfdUm: number,
  noise: { absolute: number; relative: number },
): number {
  let variance = 0
  for (let i = 0; i < at.length; i++) {
    const angle = Math.abs((at[i] ?? 0) - fit.axisRad)
    if (angle > limitRad) continue
    const width = ((at[i + 1] ?? at[i] ?? 0) - (at[i - 1] ?? at[i] ?? 0)) / 2
    const s = Math.sin(angle)
    const weight = s * Math.cos(angle) * width
    const slope = weight / whole.power - (weight * s * s) / whole.moment
    variance += (slope * noiseSigma(noise, Math.max(0, power[i] ?? 0))) ** 2
  }
  return (mfdUm / 2) * Math.sqrt(variance)
}

/** Where the measured curve falls through `level` of the fitted peak, mean of both sides; null if one side never does. */
function meanHalfAngle(
  at: Float64Array,
  power: Float64Array,
  fit: FarFieldFit,
  level: number,
): number | null {
  const threshold = level * fit.peakPower
  const middle = at.findIndex((angle) => angle >= fit.axisRad)
  let sum = 0
  for (const direction of [1, -1]) {
    let found: number | null = null
    for (let i = direction > 0 ? middle : middle - 1; at[i + direction] !== undefined; i += direction) {
      const inner = power[i] ?? 0
      const outer = power[i + direction] ?? 0
      if (inner < threshold || outer >= threshold) continue
      // The logarithm is nearly straight in θ² between neighbours.
      const a2 = ((at[i] ?? 0) - fit.axisRad) ** 2
      const b2 = ((at[i + direction] ?? 0) - fit.axisRad) ** 2
      const share =
        outer > 0
          ? Math.log(inner / threshold) / Math.log(inner / outer)
          : (inner - threshold) / (inner - outer)
      found = Math.sqrt(a2 + share * (b2 - a2))
      break
    }
    if (found === null) return null
    sum += found / 2
  }
  return sum
}
