// Nonlinear least squares: the parameters of a model that make the sum of squared residuals smallest.
//   (JᵀJ + λ DᵀD) δ = −Jᵀr,   D = the largest length that each column of J has had so far
// Source: K. Levenberg, Q. Appl. Math. 2 (1944) 164; D. W. Marquardt, J. SIAM 11 (1963) 431; scaling by
// column lengths after J. J. Moré, Lect. Notes Math. 630 (1978) 105; damping update after H. B. Nielsen,
// report IMM-REP-1999-05, Techn. Univ. of Denmark (1999). Steps are solved by QR, not by the normal
// equations, so that the condition number is not squared. A parameter at its bound that wants to leave
// is held there for that step (projected gradient). Weighted fits pass (model − data) / sigma.

import { backSubstitute, inverseOfGram, triangularise } from './householder'

const FIT_DEFAULTS = {
  maxIterations: 500,
  /** Done when the scaled step is this small relative to the scaled parameters. */
  relativeStep: 1e-13,
  /** Done when the actual and the predicted gain are both this small relative to the sum of squares. */
  relativeGain: 1e-15,
  initialDamping: 1e-3,
} as const

export type FitOptions = { readonly [K in keyof typeof FIT_DEFAULTS]?: number }

/** The first three are good ends; the others say why the parameters should not be trusted. */
type FitEnd = 'small-step' | 'small-gain' | 'exact' | 'max-iterations' | 'singular' | 'not-finite'

export interface LeastSquaresProblem {
  readonly start: readonly number[]
  readonly residualCount: number
  /** Writes the (weighted) residuals at `parameters` into `out`; keeps neither array. */
  readonly residuals: (parameters: Float64Array, out: Float64Array) => void
  /** Writes ∂residual/∂parameter, row-major; central differences are taken where it is absent. */
  readonly jacobian?: (parameters: Float64Array, out: Float64Array) => void
  /** Sizes at which parameters matter, for the difference steps of those that may pass near zero. */
  readonly typical?: readonly number[]
  readonly lower?: readonly number[]
  readonly upper?: readonly number[]
}

export interface FitResult {
  readonly parameters: readonly number[]
  /** Scaled by the residual variance; 0 for a parameter held at its bound; null if the fit is singular. */
  readonly standardErrors: readonly number[] | null
  /** (JᵀJ)⁻¹ row-major, not scaled by the residual variance; zero in rows of held parameters. */
  readonly unscaledCovariance: Float64Array | null
  readonly heldAtBound: readonly boolean[]
  readonly residuals: Float64Array
  readonly sumOfSquares: number
  /** Residuals less free parameters. */
  readonly degreesOfFreedom: number
  readonly iterations: number
  readonly end: FitEnd
}

interface Linearisation {
  /** Columns of the parameters that may move, in order. */
  readonly free: readonly number[]
  readonly r: Float64Array
  readonly qtb: Float64Array
  readonly gradient: Float64Array
}

const CENTRAL_STEP = Math.cbrt(Number.EPSILON)
const LARGEST_DAMPING = 1e30

/**
 * Minimises the sum of squares from `problem.start`. Never throws on data: `end` says how it ended.
 * A fit with fewer residuals than free parameters, or with columns that depend on each other, ends 'singular'.
 */
