// Two-dimensional Gaussian on a constant background, fitted to points anywhere in the plane.
//   P = A exp(−2 rᵀ W⁻¹ r) + b,   r from the centre; W is symmetric, its eigenvalues are the squared 1/e² radii.

import { leastSquares } from '../../numerics/linear/leastSquares'

interface Points2d {
  readonly x: Float64Array
  readonly y: Float64Array
  readonly value: Float64Array
}

/** In squared units of the coordinates. */
export interface RadiusMatrix {
  readonly xx: number
  readonly yy: number
  readonly xy: number
}

interface Ellipse {
  /** Full 1/e² widths, major first. */
  readonly major: number
  readonly minor: number
  /** Of the major axis, from x towards y, in (−π/2, π/2]. */
  readonly azimuthRad: number
}

interface Gaussian2dFit {
  readonly amplitude: number
  readonly x: number
  readonly y: number
  readonly background: number
  readonly matrix: RadiusMatrix
  /** Fit less data, in the order of the points. */
  readonly residuals: Float64Array
  /** Rms residual relative to the amplitude. */
  readonly residualRms: number
  readonly degreesOfFreedom: number
  readonly converged: boolean
  /** Standard uncertainty of any function of the radius matrix, by first-order propagation of the fit's covariance. */
  readonly standardOf: (f: (matrix: RadiusMatrix) => number) => number
}

interface Gaussian2dStart {
  readonly amplitude: number
  readonly x: number
  readonly y: number
  readonly background: number
  readonly matrix: RadiusMatrix
}

const PARAMETERS = 7

/** Principal widths of a radius matrix; a negative eigenvalue gives width 0. */
export function ellipseOf({ xx, yy, xy }: RadiusMatrix): Ellipse {
  const split = Math.hypot((xx - yy) / 2, xy)
  const middle = (xx + yy) / 2
  return {
    major: 2 * Math.sqrt(Math.max(0, middle + split)),
    minor: 2 * Math.sqrt(Math.max(0, middle - split)),
    azimuthRad: Math.atan2(2 * xy, xx - yy) / 2,
  }
}

/** Least squares with equal weights and an analytic Jacobian; the inverse of W is fitted and turned back. */
export function fitGaussian2d(points: Points2d, start: Gaussian2dStart): Gaussian2dFit {
  const { x, y, value } = points
  const n = x.length
  const inverse = invert(start.matrix)
  const size = Math.sqrt(Math.sqrt(start.matrix.xx * start.matrix.yy))
  const fit = leastSquares(
    {
      start: [start.amplitude, start.x, start.y, inverse.xx, inverse.xy, inverse.yy, start.background],
      typical: [start.amplitude, size, size, inverse.xx, inverse.xx, inverse.yy, start.amplitude],
      residualCount: n,
      residuals: (p, out) => {
        const [a = 0, cx = 0, cy = 0, xx = 0, xy = 0, yy = 0, b = 0] = p
        for (let i = 0; i < n; i++) {
          const dx = (x[i] as number) - cx
          const dy = (y[i] as number) - cy
          out[i] =
            a * Math.exp(-2 * (xx * dx * dx + 2 * xy * dx * dy + yy * dy * dy)) + b - (value[i] as number)
        }
      },
      jacobian: (p, out) => {
        const [a = 0, cx = 0, cy = 0, xx = 0, xy = 0, yy = 0] = p
        for (let i = 0; i < n; i++) {
          const dx = (x[i] as number) - cx
          const dy = (y[i] as number) - cy
          const e = Math.exp(-2 * (xx * dx * dx + 2 * xy * dx * dy + yy * dy * dy))
          const k = i * PARAMETERS
          out[k] = e
          out[k + 1] = 4 * a * e * (xx * dx + xy * dy)
          out[k + 2] = 4 * a * e * (xy * dx + yy * dy)
          out[k + 3] = -2 * a * e * dx * dx
          out[k + 4] = -4 * a * e * dx * dy
          out[k + 5] = -2 * a * e * dy * dy
          out[k + 6] = 1
        }
      },
    },
    { relativeGain: 1e-12, relativeStep: 1e-10 },
  )
  const [amplitude = 0, cx = 0, cy = 0, xx = 1, xy = 0, yy = 1, background = 0] = fit.parameters
  const variance = fit.degreesOfFreedom > 0 ? fit.sumOfSquares / fit.degreesOfFreedom : 0
  const standardOf = (f: (matrix: RadiusMatrix) => number): number => {
    const at = [xx, xy, yy]
    const slopes = at.map((centre, j) => {
      const step = 1e-5 * Math.max(Math.abs(centre), 1e-3 * Math.sqrt(xx * yy))
      const moved = (sign: number) => {
        const [mxx = 0, mxy = 0, myy = 0] = at.map((v, m) => (m === j ? v + sign * step : v))
        return f(invert({ xx: mxx, xy: mxy, yy: myy }))
      }
      return (moved(1) - moved(-1)) / (2 * step)
    })
    let sum = 0
    for (let a = 0; a < 3; a++) {
      for (let b = 0; b < 3; b++) {
        const covariance = fit.unscaledCovariance?.[(a + 3) * PARAMETERS + b + 3] ?? 0
        sum += (slopes[a] as number) * (slopes[b] as number) * covariance
      }
    }
    return Math.sqrt(Math.max(0, sum * variance))
  }
  return {
    amplitude,
    x: cx,
    y: cy,
    background,
    matrix: invert({ xx, xy, yy }),
    residuals: fit.residuals,
    residualRms: Math.sqrt(fit.sumOfSquares / n) / amplitude,
    degreesOfFreedom: fit.degreesOfFreedom,
    converged:
      fit.standardErrors !== null && fit.end !== 'max-iterations' && amplitude > 0 && xx * yy > xy * xy,
    standardOf,
  }
}

function invert({ xx, yy, xy }: RadiusMatrix): RadiusMatrix {
  const determinant = xx * yy - xy * xy
  return { xx: yy / determinant, yy: xx / determinant, xy: -xy / determinant }
}
