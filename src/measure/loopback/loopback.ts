// Loss of a facet and of the waveguide from insertion loss fibre–chip–fibre at one or several lengths.
//   IL(L) = 2 · facet + propagation · L
// A straight line through the points (weighted least squares): intercept / 2 is the loss of one facet, the slope
// the propagation loss. Assumed: both facets of every guide equal, all guides alike, bends and crossings alike or
// none, reference taken fibre to fibre. With one length only, the propagation loss must be given.
// Intervals: Student t at 95.45 % where the spread comes from the points, k = 2 where every point has its own. Where points
// scatter more than their own uncertainties allow, these are scaled by the square root of the reduced chi-square (R. T. Birge,
// Phys. Rev. 40 (1932) 207; Particle Data Group, Rev. Part. Phys., Introduction, section 5.2.2, from memory). A source that
// drifts during the series widens them further (seriesDrift.ts).

import { READING_LIMITS } from '../../model/words/limits'
import { InputError, requireInRange } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import { studentT } from '../../numerics/statistics'
import { WIDENED } from '../fit/widening'
import { type Scatter, seriesDrift } from './seriesDrift'

const NORMAL_COVERAGE = 0.9545
/** Prior odds of scatter in proportion to the loss to equal scatter, and the least size of the former relative to that of the rms loss. */
const PROPORTIONAL_ODDS = 2
const LEAST_PROPORTION = 0.25

export interface LoopbackPoint {
  readonly lengthCm: number
  readonly lossDb: number
  /** Standard uncertainty of this reading, if known for all points. */
  readonly standardDb?: number
}

export interface LoopbackInput {
  readonly points: readonly LoopbackPoint[]
  /** Needed, and only used, when all points have the same length. */
  readonly propagationDbPerCm?: number
  readonly propagationStandardDbPerCm?: number
}

export interface EstimatedValue {
  readonly value: number
  /** Half width at 95 %; null where one reading alone gives no spread. */
  readonly plusMinus: number | null
}

export interface LoopbackResult {
  readonly facetLossDb: EstimatedValue
  readonly propagationDbPerCm: EstimatedValue
  /** Measured less line, in input order. */
  readonly residualsDb: readonly number[]
  readonly residualRmsDb: number
  readonly degreesOfFreedom: number
  /** Of the line: against the readings' own uncertainties where they are given, else their variance; null without a spread. */
  readonly reducedChiSquare: number | null
  /** Correlation of facet loss and propagation loss: near −1 where lengths are too alike to separate them. */
  readonly correlation: number
  readonly assumptions: readonly string[]
  readonly warnings: readonly string[]
}

const ASSUMPTIONS = [
  'All facets have equal loss.',
  'All waveguides have the same propagation loss; bend losses are equal or negligible.',
  'The reference was taken fibre to fibre, so the losses of fibres and connectors cancel.',
] as const

/** InputError for no points, values that are not finite or beyond READING_LIMITS, negative lengths, or one length without a propagation loss. */
export function loopbackLoss(input: LoopbackInput): LoopbackResult {
  const { points } = input
  if (points.length === 0) throw new InputError('number of points', 0, '1 or more')
  points.forEach((point, i) => {
    requireInRange(`loss of point ${i + 1}`, point.lossDb, -READING_LIMITS.most.dB, READING_LIMITS.most.dB)
    if (!(point.lengthCm >= 0)) throw new InputError(`length of point ${i + 1}`, point.lengthCm, '0 or more')
    requireInRange(`length of point ${i + 1}`, point.lengthCm, 0, READING_LIMITS.most.um)
    if (point.standardDb !== undefined && !(point.standardDb > 0)) {
      throw new InputError(`standard uncertainty of point ${i + 1}`, point.standardDb, 'above 0')
    }
  })
  const lengths = new Set(points.map((point) => point.lengthCm))
  return lengths.size === 1 ? oneLength(input) : line(points)
}

