// The field of a mode behind a real lens, in the collimated beam: a fan of rays carries power and optical path.
// Rays leave a sphere at the first vertex along its normals and are traced exactly. Its curvature is that of the mode's wavefront,
// changed so that paraxial rays follow the Gaussian's width to the last vertex: a mode within a few Rayleigh ranges spreads more
// in the glass than the normals of its wavefront do. The path difference from the paraxial wave of the same rays is added to the
// paraxial Gaussian, whose size and curvature account for diffraction in gap and glass. The power between two rays is conserved.
//   E(r) = sqrt(I du / (r dr)) exp(-i k0 [W(y) - m y^2 / (2 Rg) + m r^2 / (2 R)]),  r = y w / wg,  I = 4 u exp(-2 u^2)
// u is the height on the sphere in 1/e^2 radii, y the height at which the ray leaves, W its path relative to that on the axis, wg and Rg the
// paraxial height and curvature of the ray at u = 1, w and R those of the Gaussian.
//   A(q) = int E J0(q r) r dr,  |A|^2 q dq the power
// Source: derived here; ray tubes as in M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 3.1. Round modes, centred
// lens. Micrometres.

import { gaussLegendre, nodeSlopes } from '../../numerics/quadrature'
import { quickJ0 } from '../../numerics/quickBessel'
import type { RayMatrix } from '../beam/abcd'
import type { LensShape } from './lensShape'
import { type TracedRay, traceRay } from './traceRay'

export interface LensMode {
  readonly wavelengthUm: number
  /** 1/e^2 radius of the mode's waist. */
  readonly waistRadiusUm: number
  /** From the waist to the first vertex, positive with the waist in front of the lens. */
  readonly distanceUm: number
}

/** The field on rings in the plane of the lens's last vertex: total power 1, phase in radians. */
export interface RingField {
  readonly radiusUm: Float64Array
  /** sqrt(power r dr): the ring's share of int E f(r) r dr. */
  readonly amount: Float64Array
  readonly phaseRad: Float64Array
  /** Optical path relative to the paraxial one, um, and the share of the power, for each ring. */
  readonly errorUm: Float64Array
  readonly power: Float64Array
  /** 1/e^2 radius and curvature of the paraxial beam there. */
  readonly beamRadiusUm: number
  readonly curvaturePerUm: number
}

const RAYS = 40
export const REACH = 3
/** The edge of the fan, where a ray misses a face, is totally reflected or crosses its neighbour, is found to this. */
const RISE = 1e-5

/** Radius and curvature, 1/um, of a Gaussian beam behind a matrix. */
export function gaussianBehind({ a, b, c, d }: RayMatrix, mode: LensMode, index: number) {
  const rayleigh = (Math.PI * index * mode.waistRadiusUm ** 2) / mode.wavelengthUm
  const z = mode.distanceUm
  // 1/q' = (c q + d) / (a q + b), q = z + i zR
  const [upRe, upIm] = [c * z + d, c * rayleigh]
  const [downRe, downIm] = [a * z + b, a * rayleigh]
  const square = downRe * downRe + downIm * downIm
  const re = (upRe * downRe + upIm * downIm) / square
  const im = (upIm * downRe - upRe * downIm) / square
  return { radiusUm: Math.sqrt(mode.wavelengthUm / (Math.PI * index * -im)), curvaturePerUm: re }
}

/**
 * Curvature of the sphere that rays leave at the first vertex, 1/um: c so that |a + b c| = sqrt((a + b C)^2 + (b k)^2), which is how
 * the Gaussian's width grows; C is the curvature of its wavefront there, k = lambda / (pi n w^2).
 */
export function launchCurvature({ a, b }: RayMatrix, mode: LensMode, index: number): number {
  const rayleigh = (Math.PI * index * mode.waistRadiusUm ** 2) / mode.wavelengthUm
  const square = mode.distanceUm ** 2 + rayleigh ** 2
  const [wavefront, spread] = [mode.distanceUm / square, rayleigh / square]
  const geometric = a + b * wavefront
  const grown = Math.hypot(geometric, b * spread) + Math.abs(geometric)
  return wavefront + (grown > 0 ? ((geometric < 0 ? -1 : 1) * b * spread * spread) / grown : 0)
}

