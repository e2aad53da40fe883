// A field in the collimated beam, represented by points: what each adds to int E f d2r, with a total power of 1.
//   coupled power = |sum a_j exp(i p_j) E2(r_j)|^2,  E2 the other guide's field propagated to the same plane
// Points may be shifted and tilted as a whole, which is the effect of small movements of guides and lenses on a collimated beam.
// Source: Parseval's theorem; the angular spectrum of J. W. Goodman, Introduction to Fourier Optics, sect. 3.10. Micrometres.

import { quickJ0 } from '../../numerics/quickBessel'
import type { RingField, RingSpectrum } from './collimatedField'

export interface PointField {
  readonly xUm: Float64Array
  readonly yUm: Float64Array
  /** |E| d2r. */
  readonly amount: Float64Array
  readonly phaseRad: Float64Array
  /** Where the paraxial chief ray crosses the plane, and its slope in the direction of travel. */
  readonly centreXUm: number
  readonly centreYUm: number
  readonly slopeXRad: number
  readonly slopeYRad: number
  /** 1/e^2 radius of the paraxial beam. */
  readonly beamRadiusUm: number
}

/** Writes real and imaginary part of a field at a point. */
export type FieldLookup = (xUm: number, yUm: number, out: Float64Array) => void

/** Pose of the points relative to the other field: a shift and a tilt. */
interface BeamMove {
  readonly shiftXUm: number
  readonly shiftYUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
}

const NO_MOVE: BeamMove = { shiftXUm: 0, shiftYUm: 0, tiltXRad: 0, tiltYRad: 0 }

/** Rings as points on the given number of azimuths. */
export function pointsOfRings(field: RingField, azimuths: number): PointField {
  const rings = field.radiusUm.length
  const count = rings * azimuths
  const [xUm, yUm] = [new Float64Array(count), new Float64Array(count)]
  const [amount, phaseRad] = [new Float64Array(count), new Float64Array(count)]
  for (let i = 0, at = 0; i < rings; i++) {
    for (let a = 0; a < azimuths; a++, at++) {
      const angle = (2 * Math.PI * (a + 0.5)) / azimuths
      xUm[at] = (field.radiusUm[i] as number) * Math.cos(angle)
      yUm[at] = (field.radiusUm[i] as number) * Math.sin(angle)
      amount[at] = ((field.amount[i] as number) * Math.sqrt(2 * Math.PI)) / azimuths
      phaseRad[at] = field.phaseRad[i] as number
    }
  }
  const inLine = { centreXUm: 0, centreYUm: 0, slopeXRad: 0, slopeYRad: 0 }
  return { xUm, yUm, amount, phaseRad, ...inLine, beamRadiusUm: field.beamRadiusUm }
}

/** Power that the moved points couple into the other guide's field, 0 to 1; `kPerUm` is that of the medium. */
export function coupledPoints(
  { xUm, yUm, amount, phaseRad }: PointField,
  other: FieldLookup,
  kPerUm: number,
  { shiftXUm, shiftYUm, tiltXRad, tiltYRad }: BeamMove = NO_MOVE,
): number {
  const found = new Float64Array(2)
  let [re, im] = [0, 0]
  for (let j = 0; j < xUm.length; j++) {
    const share = amount[j] as number
    if (share === 0) continue
    const x = xUm[j] as number
    const y = yUm[j] as number
    other(x + shiftXUm, y + shiftYUm, found)
    const phase = (phaseRad[j] as number) - kPerUm * (tiltXRad * x + tiltYRad * y)
    const c = share * Math.cos(phase)
    const s = share * Math.sin(phase)
    re += c * (found[0] as number) - s * (found[1] as number)
    im += c * (found[1] as number) + s * (found[0] as number)
  }
  return Math.min(1, re * re + im * im)
}

/** Spacing and extent of tables in 1/e^2 radii; beyond it the power is neglected. */
const STEP = 0.08
const REACH = 4.5

