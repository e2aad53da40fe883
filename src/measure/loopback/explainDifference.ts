// Causes of a measured excess loss: which of offset, gap, tilt or mode size explains the measured losses best.
//
// Every cause is a parameter with a nominal value and a tolerance. Fitted are (1) each cause alone and (2) all
// together, by least squares of (measured − predicted) / σ with each cause held to its tolerance by a residual
// (value − nominal) / standard (a Gaussian prior) and by hard limits. Causes alone are compared by the χ² of the data
// only, each at its best value within its limits: a cause is ruled out where this is larger than the best one's by more than
// 4 (likelihood ratio of e², two standard deviations). If two or more remain, the data cannot separate them: the answer is
// 'not distinguishable', and what the tolerances would decide is shown as such.
// Where χ² exceeds its degrees of freedom, standard uncertainties are scaled by the square root of their ratio (R. T.
// Birge, Phys. Rev. 40 (1932) 207; Particle Data Group, Rev. Part. Phys., Introduction, section 5.2.2, from memory).
// Source: likelihood-ratio comparison, e.g. W. T. Eadie et al., Statistical Methods in Experimental Physics (1971) ch. 10.

import { InputError, requireFinite, requirePositive } from '../../numerics/inputError'
import { type FitResult, leastSquares } from '../../numerics/linear/leastSquares'
import { fixedText, significantText } from '../../numerics/numberText'

export interface Cause {
  /** 'offsetXUm', 'gapUm', 'tiltXRad', 'mfdUm', ... as the prediction knows it. */
  readonly id: string
  readonly nominal: number
  /** Standard deviation of the tolerance. */
  readonly standard: number
  /** Physical limits; default: five standard deviations on either side. */
  readonly lower?: number
  readonly upper?: number
}

export interface DifferenceInput {
  /** Losses in dB that the model gives for the measured conditions, in their order, at these causes' values. */
  readonly predict: (values: Readonly<Record<string, number>>) => ArrayLike<number>
  readonly measuredDb: readonly number[]
  /** Standard uncertainty of each measured loss. */
  readonly standardDb: readonly number[]
  readonly causes: readonly Cause[]
}

export interface SingleExplanation {
  readonly id: string
  readonly value: number
  /** 95 % interval within the limits, by curvature; null where the data do not fix the cause at all. */
  readonly interval: readonly [number, number] | null
  /** True where the best value is the last one that is possible. */
  readonly isAtLimit: boolean
  /** Sum over the data of the difference that this cause takes away, on average, in dB. */
  readonly explainedDb: number
  readonly chiSquare: number
  /** Of the data alone, at the value within the limits that fits them best whatever the tolerance. */
  readonly dataChiSquare: number
  readonly dataValue: number
  /** How far from nominal it is, in standard deviations of the tolerance: what the tolerance has to allow. */
  readonly dataPull: number
  /** (value − nominal) / standard. */
  readonly pull: number
  /** By the data alone. */
  readonly ruledOut: boolean
}

export interface DifferenceResult {
  /** Mean of measured less predicted at nominal. */
  readonly meanDifferenceDb: number
  readonly nominalChiSquare: number
  /** Each cause alone, best first. */
  readonly single: readonly SingleExplanation[]
  /** All causes at once: the most probable values within their tolerances. */
  readonly joint: {
    readonly values: Readonly<Record<string, number>>
    readonly standards: Readonly<Record<string, number>>
    readonly chiSquare: number
    /** Share of each cause's own tolerance that the data leave: near 1 where the tolerance decided, near 0 where the data did. */
    readonly priorShare: Readonly<Record<string, number>>
  }
  /** The one cause that remains; 'no difference' where nominal already fits; 'unexplained' where nothing fits. */
  readonly verdict: string
  readonly sentence: string
}

/** χ² that two standard deviations cost. */
const RULED_OUT_BY = 4
/** χ² that a cause must take away before it is claimed at all: three standard deviations. */
const CLAIMED_BY = 9

