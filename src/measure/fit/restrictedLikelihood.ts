// Noise of readings taken one after the other: independent noise of each reading, and two random walks that all later
// readings share, one of the source's power (gain) and one of the level beneath it (base).
//   V = diag(absolute² + (relative · S)² + (jitter · dS/dx)²) + gainStep² S Sᵀ ∘ K + baseStep² K,   K_ij = min(i, j)
// The sizes are those of greatest restricted likelihood, which ignores what the fit's parameters took with them.
// Source: H. D. Patterson and R. Thompson, Biometrika 58 (1971) 545; evaluated reading by reading with a Kalman filter
// that runs over the residuals and over every column of the linearised model: P. de Jong, Ann. Statist. 19 (1991) 1073.

/** A model linearised about its parameters, all arrays in the order in which the readings were taken. */
export interface LinearModel {
  /** Data less model. */
  readonly residuals: Float64Array
  /** ∂model/∂parameter, one column each. A constant and the signal itself must be among what they span. */
  readonly columns: readonly Float64Array[]
  /** Part of the model that a drifting source scales. */
  readonly signal: Float64Array
  /** Change of the model with position, where positions may be off. */
  readonly slope: Float64Array
}

/** In the unit of the powers, except `relative` and `gainStep` (fractions) and `jitter` (unit of the positions). */
export interface NoiseComponents {
  readonly absolute: number
  readonly relative: number
  readonly jitter: number
  /** Standard deviation of the change from one reading to the next. */
  readonly gainStep: number
  readonly baseStep: number
}

export interface RestrictedFit {
  /** Minus twice the restricted log-likelihood at its best common scale, up to a constant. */
  readonly deviance: number
  /** What to add to the parameters: generalised least squares. */
  readonly shift: Float64Array
  /** Row-major covariance of the parameters, common scale included. */
  readonly covariance: Float64Array
  /** Factor by which all variances of the components are too small. */
  readonly scale: number
}

/** Variance of the independent part of reading `i`. */
export function independentVariance(c: NoiseComponents, signal: number, slope: number): number {
  return c.absolute ** 2 + (c.relative * signal) ** 2 + (c.jitter * slope) ** 2
}

/**
 * `least`: variance below which no reading's noise is believed. `lastStandard`: standard deviation that the last parameter
 * is known to have beforehand, about zero. Null where the parameters are not determined.
 */
export function restrictedFit(
  model: LinearModel,
  c: NoiseComponents,
  least = 0,
  lastStandard = Infinity,
): RestrictedFit | null {
  const { residuals, columns, signal, slope } = model
  const n = residuals.length
  const p = columns.length
  const gram = new Float64Array(p * p)
  const moment = new Float64Array(p)
  // Filtered gain and base of every column, the residuals last.
  const gain = new Float64Array(p + 1)
  const base = new Float64Array(p + 1)
  const innovation = new Float64Array(p + 1)
  const gainStep = c.gainStep ** 2
  const baseStep = c.baseStep ** 2
  let gg = 0
  let gb = 0
  let bb = 0
  let square = 0
  let logVariance = 0
  for (let i = 0; i < n; i++) {
    const s = signal[i] as number
    if (i > 0) {
      gg += gainStep
      bb += baseStep
    }
    const toGain = s * gg + gb
    const toBase = s * gb + bb
    const variance = s * toGain + toBase + independentVariance(c, s, slope[i] as number) + least
    for (let j = 0; j <= p; j++) {
      const value = j < p ? ((columns[j] as Float64Array)[i] as number) : (residuals[i] as number)
      const v = value - s * (gain[j] as number) - (base[j] as number)
      innovation[j] = v
      gain[j] = (gain[j] as number) + (toGain / variance) * v
      base[j] = (base[j] as number) + (toBase / variance) * v
    }
    gg -= (toGain * toGain) / variance
    gb -= (toGain * toBase) / variance
    bb -= (toBase * toBase) / variance
    logVariance += Math.log(variance)
    const last = innovation[p] as number
    square += (last * last) / variance
    for (let j = 0; j < p; j++) {
      const v = (innovation[j] as number) / variance
      moment[j] = (moment[j] as number) + v * last
      for (let k = 0; k <= j; k++)
        gram[j * p + k] = (gram[j * p + k] as number) + v * (innovation[k] as number)
    }
  }
  gram[p * p - 1] = (gram[p * p - 1] as number) + lastStandard ** -2
  const inverse = inverseOf(gram, p)
  if (inverse === null) return null
  const { logDeterminant, covariance } = inverse
  const shift = new Float64Array(p)
  let explained = 0
  for (let j = 0; j < p; j++) {
    for (let k = 0; k < p; k++)
      shift[j] = (shift[j] as number) + (covariance[j * p + k] as number) * (moment[k] as number)
    explained += (shift[j] as number) * (moment[j] as number)
  }
  const freedom = Math.max(1, n - p)
  const scale = Math.max(square - explained, 1e-14 * square, Number.MIN_VALUE) / freedom
  return {
    deviance: logVariance + logDeterminant + freedom * Math.log(scale),
    shift,
    covariance: covariance.map((value) => value * scale),
    scale,
  }
}