export function leastSquares(problem: LeastSquaresProblem, options: FitOptions = {}): FitResult {
  const settings = { ...FIT_DEFAULTS, ...options }
  const count = problem.start.length
  let x = clamp(problem, Float64Array.from(problem.start))
  let residuals = new Float64Array(problem.residualCount)
  problem.residuals(x, residuals)
  let cost = sumOfSquares(residuals)
  const columnLength = new Float64Array(count)
  const step = new Float64Array(count)
  let damping: number = settings.initialDamping
  let growth = 2
  let iterations = 0
  let end: FitEnd = Number.isFinite(cost) ? 'max-iterations' : 'not-finite'
  let trial = new Float64Array(count)
  let trialResiduals = new Float64Array(problem.residualCount)
  let linear: Linearisation | null = null

  while (end === 'max-iterations' && iterations < settings.maxIterations) {
    iterations++
    if (cost === 0) {
      end = 'exact'
      break
    }
    linear ??= linearise(problem, x, residuals, columnLength)
    if (linear === null) {
      end = 'not-finite'
      break
    }
    dampedStep(linear, columnLength, damping, step)
    for (let j = 0; j < count; j++) trial[j] = (x[j] as number) + (step[j] as number)
    trial = clamp(problem, trial)
    let stepSize = 0
    let size = 0
    for (let j = 0; j < count; j++) {
      step[j] = (trial[j] as number) - (x[j] as number)
      stepSize += ((columnLength[j] as number) * (step[j] as number)) ** 2
      size += ((columnLength[j] as number) * (x[j] as number)) ** 2
    }
    const stepIsSmall = Math.sqrt(stepSize) <= settings.relativeStep * Math.sqrt(size)
    problem.residuals(trial, trialResiduals)
    const trialCost = sumOfSquares(trialResiduals)
    const gain = (cost - trialCost) / cost
    const predicted = predictedGain(linear, step) / cost
    if (gain > 0 && predicted > 0) {
      const ratio = gain / predicted
      ;[x, trial] = [trial, x]
      ;[residuals, trialResiduals] = [trialResiduals, residuals]
      cost = trialCost
      linear = null
      damping *= Math.max(1 / 3, 1 - (2 * ratio - 1) ** 3)
      growth = 2
      if (gain <= settings.relativeGain && predicted <= settings.relativeGain) end = 'small-gain'
      else if (stepIsSmall) end = 'small-step'
    } else if (stepIsSmall || damping > LARGEST_DAMPING) end = 'small-step'
    else if (Math.abs(gain) <= settings.relativeGain && predicted <= settings.relativeGain) end = 'small-gain'
    else {
      damping *= growth
      growth *= 2
    }
  }
  return conclude(problem, x, residuals, cost, iterations, end)
}

function clamp(problem: LeastSquaresProblem, x: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  for (let j = 0; j < x.length; j++) {
    x[j] = Math.min(problem.upper?.[j] ?? Infinity, Math.max(problem.lower?.[j] ?? -Infinity, x[j] as number))
  }
  return x
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0
  for (const value of values) sum += value * value
  return sum
}

function numericJacobian(
  problem: LeastSquaresProblem,
  x: Float64Array<ArrayBuffer>,
  out: Float64Array,
): void {
  const { residualCount: rows } = problem
  const above = new Float64Array(rows)
  const below = new Float64Array(rows)
  const moved = Float64Array.from(x)
  for (let j = 0; j < x.length; j++) {
    const at = x[j] as number
    const step =
      CENTRAL_STEP *
      (Math.max(Math.abs(at), problem.typical?.[j] ?? 0) || Math.abs(problem.start[j] as number) || 1)
    const high = Math.min(at + step, problem.upper?.[j] ?? Infinity)
    const low = Math.max(at - step, problem.lower?.[j] ?? -Infinity)
    moved[j] = high
    problem.residuals(moved, above)
    moved[j] = low
    problem.residuals(moved, below)
    moved[j] = at
    const width = high - low || 1
    for (let i = 0; i < rows; i++)
      out[i * x.length + j] = ((above[i] as number) - (below[i] as number)) / width
  }
}