/** InputError for lists that do not match, no causes, or standards that are not above zero. */
export function explainDifference(input: DifferenceInput): DifferenceResult {
  check(input)
  const nominal = Object.fromEntries(input.causes.map((cause) => [cause.id, cause.nominal]))
  const atNominal = input.predict(nominal)
  input.measuredDb.forEach((_, i) => {
    requireFinite(`predicted loss ${i} at the nominal values`, atNominal[i] ?? Number.NaN)
  })
  const difference = input.measuredDb.map((loss, i) => loss - (atNominal[i] as number))
  const meanDifferenceDb = difference.reduce((sum, d) => sum + d, 0) / difference.length
  const nominalChiSquare = difference.reduce(
    (sum, d, i) => sum + (d / (input.standardDb[i] as number)) ** 2,
    0,
  )
  const fits = input.causes.map((cause) => single(input, cause, nominal, atNominal))
  const best = Math.min(...fits.map((fit) => fit.dataChiSquare))
  const ranked = fits
    .map((fit) => ({ ...fit, ruledOut: fit.dataChiSquare > best + RULED_OUT_BY }))
    .sort((a, b) => a.chiSquare - b.chiSquare)
  const together = solve(input, input.causes, nominal)
  const byId = (values: readonly number[]) =>
    Object.fromEntries(input.causes.map((cause, j) => [cause.id, values[j] as number]))
  const jointStandards = input.causes.map((_, j) =>
    Math.sqrt(together.unscaledCovariance?.[j * (input.causes.length + 1)] ?? 0),
  )
  const birge = birgeRatio(together.sumOfSquares, difference.length)
  return {
    meanDifferenceDb,
    nominalChiSquare,
    single: ranked,
    joint: {
      values: byId(together.parameters),
      standards: byId(jointStandards.map((standard) => birge * standard)),
      chiSquare: together.sumOfSquares,
      priorShare: byId(
        input.causes.map((cause, j) => Math.min(1, (jointStandards[j] as number) / cause.standard) ** 2),
      ),
    },
    ...verdict(ranked, nominalChiSquare, together.sumOfSquares, difference.length),
  }
}

function check({ measuredDb, standardDb, causes }: DifferenceInput): void {
  if (measuredDb.length === 0) throw new InputError('number of measured losses', 0, '1 or more')
  if (standardDb.length !== measuredDb.length) {
    throw new InputError(
      'standardDb',
      `${standardDb.length} long`,
      `as long as measuredDb (${measuredDb.length})`,
    )
  }
  if (causes.length === 0) throw new InputError('number of causes', 0, '1 or more')
  measuredDb.forEach((loss, i) => {
    requireFinite(`measured loss ${i + 1}`, loss)
    requirePositive(`standard uncertainty of loss ${i + 1}`, standardDb[i] ?? Number.NaN)
  })
  for (const cause of causes) requirePositive(`${cause.id} standard`, cause.standard)
}

const lowerOf = (cause: Cause) => cause.lower ?? cause.nominal - 5 * cause.standard
const upperOf = (cause: Cause) => cause.upper ?? cause.nominal + 5 * cause.standard

/** √(χ²/ν) where it exceeds 1: what the stated uncertainties of the losses are too small by. */
function birgeRatio(chiSquare: number, degreesOfFreedom: number): number {
  return Math.sqrt(Math.max(1, chiSquare / degreesOfFreedom))
}

/**
 * Least squares in units of each cause's standard. A loss is often even about the nominal value (an offset), where
 * its slope is zero: starts on both sides, one standard away, keep the search off that saddle.
 */
function solve(
  input: DifferenceInput,
  causes: readonly Cause[],
  nominal: Readonly<Record<string, number>>,
  heldToTolerances = true,
): FitResult {
  const count = input.measuredDb.length
  const residuals = (p: Float64Array, out: Float64Array) => {
    const values = { ...nominal }
    causes.forEach((cause, j) => {
      values[cause.id] = p[j] as number
    })
    const predicted = input.predict(values)
    for (let i = 0; i < count; i++)
      out[i] = ((predicted[i] as number) - (input.measuredDb[i] as number)) / (input.standardDb[i] as number)
    if (!heldToTolerances) return
    causes.forEach((cause, j) => {
      out[count + j] = ((p[j] as number) - cause.nominal) / cause.standard
    })
  }
  const from = (sign: number) =>
    leastSquares({
      start: causes.map((cause) =>
        Math.min(Math.max(cause.nominal + sign * cause.standard, lowerOf(cause)), upperOf(cause)),
      ),
      typical: causes.map((cause) => cause.standard),
      lower: causes.map(lowerOf),
      upper: causes.map(upperOf),
      residualCount: heldToTolerances ? count + causes.length : count,
      residuals,
    })
  const up = from(1)
  const down = from(-1)
  return up.sumOfSquares <= down.sumOfSquares ? up : down
}

