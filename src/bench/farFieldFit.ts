// A mode shape on a constant floor, fitted to a far-field scan. The measured integral does not use the shape; the
// fit serves to find the axis, to separate the floor from the mode's own wings, and to estimate what lies beyond
// the last angle. Both shapes are tried and the one that the scan fits better is kept.

import { type FitResult, leastSquares } from '../numerics/leastSquares'
import { quantile } from '../numerics/statistics'
import { solveLp01 } from '../optics/stepIndexMode'
import { gaussianIntensity, lp01Intensity, lp01Petermann2Ratio } from './farFieldShape'
import { type NoiseModel, noiseSigma } from './noiseModel'

export interface FarFieldFit {
  readonly shape: 'gaussian' | 'step-index'
  readonly axisRad: number
  readonly peakPower: number
  readonly floorPower: number
  /** Standard errors of the fit. */
  readonly axisStandardRad: number
  readonly floorStandardPower: number
  /** Intensity over s = |sin θ| from the axis, 1 on it. */
  readonly intensity: (s: number) => number
  /** Petermann II diameter of the shape's whole near field, in wavelengths. */
  readonly mfdInWavelengths: number
  /** Weighted rms residual: 1 where the shape explains the scan to 1 % of the local signal plus the noise. */
  readonly misfit: number
}

/** No real mode is either shape exactly: a fit that trusts the peak to better than this loses the wings. */
const SHAPE_TRUST = 0.01
/** Longer scans are fitted on every n-th point: the shape has five parameters. */
const FITTED_POINTS = 512

interface GaussianWidth {
  readonly axisRad: number
  /** sin θ at 1/e² of the axis intensity. */
  readonly s0: number
  readonly peakPower: number
  readonly floorPower: number
}

/** Plain least squares of a Gaussian in sin θ on a constant floor: the start of the weighted fits. */
function fitGaussianFarField(angleRad: Float64Array, power: Float64Array): GaussianWidth {
  const start = gaussianStart(angleRad, power)
  const fit = leastSquares({
    start: [start.peak, start.axis, start.s0, start.floor],
    typical: [start.peak, start.s0, start.s0, start.peak],
    residualCount: angleRad.length,
    residuals: (p, out) => {
      for (let i = 0; i < angleRad.length; i++) {
        const s = Math.sin((angleRad[i] ?? 0) - (p[1] ?? 0))
        out[i] = (p[0] ?? 0) * gaussianIntensity(p[2] ?? 1, s) + (p[3] ?? 0) - (power[i] ?? 0)
      }
    },
    lower: [0, angleRad[0] ?? 0, 1e-3, -Infinity],
    upper: [Infinity, angleRad.at(-1) ?? 0, 5, Infinity],
  })
  const [peakPower = 0, axisRad = 0, s0 = 1, floorPower = 0] = fit.parameters
  return { axisRad, s0, peakPower, floorPower }
}

/** Peak, axis and width from the points above half the range. */
function gaussianStart(angleRad: Float64Array, power: Float64Array) {
  const floor = quantile(power, 0.05)
  let top = -Infinity
  for (const value of power) if (value > top) top = value
  let area = 0
  let first = 0
  let second = 0
  for (let i = 0; i < power.length; i++) {
    const above = (power[i] ?? 0) - floor - 0.3 * (top - floor)
    if (above <= 0) continue
    // Weighted by spacing, so that uneven scans do not pull the axis.
    const weight = above * ((angleRad[i + 1] ?? angleRad[i] ?? 0) - (angleRad[i - 1] ?? angleRad[i] ?? 0))
    area += weight
    first += weight * (angleRad[i] ?? 0)
    second += weight * (angleRad[i] ?? 0) ** 2
  }
  const axis = first / area
  const rms = Math.sqrt(Math.max(second / area - axis * axis, 1e-8))
  return { peak: top - floor, axis, s0: 3 * rms, floor }
}

/** Fits both shapes with weights from `noise` and keeps the better one. Arrays ascending in angle. */
export function fitFarField(angleRad: Float64Array, power: Float64Array, noise: NoiseModel): FarFieldFit {
  const stride = Math.ceil(angleRad.length / FITTED_POINTS)
  const at = angleRad.filter((_, i) => i % stride === 0)
  const measured = power.filter((_, i) => i % stride === 0)
  const rough = fitGaussianFarField(at, measured)
  const sigma = measured.map((value) => {
    const level = Math.max(0, value)
    return Math.hypot(noiseSigma(noise, level), SHAPE_TRUST * level) + 1e-9 * rough.peakPower
  })
  const lowest = measured.reduce((low, value) => Math.min(low, value), 0)
  const fewest = quantile(measured, 0.1) + 2 * noise.absolute
  const common = {
    lower: [0, at[0] ?? 0, lowest],
    upper: [Infinity, at.at(-1) ?? 0, Math.max(fewest, lowest)],
    start: [rough.peakPower, rough.axisRad, Math.min(Math.max(rough.floorPower, lowest), fewest)],
  }
  const solve = (
    start: number[],
    lower: number[],
    upper: number[],
    shape: (p: Float64Array) => (s: number) => number,
  ) =>
    leastSquares(
      {
        start: [...common.start, ...start],
        typical: [rough.peakPower, rough.s0, rough.peakPower, ...start],
        lower: [...common.lower, ...lower],
        upper: [...common.upper, ...upper],
        residualCount: at.length,
        residuals: (p, out) => {
          const intensity = shape(p)
          for (let i = 0; i < at.length; i++) {
            const s = Math.abs(Math.sin((at[i] ?? 0) - (p[1] ?? 0)))
            out[i] = ((p[0] ?? 0) * intensity(s) + (p[2] ?? 0) - (measured[i] ?? 0)) / (sigma[i] ?? 1)
          }
        },
      },
      { maxIterations: 60, relativeGain: 1e-9, relativeStep: 1e-9 },
    )
  const gaussianShape = (p: Float64Array) => (s: number) => gaussianIntensity(p[3] ?? 1, s)
  const stepShape = (p: Float64Array) => {
    const roots = solveLp01(p[4] ?? 2)
    return (s: number) => lp01Intensity(roots, (p[3] ?? 1) * s)
  }
  const gaussian = solve([rough.s0], [1e-3], [5], gaussianShape)
  // α = 1.3976 at 1/e² for V = 2.
  const step = solve([1.4 / rough.s0, 2], [0.05 / rough.s0, 0.6], [20 / rough.s0, 6], stepShape)
  return step.sumOfSquares < gaussian.sumOfSquares
    ? summary('step-index', step, stepShape, at.length)
    : summary('gaussian', gaussian, gaussianShape, at.length)
}

function summary(
  shape: FarFieldFit['shape'],
  fit: FitResult,
  make: (p: Float64Array) => (s: number) => number,
  points: number,
): FarFieldFit {
  const [peakPower = 0, axisRad = 0, floorPower = 0, width = 1, v = 2] = fit.parameters
  return {
    shape,
    mfdInWavelengths:
      shape === 'gaussian' ? 2 / (Math.PI * width) : (width / Math.PI) * lp01Petermann2Ratio(solveLp01(v)),
    axisRad,
    peakPower,
    floorPower,
    axisStandardRad: fit.standardErrors?.[1] ?? 0,
    floorStandardPower: fit.standardErrors?.[2] ?? 0,
    intensity: make(Float64Array.from(fit.parameters)),
    misfit: Math.sqrt(fit.sumOfSquares / points),
  }
}
