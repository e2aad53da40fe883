// Integrals of smooth functions: Gauss-Legendre rules on one panel and on a chain of panels.
// Nodes: Halley's method on the Legendre polynomial from Tricomi's estimate of its roots.
// Source: NIST Digital Library of Mathematical Functions, 3.5(v); M. Abramowitz and I. Stegun (1964), 25.4.29.

import { InputError } from './inputError'

/** Nodes in ascending order and their weights. */
interface QuadratureRule {
  readonly nodes: Float64Array
  readonly weights: Float64Array
}

const knownRules = new Map<number, QuadratureRule>()

/**
 * The n-point Gauss-Legendre rule on [-1, 1], exact for polynomials up to degree 2n - 1. n from 1 to 256. Rules are kept:
 * do not write into their arrays.
 */
export function gaussLegendre(n: number): QuadratureRule {
  if (!Number.isInteger(n) || n < 1 || n > 256) throw new InputError('n', n, 'a whole number, 1 to 256')
  const known = knownRules.get(n)
  if (known !== undefined) return known
  const rule = solveRule(n)
  knownRules.set(n, rule)
  return rule
}

function solveRule(n: number): QuadratureRule {
  const nodes = new Float64Array(n)
  const weights = new Float64Array(n)
  // The rule is symmetric: the nodes up to the middle are solved for.
  for (let i = 0; 2 * i < n; i++) {
    let x = 2 * i + 1 === n ? 0 : -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5)) * (1 - (n - 1) / (8 * n ** 3))
    let slope = 1
    for (let pass = 0; pass < 8; pass++) {
      let previous = 1
      let current = x
      for (let k = 2; k <= n; k++) {
        const next = ((2 * k - 1) * x * current - (k - 1) * previous) / k
        previous = current
        current = next
      }
      const across = 1 - x * x
      slope = (n * (previous - x * current)) / across
      // From Legendre's equation.
      const bend = (2 * x * slope - n * (n + 1) * current) / across
      const correction = current / (slope - (current * bend) / (2 * slope))
      x -= correction
      slope -= correction * bend
      // The next one would be of the order of its cube.
      if (Math.abs(correction) < 1e-10) break
    }
    nodes[n - 1 - i] = -x
    nodes[i] = x
    weights[i] = 2 / ((1 - x * x) * slope * slope)
    weights[n - 1 - i] = weights[i] as number
  }
  return { nodes, weights }
}

/**
 * Slopes, at the nodes of the Gauss-Legendre rule of as many, of the polynomial through `values` there: exact up to degree n - 1. By barycentric
 * weights (-1)^j sqrt((1 - x_j^2) w_j) (J.-P. Berrut and L. N. Trefethen, SIAM Rev. 46 (2004) 501, sect. 9.3; H. Wang and S. Xiang, Math.
 * Comput. 81 (2012) 861).
 */
export function nodeSlopes(values: Float64Array): Float64Array {
  const n = values.length
  const { nodes, weights } = gaussLegendre(n)
  const share = nodes.map((x, j) => (j % 2 === 0 ? 1 : -1) * Math.sqrt((1 - x * x) * (weights[j] as number)))
  const slopes = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const [x, y] = [nodes[i] as number, values[i] as number]
    let sum = 0
    for (let j = 0; j < n; j++) {
      if (j !== i) sum += ((share[j] as number) * ((values[j] as number) - y)) / (x - (nodes[j] as number))
    }
    slopes[i] = sum / (share[i] as number)
  }
  return slopes
}

/**
 * The rule repeated on the panels between ascending `breaks` (at least two, finite), so that
 * sum(weights[i] * f(nodes[i])) approximates the integral of f from the first break to the last.
 */
export function panelRule(breaks: readonly number[], pointsPerPanel: number): QuadratureRule {
  if (breaks.length < 2) throw new InputError('breaks.length', breaks.length, 'at least 2')
  const unit = gaussLegendre(pointsPerPanel)
  const total = pointsPerPanel * (breaks.length - 1)
  const nodes = new Float64Array(total)
  const weights = new Float64Array(total)
  let at = 0
  let from = breaks[0] as number
  for (const to of breaks.slice(1)) {
    if (!(to > from)) throw new InputError('breaks', to, `above the break before it, ${from}`)
    const half = (to - from) / 2
    const middle = (to + from) / 2
    for (let i = 0; i < pointsPerPanel; i++, at++) {
      nodes[at] = middle + half * (unit.nodes[i] as number)
      weights[at] = half * (unit.weights[i] as number)
    }
    from = to
  }
  return { nodes, weights }
}

/** Integral of f by a rule made by panelRule. */
export function integrate(f: (x: number) => number, rule: QuadratureRule): number {
  let sum = 0
  for (let i = 0; i < rule.nodes.length; i++) sum += (rule.weights[i] as number) * f(rule.nodes[i] as number)
  return sum
}