function single(
  input: DifferenceInput,
  cause: Cause,
  nominal: Readonly<Record<string, number>>,
  atNominal: ArrayLike<number>,
): Omit<SingleExplanation, 'ruledOut'> {
  const result = solve(input, [cause], nominal)
  const value = result.parameters[0] ?? cause.nominal
  const explained = input.predict({ ...nominal, [cause.id]: value })
  const count = input.measuredDb.length
  let explainedDb = 0
  for (let i = 0; i < count; i++) explainedDb += ((explained[i] as number) - (atNominal[i] as number)) / count
  const standard = birgeRatio(result.sumOfSquares, count) * Math.sqrt(result.unscaledCovariance?.[0] ?? 0)
  const byData = solve(input, [cause], nominal, false)
  const dataValue = byData.parameters[0] ?? cause.nominal
  const pinned = result.unscaledCovariance === null || result.heldAtBound[0] === true
  return {
    id: cause.id,
    value,
    interval: pinned
      ? null
      : [Math.max(lowerOf(cause), value - 2 * standard), Math.min(upperOf(cause), value + 2 * standard)],
    isAtLimit: result.heldAtBound[0] === true,
    explainedDb,
    chiSquare: result.sumOfSquares,
    dataChiSquare: byData.sumOfSquares,
    dataValue,
    dataPull: (dataValue - cause.nominal) / cause.standard,
    pull: (value - cause.nominal) / cause.standard,
  }
}

function verdict(
  ranked: readonly SingleExplanation[],
  nominalChiSquare: number,
  jointChiSquare: number,
  count: number,
): { verdict: string; sentence: string } {
  // χ² of n points has mean n and standard deviation √(2n).
  const acceptable = count + 3 * Math.sqrt(2 * count)
  const best = ranked[0]
  if (nominalChiSquare <= acceptable && nominalChiSquare <= (best?.chiSquare ?? 0) + CLAIMED_BY) {
    return {
      verdict: 'no difference',
      sentence: 'The prediction agrees with the measurement within its uncertainty.',
    }
  }
  const left = ranked.filter((explanation) => !explanation.ruledOut)
  if ((best?.chiSquare ?? Infinity) > acceptable + RULED_OUT_BY ** 2) {
    return jointChiSquare <= acceptable + RULED_OUT_BY ** 2
      ? {
          verdict: 'several causes',
          sentence: 'No single cause explains the difference within its tolerance; together they do.',
        }
      : {
          verdict: 'unexplained',
          sentence:
            'Neither one cause nor all together explain the difference within their tolerances: consider other causes (reflection, propagation loss, contamination, a non-Gaussian mode).',
        }
  }
  if (left.length > 1) {
    const names = left.map((explanation) => explanation.id).join(', ')
    const needed = [...left]
      .sort((a, b) => Math.abs(a.dataPull) - Math.abs(b.dataPull))
      .map(({ id, dataPull }) => `${id} ${fixedText(Math.abs(dataPull), 1)} σ`)
    return {
      verdict: 'not distinguishable',
      sentence: `Not distinguishable: these causes explain the difference about equally well, so the data cannot separate them: ${names}. Only the tolerances rank them; each would have to be off by: ${needed.join(', ')}. Measure loss against offset or gap to separate them.`,
    }
  }
  if (best === undefined) return { verdict: 'unexplained', sentence: 'No cause explains the difference.' }
  return {
    verdict: best.id,
    sentence: `${best.id} explains the difference best, at ${significantText(best.value, 3)} (${fixedText(best.pull, 1)} standard deviations from nominal).`,
  }
}
