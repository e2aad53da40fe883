// Mode-field diameter from a transverse-offset scan: a known Gaussian probe moved across an unknown mode.
//   P(x) = A exp(−2 (x − c)² / W²) + b,   W² = (probe/2)² + (unknown/2)²
// Source: overlap of two aligned Gaussians, D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (from memory; confirmed by
// direct overlap integral). Valid for facets close enough that neither beam has spread (gap well below the
// Rayleigh range of the smaller mode) and for modes near a Gaussian.

import { InputError, requireInRange } from '../../numerics/inputError'
import { plainText, significantText, withMinus } from '../../numerics/numberText'
import { quantile } from '../../numerics/statistics'
import { type Gaussianity, gaussianity } from '../fit/gaussianity'
import { orderScan } from '../fit/orderedScan'
import { COVERAGE_FACTOR, combine, typeA, typeB, type UncertaintyBudget } from '../fit/uncertaintyBudget'
import { weightedFit } from '../fit/weightedFit'
import { conservativeNote, type Widening, wideningOf } from '../fit/widening'
import { fitOffsetScan, OFFSET_PARAMETER } from './offsetScanFit'
import { scannedWindows, type ToleranceWindow } from './toleranceWindow'

export interface OffsetScanInput {
  readonly positionUm: ArrayLike<number>
  /** Linear, any unit. */
  readonly power: ArrayLike<number>
  readonly probeMfdUm: number
  /** Standard uncertainties that the scan itself cannot show; a missing one is taken as 0. */
  readonly probeMfdStandardUm?: number
  /** Of the stage's scale, as a fraction. */
  readonly stageScaleStandard?: number
  /** Of the detector's exponent: the reading is proportional to power^(1 + e). */
  readonly linearityStandard?: number
}

export interface OffsetScanResult {
  readonly mfdUm: number
  readonly centreUm: number
  /** Expanded, k = 2. */
  readonly uncertaintyUm: number
  /** Relative to the fitted peak. */
  readonly residualRms: number
  readonly warnings: readonly string[]
  readonly budget: UncertaintyBudget
  readonly centreStandardUm: number
  /** Centre in the rising direction minus that in the falling one; null for a scan in one direction. */
  readonly backlashUm: number | null
  /** Set where the residuals are correlated. */
  readonly widening: Widening | null
  /** Set where faults that the residuals cannot show widen the interval. */
  readonly conservative: string | null
  readonly peakPower: number
  readonly backgroundPower: number
  /** W: the 1/e² radius of the scan itself. */
  readonly scanRadiusUm: number
  readonly windows: readonly ToleranceWindow[]
  readonly gaussianity: Gaussianity
  /** Sorted points, fitted curve and data − fit, for plots. */
  readonly profile: {
    readonly positionUm: Float64Array
    readonly power: Float64Array
    readonly fitted: Float64Array
    readonly residual: Float64Array
  }
}

/** Files carry five or six digits; their rounding is not random noise that a fit could detect. */
const NUMBER_RESOLUTION = 1e-6
const NON_GAUSSIAN_RMS = 0.02

/**
 * Evaluates one scan along one axis: at least 8 positions, in any order. InputError for values that are not
 * finite, no signal, a scan that does not contain a peak, or one that is not wider than the probe alone.
 */