function linearise(
  problem: LeastSquaresProblem,
  x: Float64Array<ArrayBuffer>,
  residuals: Float64Array,
  columnLength: Float64Array,
): Linearisation | null {
  const rows = problem.residualCount
  const count = x.length
  const full = new Float64Array(rows * count)
  if (problem.jacobian) problem.jacobian(x, full)
  else numericJacobian(problem, x, full)
  const gradient = new Float64Array(count)
  const square = new Float64Array(count)
  for (let i = 0; i < rows; i++) {
    const residual = residuals[i] as number
    for (let j = 0; j < count; j++) {
      const slope = full[i * count + j] as number
      gradient[j] = (gradient[j] as number) + slope * residual
      square[j] = (square[j] as number) + slope * slope
    }
  }
  const free: number[] = []
  for (let j = 0; j < count; j++) {
    if (!Number.isFinite(square[j]) || !Number.isFinite(gradient[j])) return null
    columnLength[j] = Math.max(columnLength[j] as number, Math.sqrt(square[j] as number))
    const at = x[j] as number
    const pushed = gradient[j] as number
    const leavesBelow = at <= (problem.lower?.[j] ?? -Infinity) && pushed >= 0
    const leavesAbove = at >= (problem.upper?.[j] ?? Infinity) && pushed <= 0
    if (!leavesBelow && !leavesAbove) free.push(j)
  }
  const n = free.length
  // Rows of zeros complete the triangle where there are fewer residuals than parameters.
  const height = Math.max(rows, n)
  const r = new Float64Array(height * n)
  const qtb = new Float64Array(height)
  for (let i = 0; i < rows; i++) {
    qtb[i] = -(residuals[i] as number)
    for (let c = 0; c < n; c++) r[i * n + c] = full[i * count + (free[c] as number)] as number
  }
  triangularise(r, height, n, qtb)
  return { free, r: r.slice(0, n * n), qtb: qtb.slice(0, n), gradient }
}

function dampedStep(
  linear: Linearisation,
  columnLength: Float64Array,
  damping: number,
  step: Float64Array,
): void {
  const n = linear.free.length
  const matrix = new Float64Array(2 * n * n)
  const rhs = new Float64Array(2 * n)
  for (let i = 0; i < n; i++) {
    rhs[i] = linear.qtb[i] as number
    for (let j = i; j < n; j++) matrix[i * n + j] = linear.r[i * n + j] as number
    matrix[(n + i) * n + i] = Math.sqrt(damping) * (columnLength[linear.free[i] as number] || 1)
  }
  triangularise(matrix, 2 * n, n, rhs)
  const solution = new Float64Array(n)
  backSubstitute(matrix, n, rhs, solution)
  step.fill(0)
  for (let c = 0; c < n; c++) step[linear.free[c] as number] = solution[c] as number
}

/** What the linear model promises for `step`: cost now less cost after. */
function predictedGain(linear: Linearisation, step: Float64Array): number {
  const n = linear.free.length
  let gain = 0
  for (let j = 0; j < step.length; j++) gain -= 2 * (linear.gradient[j] as number) * (step[j] as number)
  for (let i = 0; i < n; i++) {
    let sum = 0
    for (let c = i; c < n; c++)
      sum += (linear.r[i * n + c] as number) * (step[linear.free[c] as number] as number)
    gain -= sum * sum
  }
  return gain
}

function conclude(
  problem: LeastSquaresProblem,
  x: Float64Array<ArrayBuffer>,
  residuals: Float64Array,
  cost: number,
  iterations: number,
  end: FitEnd,
): FitResult {
  const count = x.length
  const linear = end === 'not-finite' ? null : linearise(problem, x, residuals, new Float64Array(count))
  const free = linear?.free ?? []
  const degreesOfFreedom = problem.residualCount - free.length
  const inverse = linear && degreesOfFreedom >= 0 ? inverseOfGram(linear.r, free.length) : null
  const covariance = inverse && new Float64Array(count * count)
  if (inverse && covariance) {
    for (let a = 0; a < free.length; a++) {
      for (let b = 0; b < free.length; b++) {
        covariance[(free[a] as number) * count + (free[b] as number)] = inverse[a * free.length + b] as number
      }
    }
  }
  const variance = degreesOfFreedom > 0 ? cost / degreesOfFreedom : 0
  const parameters = Array.from(x)
  return {
    parameters,
    standardErrors:
      covariance && parameters.map((_, j) => Math.sqrt((covariance[j * count + j] as number) * variance)),
    unscaledCovariance: covariance,
    heldAtBound: parameters.map((_, j) => linear !== null && !free.includes(j)),
    residuals,
    sumOfSquares: cost,
    degreesOfFreedom,
    iterations,
    end: linear === null ? 'not-finite' : covariance === null ? 'singular' : end,
  }
}