/** Weights of the cubic through four values, for a point between the second and the third. */
function cubic(t: number, out: Float64Array): void {
  out[0] = (-t * (t - 1) * (t - 2)) / 6
  out[1] = ((t + 1) * (t - 1) * (t - 2)) / 2
  out[2] = (-(t + 1) * t * (t - 2)) / 2
  out[3] = ((t + 1) * t * (t - 1)) / 6
}

/** Phase of a wave over a distance, relative to the axial wave, rad. */
function stretchPhase(qSquared: number, stretchUm: number, kPerUm: number): number {
  return (stretchUm * qSquared) / (kPerUm + Math.sqrt(Math.max(0, kPerUm * kPerUm - qSquared)))
}

/** A round field on the axis, propagated over a distance, from its conical waves. */
export function roundLookup(
  spectrum: RingSpectrum,
  waves: { readonly q: Float64Array; readonly weight: Float64Array },
  beamRadiusUm: number,
  stretchUm: number,
  kPerUm: number,
): FieldLookup {
  const step = (STEP / 2) * beamRadiusUm
  const count = Math.ceil((2 * REACH) / STEP) + 4
  const re = new Float64Array(count)
  const im = new Float64Array(count)
  for (let j = 0; j < waves.q.length; j++) {
    const q = waves.q[j] as number
    const weight = (waves.weight[j] as number) / Math.sqrt(2 * Math.PI)
    const phase = stretchPhase(q * q, stretchUm, kPerUm)
    const c = weight * Math.cos(phase)
    const s = weight * Math.sin(phase)
    const a = spectrum.re[j] as number
    const b = spectrum.im[j] as number
    const waveRe = a * c - b * s
    const waveIm = a * s + b * c
    // The second entry is the axis, so that the cubic has a neighbour on its other side.
    for (let i = 0; i < count; i++) {
      const j0 = quickJ0(q * Math.abs(i - 1) * step)
      re[i] = (re[i] as number) + waveRe * j0
      im[i] = (im[i] as number) + waveIm * j0
    }
  }
  const w = new Float64Array(4)
  return (x, y, out) => {
    const at = Math.sqrt(x * x + y * y) / step
    const i = Math.floor(at)
    out[0] = 0
    out[1] = 0
    if (i + 3 >= count) return
    cubic(at - i, w)
    for (let k = 0; k < 4; k++) {
      out[0] += (w[k] as number) * (re[i + k] as number)
      out[1] += (w[k] as number) * (im[i + k] as number)
    }
  }
}

/** Transverse wave numbers of a table along each axis: how many, and the largest, times the radius of the beam. */
const WAVES = 64
const STEEPEST = 10

/** exp(i sign a_i b_j) as two arrays, row by row. */
function turns(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  sign: 1 | -1,
): readonly [Float64Array, Float64Array] {
  const [re, im] = [new Float64Array(a.length * b.length), new Float64Array(a.length * b.length)]
  for (let i = 0, at = 0; i < a.length; i++) {
    for (let j = 0; j < b.length; j++, at++) {
      const angle = (a[i] as number) * (b[j] as number)
      re[at] = Math.cos(angle)
      im[at] = sign * Math.sin(angle)
    }
  }
  return [re, im]
}

type Complex = readonly [re: Float64Array, im: Float64Array]

/** Product of an n x m and an m x p matrix of complex numbers. */
function product(a: Complex, b: Complex, n: number, m: number, p: number): Complex {
  const [re, im] = [new Float64Array(n * p), new Float64Array(n * p)]
  for (let i = 0; i < n; i++) {
    const row = i * p
    for (let k = 0; k < m; k++) {
      const ar = a[0][i * m + k] as number
      const ai = a[1][i * m + k] as number
      const from = k * p
      for (let j = 0; j < p; j++) {
        const br = b[0][from + j] as number
        const bi = b[1][from + j] as number
        re[row + j] = (re[row + j] as number) + ar * br - ai * bi
        im[row + j] = (im[row + j] as number) + ar * bi + ai * br
      }
    }
  }
  return [re, im]
}