/** The field of a mode behind the lens; null where not even the rays near the axis get through. */
export function collimatedField(mode: LensMode, lens: LensShape, matrix: RayMatrix): RingField | null {
  const { mediumIndex: m } = lens
  const k0 = (2 * Math.PI) / mode.wavelengthUm
  const rayleigh = (Math.PI * m * mode.waistRadiusUm ** 2) / mode.wavelengthUm
  const z = mode.distanceUm
  const curvature = launchCurvature(matrix, mode, m)
  const front = mode.waistRadiusUm * Math.hypot(1, z / rayleigh)
  const { radiusUm: beamRadiusUm, curvaturePerUm } = gaussianBehind(matrix, mode, m)
  const geometricHeight = (matrix.a + matrix.b * curvature) * front
  const geometricCurvature = (matrix.c + matrix.d * curvature) / (matrix.a + matrix.b * curvature)
  const scale = beamRadiusUm / Math.abs(geometricHeight)
  const axial = lens.gradient === undefined ? lens.index * lens.thicknessUm : axialPath(lens)
  const ray: TracedRay = { x: 0, y: 0, z: 0, dx: 0, dy: 0, dz: 1, path: 0 }
  /** Traces the ray at u and returns whether it came through; its height is then ray.x. */
  const trace = (u: number): boolean => {
    const h = u * front
    const sine = h * curvature
    if (!(Math.abs(sine) < 0.999)) return false
    ray.x = h
    ray.y = 0
    ray.dx = sine
    ray.dy = 0
    ray.dz = Math.sqrt(1 - sine * sine)
    ray.z = (-h * sine) / (1 + ray.dz)
    ray.path = 0
    return traceRay(ray, lens)
  }
  const sign = Math.sign(geometricHeight)
  const { nodes, weights } = gaussLegendre(RAYS)
  const heightUm = new Float64Array(RAYS)
  const errorUm = new Float64Array(RAYS)
  /** Traces the fan and returns how many of its rays, from the axis, come through, each beyond the one before. */
  const fan = (edge: number): number => {
    let before = 0
    for (let i = 0; i < RAYS; i++) {
      if (!trace((edge * (1 + (nodes[i] as number))) / 2)) return i
      const y = sign * ray.x
      if (!(y > before)) return i
      before = y
      heightUm[i] = y
      errorUm[i] = ray.path - axial - (m * y * y * geometricCurvature) / 2
    }
    return RAYS
  }
  const rises = (u: number): boolean => {
    if (!trace(u)) return false
    const before = sign * ray.x
    return trace(u + RISE) && sign * ray.x > before
  }
  let edge = REACH
  let passing = fan(edge)
  if (passing < RAYS) {
    const nodeAt = (i: number) => (REACH * (1 + (nodes[i] as number))) / 2
    let low = passing < 2 ? 0 : nodeAt(passing - 2)
    let high = nodeAt(passing)
    while (high - low > RISE) {
      const middle = (low + high) / 2
      if (rises(middle)) low = middle
      else high = middle
    }
    edge = low
    passing = fan(edge)
    if (passing < RAYS) return null
  }
  const slope = nodeSlopes(heightUm)
  const radiusUm = new Float64Array(RAYS)
  const amount = new Float64Array(RAYS)
  const phaseRad = new Float64Array(RAYS)
  const power = new Float64Array(RAYS)
  const flux = fluxOf(front * curvature)
  for (let i = 0; i < RAYS; i++) {
    const u = (edge * (1 + (nodes[i] as number))) / 2
    const du = (edge * (weights[i] as number)) / 2
    const r = (heightUm[i] as number) * scale
    const sine = u * front * curvature
    const intensity = (4 * u * Math.exp(-2 * u * u) * Math.sqrt(Math.max(0, 1 - sine * sine))) / flux
    radiusUm[i] = r
    power[i] = intensity * du
    amount[i] = Math.sqrt((intensity * r * Math.max(0, slope[i] as number) * scale * 2) / edge) * du
    phaseRad[i] = -k0 * ((errorUm[i] as number) + (m * r * r * curvaturePerUm) / 2)
  }
  return { radiusUm, amount, phaseRad, errorUm, power, beamRadiusUm, curvaturePerUm }
}

/** The paraxial Gaussian behind a lens that is known only by its matrix, on the same rings. */
export function paraxialField(mode: LensMode, matrix: RayMatrix, index: number): RingField {
  const { radiusUm: beamRadiusUm, curvaturePerUm } = gaussianBehind(matrix, mode, index)
  const { nodes, weights } = gaussLegendre(RAYS)
  const u = nodes.map((x) => (REACH * (1 + x)) / 2)
  const power = u.map((each, i) => 2 * REACH * each * Math.exp(-2 * each * each) * (weights[i] as number))
  const k = (2 * Math.PI * index) / mode.wavelengthUm
  return {
    radiusUm: u.map((each) => each * beamRadiusUm),
    amount: u.map((each, i) => REACH * each * Math.exp(-each * each) * (weights[i] as number) * beamRadiusUm),
    phaseRad: u.map((each) => (-k * (each * beamRadiusUm) ** 2 * curvaturePerUm) / 2),
    errorUm: new Float64Array(RAYS),
    power,
    beamRadiusUm,
    curvaturePerUm,
  }
}