/** Inverse and determinant of a symmetric matrix given by its lower half, by Cholesky; null where it is singular. */
function inverseOf(lower: Float64Array, p: number) {
  // Scaled to a unit diagonal: parameters may differ by many orders in size.
  const size = Float64Array.from({ length: p }, (_, j) => Math.sqrt(lower[j * (p + 1)] as number))
  const root = new Float64Array(p * p)
  let logDeterminant = 0
  for (let j = 0; j < p; j++) {
    if (!((size[j] as number) > 0)) return null
    for (let k = 0; k <= j; k++) {
      let sum = (lower[j * p + k] as number) / ((size[j] as number) * (size[k] as number))
      for (let m = 0; m < k; m++) sum -= (root[j * p + m] as number) * (root[k * p + m] as number)
      if (k < j) root[j * p + k] = sum / (root[k * p + k] as number)
      else if (sum > 1e-13) root[j * p + j] = Math.sqrt(sum)
      else return null
    }
    logDeterminant += 2 * Math.log((root[j * p + j] as number) * (size[j] as number))
  }
  const covariance = new Float64Array(p * p)
  const column = new Float64Array(p)
  for (let c = 0; c < p; c++) {
    for (let j = 0; j < p; j++) {
      let sum = j === c ? 1 : 0
      for (let k = 0; k < j; k++) sum -= (root[j * p + k] as number) * (column[k] as number)
      column[j] = sum / (root[j * p + j] as number)
    }
    for (let j = p - 1; j >= 0; j--) {
      let sum = column[j] as number
      for (let k = j + 1; k < p; k++) sum -= (root[k * p + j] as number) * (column[k] as number)
      column[j] = sum / (root[j * p + j] as number)
    }
    for (let j = 0; j < p; j++)
      covariance[j * p + c] = (column[j] as number) / ((size[j] as number) * (size[c] as number))
  }
  return { logDeterminant, covariance }
}

/** Variance of Σ weight · reading, split into the part independent from reading to reading and that of the random walks. */
export function varianceThrough(
  weights: Float64Array,
  { signal, slope }: Pick<LinearModel, 'signal' | 'slope'>,
  c: NoiseComponents,
): { readonly independent: number; readonly walks: number } {
  let independent = 0
  let walks = 0
  let gain = 0
  let base = 0
  // A step before reading k moves it and all after it.
  for (let k = weights.length - 1; k >= 0; k--) {
    const weight = weights[k] as number
    const s = signal[k] as number
    independent += weight * weight * independentVariance(c, s, slope[k] as number)
    gain += weight * s
    base += weight
    if (k > 0) walks += (c.gainStep * gain) ** 2 + (c.baseStep * base) ** 2
  }
  return { independent, walks }
}
