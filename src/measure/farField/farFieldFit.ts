// A mode shape on a constant floor, fitted to a far-field scan. The measured integral does not use the shape; the
// fit serves to find the axis, to separate the floor from the mode's own wings, and to estimate what lies beyond
// the last angle. Both shapes are tried and the one that the scan fits better is kept.

import { type FitResult, leastSquares } from '../../numerics/linear/leastSquares'
import { quantile } from '../../numerics/statistics'
import { solveLp01 } from '../../optics/fibre/stepIndexMode'
import { type NoiseModel, noiseSigma } from '../fit/noiseModel'
import { gaussianIntensity, lp01Intensity, lp01Petermann2Ratio } from './farFieldShape'

/** A mode by its far field and its near field. */
export interface FarFieldShape {
  /** Intensity over s = |sin θ| from the axis, 1 on it. */
  readonly intensity: (s: number) => number
  /** Petermann II diameter of the whole near field, in wavelengths. */
  readonly mfdInWavelengths: number
}

export interface FarFieldFit extends FarFieldShape {
  readonly shape: 'gaussian' | 'step-index'
  readonly axisRad: number
  readonly peakPower: number
  readonly floorPower: number
  /**
   * Change of any function of floor and shape with each of the scan's powers, through the fit: floor and shape are
   * made of the same noise that the integral sums, and partly undo it. 0 at points that were left out of the fit.
   */
  readonly influenceOf: (f: (floorPower: number, shape: FarFieldShape) => number) => Float64Array
  readonly parameterCount: number
  /** The fitted power at any angles less the floor, and its change with every parameter, floor included. */
  readonly linearised: (angleRad: Float64Array) => {
    readonly signal: Float64Array
    readonly columns: readonly Float64Array[]
  }
  /** Weighted rms residual: 1 where the shape explains the scan to 1 % of the local signal plus the noise. */
  readonly misfit: number
}

/** No real mode has either shape exactly: a fit that weights the peak more strongly than this neglects the wings. */
const SHAPE_TRUST = 0.01
/** Longer scans are fitted on every n-th point: the shape has five parameters. */
const FITTED_POINTS = 512
/** Every start is followed this far, and only the best one of a shape to its end. */
const TRIAL_ITERATIONS = 20
const MOST_ITERATIONS = 60

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
        const s = Math.sin((angleRad[i] as number) - (p[1] ?? 0))
        out[i] = (p[0] ?? 0) * gaussianIntensity(p[2] ?? 1, s) + (p[3] ?? 0) - (power[i] as number)
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
    const above = (power[i] as number) - floor - 0.3 * (top - floor)
    if (above <= 0) continue
    // Weighted by spacing, so that uneven scans do not pull the axis.
    const weight = above * ((angleRad[i + 1] ?? angleRad[i] ?? 0) - (angleRad[i - 1] ?? angleRad[i] ?? 0))
    area += weight
    first += weight * (angleRad[i] as number)
    second += weight * (angleRad[i] as number) ** 2
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
  const least = measured.reduce((low, value) => Math.min(low, value), 0)
  const fewest = quantile(measured, 0.1) + 2 * noise.absolute
  const common = {
    lower: [0, at[0] ?? 0, least],
    upper: [Infinity, at.at(-1) ?? 0, Math.max(fewest, least)],
    start: [rough.peakPower, rough.axisRad, Math.min(Math.max(rough.floorPower, least), fewest)],
  }
  const residualsOf = (family: Family) => (p: Float64Array, out: Float64Array) => {
    const { intensity } = family.make(p)
    for (let i = 0; i < at.length; i++) {
      const s = Math.abs(Math.sin((at[i] as number) - (p[1] ?? 0)))
      out[i] = ((p[0] ?? 0) * intensity(s) + (p[2] ?? 0) - (measured[i] as number)) / (sigma[i] as number)
    }
  }
  const solve = (family: Family, start: readonly number[], maxIterations: number) =>
    leastSquares(
      {
        start,
        typical: [rough.peakPower, rough.s0, rough.peakPower, ...start.slice(3)],
        lower: [...common.lower, ...family.lower(rough.s0)],
        upper: [...common.upper, ...family.upper(rough.s0)],
        residualCount: at.length,
        residuals: residualsOf(family),
      },
      { maxIterations, relativeGain: 1e-9, relativeStep: 1e-9 },
    )
  const fits = FAMILIES.map((family) => {
    const trials = family
      .starts(rough.s0)
      .map((start) => solve(family, [...common.start, ...start], TRIAL_ITERATIONS))
    return { family, fit: solve(family, lowest(trials, (trial) => trial).parameters, MOST_ITERATIONS) }
  })
  const { family, fit } = lowest(fits, (each) => each.fit)
  const [peakPower = 0, axisRad = 0, floorPower = 0] = fit.parameters
  return {
    ...family.make(fit.parameters),
    shape: family.shape,
    axisRad,
    peakPower,
    floorPower,
    parameterCount: fit.parameters.length,
    linearised: (angles) => linearised(family, fit.parameters, rough.peakPower, angles),
    misfit: Math.sqrt(fit.sumOfSquares / at.length),
    influenceOf: (f) => {
      const influence = new Float64Array(power.length)
      const onParameters = (p: Float64Array) => f(p[2] ?? 0, family.make(p))
      pointInfluence(fit, rough.peakPower, residualsOf(family), onParameters).forEach((value, i) => {
        influence[i * stride] = value / (sigma[i] as number)
      })
      return influence
    },
  }
}