function oneLength({
  points,
  propagationDbPerCm,
  propagationStandardDbPerCm = 0,
}: LoopbackInput): LoopbackResult {
  if (propagationDbPerCm === undefined) {
    throw new InputError(
      'propagation loss',
      undefined,
      'given, because all lengths are equal and facet and propagation loss cannot be separated',
    )
  }
  const n = points.length
  const length = points[0]?.lengthCm ?? 0
  const facets = points.map((point) => (point.lossDb - propagationDbPerCm * length) / 2)
  const plain = facets.reduce((sum, facet) => sum + facet, 0) / n
  // Each facet is half of a loss.
  const chiSquare = points.reduce(
    (sum, { standardDb = 1 }, i) => sum + ((2 * ((facets[i] as number) - plain)) / standardDb) ** 2,
    0,
  )
  const reducedChiSquare = n > 1 ? chiSquare / (n - 1) : null
  const spread = Math.sqrt(facets.reduce((sum, facet) => sum + (facet - plain) ** 2, 0) / Math.max(1, n - 1))
  const level = new Float64Array(n).fill(1)
  const drift = seriesDrift(
    facets.map((facet) => 2 * (facet - plain)),
    [level],
    [{ sizes: level, odds: 1 }],
    NORMAL_COVERAGE,
  )
  const [meanDrift = 1] = drift?.factor ?? []
  const mean = plain + (drift?.shift[0] ?? 0) / 2
  const residualsDb = facets.map((facet) => 2 * (facet - mean))
  const random =
    n > 1 ? ((spread * meanDrift) / Math.sqrt(n)) * studentT(NORMAL_COVERAGE, n - 1) : ownSpread(points)
  const plusMinus = random === null ? null : Math.hypot(random, propagationStandardDbPerCm * length)
  const warnings = n > 1 ? [] : ['One reading only: its scatter is unknown.']
  if (drift?.isNoted) warnings.push(driftWarning(meanDrift))
  if (mean < 0) warnings.push('The facet loss is negative: the reference or the propagation loss is wrong.')
  return {
    facetLossDb: { value: mean, plusMinus },
    propagationDbPerCm: { value: propagationDbPerCm, plusMinus: 2 * propagationStandardDbPerCm },
    residualsDb,
    residualRmsDb: rootMeanSquare(residualsDb),
    degreesOfFreedom: n - 1,
    reducedChiSquare,
    correlation: 0,
    assumptions: [
      ...ASSUMPTIONS,
      `Facet loss and propagation loss are not distinguishable at one length: how the loss is divided depends on the entered propagation loss of ${propagationDbPerCm} dB/cm.`,
    ],
    warnings,
  }
}

const driftWarning = (factor: number) =>
  `Successive residuals are correlated: the source or the reference drifted during the series. ${
    factor < WIDENED
      ? 'The interval of the facet loss allows for it.'
      : `The interval of the facet loss is widened by a factor of ${significantText(factor, 2)}.`
  }`

function ownSpread(points: readonly LoopbackPoint[]): number | null {
  const standard = points[0]?.standardDb
  return standard === undefined ? null : standard // 2 · u / 2: k = 2 over two facets
}

/** Reduced chi-square that one series in twenty exceeds: E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684. */
function chiSquareLimit(degreesOfFreedom: number): number {
  const ninth = 2 / (9 * degreesOfFreedom)
  return (1 - ninth + 1.645 * Math.sqrt(ninth)) ** 3
}

/** Whether lengths only ever rise, or only ever fall, from reading to reading, so that time is length. */
function runsWithLength(points: readonly LoopbackPoint[]): boolean {
  if (points.length < 4) return false
  const steps = points.slice(1).map((point, i) => point.lengthCm - (points[i]?.lengthCm ?? point.lengthCm))
  return steps.every((step) => step >= 0) || steps.every((step) => step <= 0)
}

/** As the readings state it; without, equal throughout or in proportion to the loss. */
function scattersOf(
  points: readonly LoopbackPoint[],
  known: boolean,
  lineDb: readonly number[],
): readonly Scatter[] {
  if (known) {
    const standardsDb = points.map(({ standardDb = 1 }) => standardDb)
    const whole = rootMeanSquare(standardsDb)
    return [{ sizes: Float64Array.from(standardsDb, (each) => each / whole), odds: 1 }]
  }
  const equal = { sizes: new Float64Array(points.length).fill(1), odds: 1 }
  const whole = rootMeanSquare(lineDb)
  if (whole === 0) return [equal]
  const sizes = Float64Array.from(lineDb, (loss) => Math.max(LEAST_PROPORTION, Math.abs(loss) / whole))
  return [equal, { sizes, odds: PROPORTIONAL_ODDS }]
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length)
}