export function offsetScanMfd(input: OffsetScanInput): OffsetScanResult {
  const probeMfdUm = requireInRange('probeMfdUm', input.probeMfdUm, 0.1, 200)
  const scan = orderScan('position', input.positionUm, input.power)
  const n = scan.at.length
  const start = startOf(scan.at, scan.power)
  const span = (scan.at.at(-1) ?? 0) - (scan.at[0] ?? 0)
  const curve = (p: Float64Array, i: number) => {
    const x = ((scan.at[i] as number) - (p[1] ?? 0)) / (p[2] ?? 1)
    return (p[0] ?? 0) * Math.exp(-2 * x * x)
  }
  const fit = weightedFit(
    {
      start: [start.peak, start.centre, start.radius, start.background],
      typical: [start.peak, start.radius, start.radius, start.peak],
      lower: [0, (scan.at[0] ?? 0) - span, span * 1e-6, -Infinity],
      upper: [Infinity, (scan.at.at(-1) ?? 0) + span, span * 10, Infinity],
      residualCount: n,
      residuals: (p, out) => {
        for (let i = 0; i < n; i++) out[i] = curve(p, i) + (p[3] ?? 0) - (scan.power[i] as number)
      },
    },
    (p, out) => {
      for (let i = 0; i < n; i++) out[i] = curve(p, i)
    },
  )
  const refined = fitOffsetScan(scan, fit.parameters)
  const [peakPower = 0, centreUm = 0, scanRadiusUm = 1, backgroundPower = 0] =
    refined?.parameters ?? fit.parameters
  if (!fit.converged || centreUm < (scan.at[0] ?? 0) || centreUm > (scan.at.at(-1) ?? 0)) {
    throw new InputError(
      'range of the scan',
      withMinus(`${plainText(scan.at[0] ?? 0, 4)} to ${plainText(scan.at.at(-1) ?? 0, 4)} µm`),
      'wide enough for the power to fall off on both sides of a peak',
    )
  }
  const square = (2 * scanRadiusUm) ** 2 - probeMfdUm ** 2
  if (!(square > 0)) {
    throw new InputError(
      'the scan',
      `${significantText(2 * scanRadiusUm, 4)} µm wide (1/e²)`,
      `wider than the probe alone, which is ${probeMfdUm} µm: an offset scan is never narrower than its probe. Check the probe MFD, the stage's scale and the power unit (dB read as linear?)`,
    )
  }
  const mfdUm = Math.sqrt(square)
  const widthUm2 = 4 * scanRadiusUm ** 2
  const toMfd = (4 * scanRadiusUm) / mfdUm
  const freedom = refined?.degreesOfFreedom ?? fit.degreesOfFreedom
  const standard = (refined ?? fit).standards[OFFSET_PARAMETER.radius] as number
  const independent = Math.min(standard, refined?.independentStandards[OFFSET_PARAMETER.radius] ?? standard)
  const hiddenUm = toMfd * Math.sqrt(Math.max(0, standard ** 2 - independent ** 2))
  const budget = combine([
    typeA('fit', toMfd * independent, freedom),
    typeA('correlated residuals', hiddenUm, freedom),
    typeB('probe MFD', (probeMfdUm * (input.probeMfdStandardUm ?? 0)) / mfdUm),
    typeB('stage scale', (widthUm2 * (input.stageScaleStandard ?? 0)) / mfdUm),
    typeB('resolution of the numbers', (widthUm2 * NUMBER_RESOLUTION) / mfdUm),
    typeB('detector linearity', (widthUm2 * (input.linearityStandard ?? 0)) / (2 * mfdUm)),
  ])
  const signal = scan.power.map((value) => value - backgroundPower)
  const fitted = scan.at.map(
    (x) => peakPower * Math.exp(-2 * ((x - centreUm) / scanRadiusUm) ** 2) + backgroundPower,
  )
  const residual = scan.power.map((value, i) => value - (fitted[i] as number))
  const shape = gaussianity(residual, peakPower)
  const warnings = [...scan.warnings]
  const widening = wideningOf(standard, independent, scan.taken.at.length, refined?.causes ?? [])
  if (widening !== null) warnings.push(widening.sentence)
  const ofNoiseUm = COVERAGE_FACTOR * Math.sqrt(Math.max(0, budget.combinedUm ** 2 - hiddenUm ** 2))
  const backlashUm = refined?.parameters[OFFSET_PARAMETER.backlash] ?? null
  const backlashStandardUm = refined?.standards[OFFSET_PARAMETER.backlash] ?? 0
  if (backlashUm !== null && Math.abs(backlashUm) > 3 * backlashStandardUm) {
    warnings.push(
      `The two directions of travel are ${significantText(Math.abs(backlashUm), 2)} µm apart (backlash of the stage); the fit allows for it.`,
    )
  }
  const outward = Math.min(centreUm - (scan.at[0] ?? 0), (scan.at.at(-1) ?? 0) - centreUm)
  if (outward < 1.2 * scanRadiusUm) {
    warnings.push(
      'The scan does not reach the background on both sides: width and background cannot be separated well.',
    )
  }
  if (budget.expandedUm > 0.2 * mfdUm) {
    warnings.push(
      `The probe (${probeMfdUm} µm) dominates the scan width, so the MFD of the mode is determined only to ± ${significantText(budget.expandedUm, 2)} µm. Use a smaller probe.`,
    )
  }
  if (shape.residualRms > NON_GAUSSIAN_RMS) warnings.push(shape.sentence)
  return {
    mfdUm,
    centreUm,
    uncertaintyUm: budget.expandedUm,
    residualRms: shape.residualRms,
    warnings,
    budget,
    centreStandardUm: (refined ?? fit).standards[OFFSET_PARAMETER.centre] as number,
    backlashUm,
    widening,
    conservative: conservativeNote(budget.expandedUm, ofNoiseUm, refined?.causes ?? []),
    peakPower,
    backgroundPower,
    scanRadiusUm,
    windows: scannedWindows(scan.at, signal, peakPower, scanRadiusUm),
    gaussianity: shape,
    profile: {
      positionUm: scan.at,
      power: scan.power,
      fitted,
      residual,
    },
  }
}

/** Peak, centre, 1/e² radius and background from the points themselves. */
function startOf(at: Float64Array, power: Float64Array) {
  const background = quantile(power, 0.05)
  let top = -Infinity
  let centre = 0
  power.forEach((value, i) => {
    if (value > top) [top, centre] = [value, at[i] as number]
  })
  const half = background + (top - background) / 2
  const inside = at.filter((_, i) => (power[i] as number) >= half)
  const width = Math.max(
    (inside.at(-1) ?? 0) - (inside[0] ?? 0),
    ((at.at(-1) ?? 0) - (at[0] ?? 0)) / at.length,
  )
  // exp(−2 x²/W²) is one half at x = 0.5887 W.
  return { peak: top - background, centre, radius: width / 2 / 0.5887, background }
}
