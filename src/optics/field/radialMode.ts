// The fundamental mode of a round fibre whose index is a table over the radius: graded cores, trenches, rings.
//   E'' + E'/r + (k0^2 n(r)^2 - beta^2) E = 0,  E'(0) = 0,  outside the table E = K0(w r), w^2 = beta^2 - k0^2 ncl^2
// The index is linear between the radii of the table; a radius given twice is a step. Integrated outwards from the axis by
// the fourth-order Runge-Kutta rule; beta is the greatest for which field and slope meet the outer solution.
// Sources: the scalar wave equation, D. Gloge, Appl. Opt. 10 (1971) 2252; counting nodes for the order of a mode is
// Sturm's theorem, E. A. Coddington and N. Levinson, Theory of Ordinary Differential Equations (1955), ch. 8 (both from
// memory). Scalar: trust for index steps of a few per cent.

import { besselK0Scaled, besselK1Scaled } from '../../numerics/bessel'
import { InputError, requireFinite, requireInRange, requirePositive } from '../../numerics/inputError'
import { brentRoot } from '../../numerics/roots'

/** Radii from the axis outwards with their indices; beyond the last, the cladding has the last index. */
export interface RadialIndex {
  readonly radiiUm: readonly number[]
  readonly indices: readonly number[]
}

export interface RadialMode {
  readonly effectiveIndex: number
  /** Share of the way from the cladding's to the greatest permittivity, 0 to 1. */
  readonly b: number
  /** The field and its slope at radii from 0 to the edge of the table, scaled to 1 on the axis. */
  readonly radiiUm: Float64Array
  readonly field: Float64Array
  readonly slopePerUm: Float64Array
  /** Decay constant of the outer solution, 1/um. */
  readonly decayPerUm: number
}

const MOST_POINTS = 400
/** Steps of the integration per vacuum wavelength over the index. */
const STEPS_A_WAVE = 60
const LEAST_STEPS = 8

/** Throws InputError for a table that is not a fibre: its fields are named. */
function requireRadialIndex({ radiiUm, indices }: RadialIndex): void {
  requireInRange('number of radii', radiiUm.length, 2, MOST_POINTS)
  if (indices.length !== radiiUm.length) {
    throw new InputError('number of indices', indices.length, `the number of radii, ${radiiUm.length}`)
  }
  for (const [i, radius] of radiiUm.entries()) {
    const before = radiiUm[i - 1] as number
    requireFinite(`radius ${i + 1}`, radius)
    if (radius < before || (i === 0 && radius !== 0)) {
      throw new InputError(`radius ${i + 1}`, radius, i === 0 ? '0, the axis' : `${before} µm or more`)
    }
    requireInRange(`index ${i + 1}`, indices[i] ?? Number.NaN, 1, 5)
  }
  requireInRange('last radius', radiiUm.at(-1) ?? 0, 0.05, 500)
}

/** Nodes of the integration: radius, and the squared index just outside it, in the middle and just before the next. */
interface Steps {
  readonly radiiUm: Float64Array
  readonly squares: Float64Array
}

function stepsOf({ radiiUm, indices }: RadialIndex, k0: number): Steps {
  const nodes: number[] = [0]
  const squares: number[] = []
  for (let i = 1; i < radiiUm.length; i++) {
    const [from, to] = [radiiUm[i - 1] as number, radiiUm[i] as number]
    if (to === from) continue
    const [n1, n2] = [indices[i - 1] as number, indices[i] as number]
    const waves = (k0 * Math.max(n1, n2) * (to - from)) / (2 * Math.PI)
    const count = Math.max(LEAST_STEPS, Math.ceil(STEPS_A_WAVE * waves))
    for (let j = 0; j < count; j++) {
      for (const share of [j, j + 0.5, j + 1]) squares.push((n1 + ((n2 - n1) * share) / count) ** 2)
      nodes.push(from + ((to - from) * (j + 1)) / count)
    }
  }
  return { radiiUm: Float64Array.from(nodes), squares: Float64Array.from(squares) }
}