/** int 4 u exp(-2 u^2) cos(theta) du, sin(theta) = slope u: the power that crosses the waist plane of a mode of unit field. */
export function fluxOf(slope: number): number {
  const { nodes, weights } = gaussLegendre(RAYS)
  const edge = Math.min(REACH, 1 / Math.max(Math.abs(slope), 1e-9))
  let sum = 0
  for (let i = 0; i < RAYS; i++) {
    const u = (edge * (1 + (nodes[i] as number))) / 2
    const cosine = Math.sqrt(Math.max(0, 1 - (slope * u) ** 2))
    sum += 2 * edge * (weights[i] as number) * u * Math.exp(-2 * u * u) * cosine
  }
  return sum
}

function axialPath(lens: LensShape): number {
  const ray: TracedRay = { x: 0, y: 0, z: 0, dx: 0, dy: 0, dz: 1, path: 0 }
  traceRay(ray, lens)
  return ray.path
}

/** A field as conical waves on a given list of q. */
export interface RingSpectrum {
  readonly re: Float64Array
  readonly im: Float64Array
}

export function ringSpectrum({ radiusUm, amount, phaseRad }: RingField, q: Float64Array): RingSpectrum {
  const re = new Float64Array(q.length)
  const im = new Float64Array(q.length)
  for (let i = 0; i < radiusUm.length; i++) {
    const r = radiusUm[i] as number
    const c = (amount[i] as number) * Math.cos(phaseRad[i] as number)
    const s = (amount[i] as number) * Math.sin(phaseRad[i] as number)
    addRing(q, r, c, s, re, im)
  }
  return { re, im }
}

// A function of its own: called for every ring it is compiled as a whole, once.
function addRing(q: Float64Array, r: number, c: number, s: number, re: Float64Array, im: Float64Array): void {
  for (let j = 0; j < q.length; j++) {
    const j0 = quickJ0((q[j] as number) * r)
    re[j] = (re[j] as number) + c * j0
    im[j] = (im[j] as number) + s * j0
  }
}

/** Conical waves: nodes and weights of q dq. */
interface ConicalWaves {
  readonly q: Float64Array
  readonly weight: Float64Array
}

/** Conical waves for beams of the two radii. */
export function waveNodes(beamRadiusUm: number, spread: number, count = 64): ConicalWaves {
  const most = spread / beamRadiusUm
  const { nodes, weights } = gaussLegendre(count)
  const q = nodes.map((x) => (most * (1 + x)) / 2)
  return { q, weight: weights.map((w, j) => (w * most * (q[j] as number)) / 2) }
}

/** The weights of waves with the phase that each collects over a distance in a medium, relative to the axial wave. */
export function wavesOver({ q, weight }: ConicalWaves, stretchUm: number, kPerUm: number): RingSpectrum {
  const re = new Float64Array(q.length)
  const im = new Float64Array(q.length)
  for (let j = 0; j < q.length; j++) {
    const square = (q[j] as number) ** 2
    // kz - k, without cancellation.
    const phase = (stretchUm * square) / (kPerUm + Math.sqrt(Math.max(0, kPerUm * kPerUm - square)))
    re[j] = (weight[j] as number) * Math.cos(phase)
    im[j] = (weight[j] as number) * Math.sin(phase)
  }
  return { re, im }
}

/**
 * Power coupled between two fields that travel towards each other, 0 to 1: |int A1 A2 exp(-i kz L) q dq|^2. `over` are the waves with
 * the distance between both (wavesOver).
 */
export function coupledBy(first: RingSpectrum, second: RingSpectrum, over: RingSpectrum): number {
  let re = 0
  let im = 0
  for (let j = 0; j < over.re.length; j++) {
    const a1 = first.re[j] as number
    const b1 = first.im[j] as number
    const a2 = second.re[j] as number
    const b2 = second.im[j] as number
    const a = a1 * a2 - b1 * b2
    const b = a1 * b2 + b1 * a2
    const c = over.re[j] as number
    const s = over.im[j] as number
    re += a * c - b * s
    im += a * s + b * c
  }
  return Math.min(1, re * re + im * im)
}

/** What two round Gaussian beams that travel towards each other need to be known by, in their planes. */
type RoundBeam = Pick<RingField, 'beamRadiusUm' | 'curvaturePerUm'>

/**
 * The same of the paraxial Gaussians alone, in closed form: 4 k1 k2 / |u1 + u2 + L u1 u2|^2, u = C - i k the inverse beam parameter of each,
 * k = lambda / (pi n w^2). Source: H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550 for u along the beam; the overlap derived here.
 */
export function coupledGaussians(
  { beamRadiusUm: w1, curvaturePerUm: c1 }: RoundBeam,
  { beamRadiusUm: w2, curvaturePerUm: c2 }: RoundBeam,
  stretchUm: number,
  kPerUm: number,
): number {
  const k1 = 2 / (kPerUm * w1 * w1)
  const k2 = 2 / (kPerUm * w2 * w2)
  const re = c1 + c2 + stretchUm * (c1 * c2 - k1 * k2)
  const im = k1 + k2 + stretchUm * (c1 * k2 + c2 * k1)
  return (4 * k1 * k2) / (re * re + im * im)
}