function line(points: readonly LoopbackPoint[]): LoopbackResult {
  const known = points.every((point) => point.standardDb !== undefined)
  let s = 0
  let sx = 0
  let sy = 0
  for (const point of points) {
    const weight = known ? (point.standardDb ?? 1) ** -2 : 1
    s += weight
    sx += weight * point.lengthCm
    sy += weight * point.lossDb
  }
  const centre = sx / s
  let sxx = 0
  let sxy = 0
  for (const point of points) {
    const weight = known ? (point.standardDb ?? 1) ** -2 : 1
    sxx += weight * (point.lengthCm - centre) ** 2
    sxy += weight * (point.lengthCm - centre) * point.lossDb
  }
  const plainSlope = sxy / sxx
  const plainIntercept = sy / s - plainSlope * centre
  const lineDb = points.map((point) => plainIntercept + plainSlope * point.lengthCm)
  const offLineDb = points.map((point, i) => point.lossDb - (lineDb[i] as number))
  const degreesOfFreedom = points.length - 2
  const chiSquare = points.reduce(
    (sum, { standardDb = 1 }, i) => sum + ((offLineDb[i] as number) / (known ? standardDb : 1)) ** 2,
    0,
  )
  const reducedChiSquare = degreesOfFreedom > 0 ? chiSquare / degreesOfFreedom : null
  const isScattered = known && (reducedChiSquare ?? 0) > 1
  const variance = known ? (isScattered ? reducedChiSquare : 1) : reducedChiSquare
  const factor =
    known && !isScattered ? 2 : degreesOfFreedom > 0 ? studentT(NORMAL_COVERAGE, degreesOfFreedom) : 0
  const drift = seriesDrift(
    offLineDb,
    [new Float64Array(points.length).fill(1), Float64Array.from(points, (point) => point.lengthCm)],
    scattersOf(points, known, lineDb),
    NORMAL_COVERAGE,
  )
  // Stated uncertainties are not made smaller by what the residuals show.
  const [interceptDrift = 1, slopeDrift = 1] = (drift?.factor ?? []).map((wider) =>
    known ? Math.max(1, wider) : wider,
  )
  const [interceptShift = 0, slopeShift = 0] = drift?.shift ?? []
  const intercept = plainIntercept + interceptShift
  const slope = plainSlope + slopeShift
  const residualsDb = points.map((point) => point.lossDb - intercept - slope * point.lengthCm)
  const interceptStandard =
    variance === null ? null : interceptDrift * Math.sqrt(variance * (1 / s + (centre * centre) / sxx))
  const slopeStandard = variance === null ? null : slopeDrift * Math.sqrt(variance / sxx)
  const warnings: string[] = []
  if (isScattered && reducedChiSquare !== null && reducedChiSquare > chiSquareLimit(degreesOfFreedom)) {
    warnings.push(
      `The readings scatter ${significantText(Math.sqrt(reducedChiSquare), 2)} times as much as their stated uncertainties (reduced χ² ${significantText(reducedChiSquare, 2)}); the intervals are widened by that factor.`,
    )
  }
  if (drift?.isNoted) warnings.push(driftWarning(interceptDrift))
  if (runsWithLength(points)) {
    warnings.push(
      'The readings are in order of length. If they were taken in that order, source drift and propagation loss are not distinguishable: measure the first length again at the end.',
    )
  }
  if (variance === null)
    warnings.push('Two points fix a line but not its uncertainty: measure a third length for an interval.')
  if (slope < 0)
    warnings.push(
      'The loss falls with length: facet losses vary between waveguides by more than the propagation loss.',
    )
  if (intercept < 0) warnings.push('The facet loss is negative: check the reference.')
  const correlation = -centre / Math.sqrt(sxx / s + centre * centre)
  if (correlation < -0.97)
    warnings.push(
      'Facet loss and propagation loss are not distinguishable: the lengths are too similar to separate them.',
    )
  return {
    facetLossDb: {
      value: intercept / 2,
      plusMinus: interceptStandard === null ? null : (factor * interceptStandard) / 2,
    },
    propagationDbPerCm: { value: slope, plusMinus: slopeStandard === null ? null : factor * slopeStandard },
    residualsDb,
    residualRmsDb: rootMeanSquare(residualsDb),
    degreesOfFreedom,
    reducedChiSquare,
    correlation,
    assumptions: ASSUMPTIONS,
    warnings,
  }
}