interface Shot {
  readonly field: number
  readonly slope: number
  readonly nodes: number
}

/** Integrates outwards; writes field and slope where arrays are given. */
function shoot(steps: Steps, k0: number, beta: number, field?: Float64Array, slope?: Float64Array): Shot {
  const { radiiUm, squares } = steps
  let e = 1
  let p = 0 // r E'
  let crossings = 0
  for (let i = 0; i + 1 < radiiUm.length; i++) {
    const r0 = radiiUm[i] as number
    const r1 = radiiUm[i + 1] as number
    const h = r1 - r0
    const rm = r0 + h / 2
    const q = (at: number) => beta * beta - k0 * k0 * (squares[3 * i + at] as number)
    const [q0, qm, q1] = [q(0), q(1), q(2)]
    // E' = P / r, P' = r q E; on the axis P / r = q E r / 2 = 0.
    const over = (value: number, radius: number) => (radius === 0 ? 0 : value / radius)
    const e1 = over(p, r0)
    const p1 = r0 * q0 * e
    const e2 = over(p + (h / 2) * p1, rm)
    const p2 = rm * qm * (e + (h / 2) * e1)
    const e3 = over(p + (h / 2) * p2, rm)
    const p3 = rm * qm * (e + (h / 2) * e2)
    const e4 = over(p + h * p3, r1)
    const p4 = r1 * q1 * (e + h * e3)
    const next = e + (h / 6) * (e1 + 2 * e2 + 2 * e3 + e4)
    p += (h / 6) * (p1 + 2 * p2 + 2 * p3 + p4)
    if (next > 0 !== e > 0) crossings++
    e = next
    if (field !== undefined && slope !== undefined) {
      field[i + 1] = e
      slope[i + 1] = p / r1
    }
  }
  const edge = radiiUm.at(-1) ?? 1
  return { field: e, slope: p / edge, nodes: crossings }
}

/** The fundamental mode. Throws InputError for a table that is not a fibre, and where nothing is guided. */
export function radialMode(index: RadialIndex, wavelengthUm: number): RadialMode {
  requireRadialIndex(index)
  requirePositive('wavelengthUm', wavelengthUm)
  const k0 = (2 * Math.PI) / wavelengthUm
  const cladding = index.indices.at(-1) ?? 1
  const greatest = Math.max(...index.indices)
  const edge = index.radiiUm.at(-1) ?? 1
  if (!(greatest > cladding)) {
    throw new InputError('greatest index', greatest, `above that of the cladding, ${cladding}`)
  }
  const steps = stepsOf(index, k0)
  const decay = (beta: number) => Math.sqrt((beta - k0 * cladding) * (beta + k0 * cladding))
  /** Above 0 where beta is greater than that of the fundamental mode. */
  const mismatch = (beta: number): number => {
    const shot = shoot(steps, k0, beta)
    if (shot.nodes > 0) return -1
    const w = decay(beta)
    // Over |field| and slope, so that the values stay near 1 however fast the outward solution grows.
    const outer = (w * besselK1Scaled(w * edge)) / besselK0Scaled(w * edge)
    return (shot.slope + outer * shot.field) / (Math.abs(shot.slope) + outer * Math.abs(shot.field))
  }
  const least = k0 * cladding * (1 + 1e-9)
  const root = brentRoot(mismatch, least, k0 * greatest)
  if (root.end !== 'converged') {
    throw new InputError(
      'index table',
      `${greatest} at most over ${cladding}`,
      `such that a mode is guided at ${wavelengthUm} µm; it is cut off, or too weakly bound to compute`,
    )
  }
  const beta = root.x
  const field = new Float64Array(steps.radiiUm.length).fill(1)
  const slope = new Float64Array(steps.radiiUm.length)
  shoot(steps, k0, beta, field, slope)
  const effectiveIndex = beta / k0
  return {
    effectiveIndex,
    b: (effectiveIndex ** 2 - cladding ** 2) / (greatest ** 2 - cladding ** 2),
    radiiUm: steps.radiiUm,
    field,
    slopePerUm: slope,
    decayPerUm: decay(beta),
  }
}