function linearised(
  family: Family,
  parameters: readonly number[],
  peakPower: number,
  angleRad: Float64Array,
) {
  const signalAt = (p: readonly number[]) => {
    const { intensity } = family.make(p)
    return angleRad.map(
      (angle) =>
        (p[0] as number) * intensity(Math.abs(Math.sin(angle - (p[1] as number)))) + (p[2] as number),
    )
  }
  const columns = parameters.map((value, j) => {
    const delta = differenceStep(j, value, peakPower)
    const moved = (by: number) => signalAt(parameters.map((each, k) => (k === j ? each + by : each)))
    const down = moved(-delta)
    return moved(delta).map((up, i) => (up - (down[i] as number)) / (2 * delta))
  })
  const floor = parameters[2] as number
  return { signal: signalAt(parameters).map((power) => power - floor), columns }
}

/** Of peak and floor relative to the peak, of all others relative to themselves. */
function differenceStep(j: number, value: number, peakPower: number): number {
  return 1e-5 * (j === 0 || j === 2 ? peakPower : Math.abs(value) + 1e-3)
}

function lowest<T>(candidates: readonly T[], fitOf: (candidate: T) => FitResult): T {
  return candidates.reduce((best, each) =>
    fitOf(each).sumOfSquares < fitOf(best).sumOfSquares ? each : best,
  )
}

/**
 * How `f` of the parameters follows each residual at the best fit: δp = −C Jᵀ δr. `f` may depend on floor and shape;
 * peak and axis are omitted, which change no ratio of integrals to first order.
 */
function pointInfluence(
  { parameters, unscaledCovariance, residuals }: FitResult,
  peakPower: number,
  residualsAt: (p: Float64Array, out: Float64Array) => void,
  f: (p: Float64Array) => number,
): Float64Array {
  const count = parameters.length
  const influence = new Float64Array(residuals.length)
  if (unscaledCovariance === null) return influence
  const slope = <T>(
    j: number,
    evaluate: (p: Float64Array) => T,
    difference: (up: T, down: T, span: number) => T,
  ) => {
    const step = differenceStep(j, parameters[j] as number, peakPower)
    const moved = (by: number) =>
      evaluate(Float64Array.from(parameters, (value, k) => (k === j ? value + by : value)))
    return difference(moved(step), moved(-step), 2 * step)
  }
  const ofF = parameters.map((_, j) => (j < 2 ? 0 : slope(j, f, (up, down, span) => (up - down) / span)))
  const residualsOut = (p: Float64Array) => {
    const out = new Float64Array(residuals.length)
    residualsAt(p, out)
    return out
  }
  for (let j = 0; j < count; j++) {
    let weight = 0
    for (let k = 0; k < count; k++)
      weight += (ofF[k] as number) * (unscaledCovariance[k * count + j] as number)
    if (weight === 0) continue
    const column = slope(j, residualsOut, (up, down, span) =>
      up.map((value, i) => (value - (down[i] as number)) / span),
    )
    // Residuals are model minus data, so both signs cancel.
    for (let i = 0; i < influence.length; i++)
      influence[i] = (influence[i] as number) + weight * (column[i] as number)
  }
  return influence
}

interface Family {
  readonly shape: FarFieldFit['shape']
  /** Of the shape's own parameters, which follow peak, axis and floor; s0 is sin θ at 1/e². */
  readonly starts: (s0: number) => readonly (readonly number[])[]
  readonly lower: (s0: number) => readonly number[]
  readonly upper: (s0: number) => readonly number[]
  readonly make: (p: ArrayLike<number>) => FarFieldShape
}

/** α at 1/e² of the step-index LP01 far field, by V. From one V alone the fit can end at a lobe that is not there. */
const STEP_INDEX_STARTS = [
  [2, 1.3976],
  [1.6, 0.9925],
  [1.2, 0.5019],
  [2.405, 1.7099],
] as const

const FAMILIES: readonly Family[] = [
  {
    shape: 'gaussian',
    starts: (s0) => [[s0]],
    lower: () => [1e-3],
    upper: () => [5],
    make: (p) => {
      const s0 = p[3] ?? 1
      return { intensity: (s) => gaussianIntensity(s0, s), mfdInWavelengths: 2 / (Math.PI * s0) }
    },
  },
  {
    shape: 'step-index',
    starts: (s0) => STEP_INDEX_STARTS.map(([v, alpha]) => [alpha / s0, v]),
    lower: (s0) => [0.05 / s0, 0.6],
    upper: (s0) => [20 / s0, 6],
    make: (p) => {
      const kappa = p[3] ?? 1
      const roots = solveLp01(p[4] ?? 2)
      return {
        intensity: (s) => lp01Intensity(roots, kappa * s),
        mfdInWavelengths: (kappa / Math.PI) * lp01Petermann2Ratio(roots),
      }
    },
  },
]