/** A field of any shape, propagated over a distance by its plane waves. */
export function tableLookup(field: PointField, stretchUm: number, kPerUm: number): FieldLookup {
  const { xUm, yUm, amount, phaseRad, beamRadiusUm: w, slopeXRad, slopeYRad } = field
  const points = xUm.length
  const step = (2 * STEEPEST) / (WAVES * w)
  const waves = Float64Array.from({ length: WAVES }, (_, i) => (i - (WAVES - 1) / 2) * step)
  const [tiltX, tiltY] = [kPerUm * slopeXRad, kPerUm * slopeYRad]
  const dx = xUm.map((x) => x - field.centreXUm)
  const dy = yUm.map((y) => y - field.centreYUm)
  const alongX = turns(waves, dx, -1)
  const alongY = turns(dy, waves, -1)
  // The x factors include the amplitude of each point, without the slope of the chief ray.
  for (let j = 0; j < points; j++) {
    const phase = (phaseRad[j] as number) + tiltX * (dx[j] as number) + tiltY * (dy[j] as number)
    const c = (amount[j] as number) * Math.cos(phase)
    const s = (amount[j] as number) * Math.sin(phase)
    for (let i = 0; i < WAVES; i++) {
      const at = i * points + j
      const a = alongX[0][at] as number
      const b = alongX[1][at] as number
      alongX[0][at] = a * c - b * s
      alongX[1][at] = a * s + b * c
    }
  }
  const spectrum = product(alongX, alongY, WAVES, points, WAVES)
  const scale = (step / (2 * Math.PI)) ** 2
  for (let i = 0, at = 0; i < WAVES; i++) {
    for (let j = 0; j < WAVES; j++, at++) {
      const kx = waves[i] as number
      const ky = waves[j] as number
      const qx = kx - tiltX
      const qy = ky - tiltY
      const phase =
        stretchPhase(qx * qx + qy * qy, stretchUm, kPerUm) + stretchUm * (kx * slopeXRad + ky * slopeYRad)
      const c = scale * Math.cos(phase)
      const s = scale * Math.sin(phase)
      const a = spectrum[0][at] as number
      const b = spectrum[1][at] as number
      spectrum[0][at] = a * c - b * s
      spectrum[1][at] = a * s + b * c
    }
  }
  const side = 2 * Math.ceil(REACH / STEP) + 1
  const positions = Float64Array.from({ length: side }, (_, i) => (i - (side - 1) / 2) * STEP * w)
  const half = product(turns(positions, waves, 1), spectrum, side, WAVES, WAVES)
  const [re, im] = product(half, turns(waves, positions, 1), side, WAVES, side)
  const [wx, wy] = [new Float64Array(4), new Float64Array(4)]
  const cell = STEP * w
  const [centreX, centreY] = [
    field.centreXUm + stretchUm * slopeXRad,
    field.centreYUm + stretchUm * slopeYRad,
  ]
  return (x, y, out) => {
    const rx = x - centreX
    const ry = y - centreY
    const ax = rx / cell + (side - 1) / 2
    const ay = ry / cell + (side - 1) / 2
    const i = Math.floor(ax)
    const j = Math.floor(ay)
    out[0] = 0
    out[1] = 0
    if (!(i >= 1 && j >= 1 && i + 2 < side && j + 2 < side)) return
    cubic(ax - i, wx)
    cubic(ay - j, wy)
    let sumRe = 0
    let sumIm = 0
    for (let m = 0; m < 4; m++) {
      const row = (i - 1 + m) * side + j - 1
      for (let n = 0; n < 4; n++) {
        const weight = (wx[m] as number) * (wy[n] as number)
        sumRe += weight * (re[row + n] as number)
        sumIm += weight * (im[row + n] as number)
      }
    }
    const angle = -(tiltX * rx + tiltY * ry)
    const c = Math.cos(angle)
    const s = Math.sin(angle)
    out[0] = sumRe * c - sumIm * s
    out[1] = sumRe * s + sumIm * c
  }
}
