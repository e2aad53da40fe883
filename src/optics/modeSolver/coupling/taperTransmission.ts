// Loss of a taper from the local modes along it. From each mode to the next the state turns by the angle whose cosine is their
// overlap; the light that is left over radiates at the cladding index and interferes with that left over further along.
//   da/dz = -g b,  db/dz = g a + i (2 pi / lambda) (n_eff - n_clad) b,  g = d(angle)/dz,  loss = |b(L)|^2
// One radiation mode represents all of them: it has the smallest phase mismatch of any, so that the loss is somewhat overestimated.
// The angles are scaled to add up to that of the two end modes: a taper of zero length is then the joint of its ends.
// Source: local modes, A. W. Snyder and J. D. Love, Optical Waveguide Theory (1983), ch. 19 and 28 (from memory); the criterion of
// adiabatic tapers by the beat length with the nearest mode, J. D. Love et al., IEE Proc. J 138 (1991) 343 (from memory).
// Against beam propagation of slab tapers: 0.95 to 1.5 times the loss in dB (tests).

import { requireInRange, requirePositive } from '../../../numerics/inputError'

/** Local modes of one taper, by rising width. */
export interface LocalModes {
  readonly widthUm: readonly number[]
  readonly effectiveIndex: readonly number[]
  /** Index of the radiation with the smallest phase mismatch: that of the mode at cut-off. */
  readonly claddingIndex: readonly number[]
  /** Amplitude overlap of each mode with the next; one fewer than widths. */
  readonly overlapWithNext: readonly number[]
  /** Amplitude overlap of the first mode with the last. */
  readonly overlapOfEnds: number
}

export interface Taper {
  readonly wavelengthUm: number
  readonly lengthUm: number
  /** The width rises with this power of the distance from the narrow end: 1: linear; 2: more gradual at the narrow end. */
  readonly exponent: number
}

const STEPS = 600
/** A continuum of radiation shows no oscillation: the loss is the mean over this share of the length to either side. */
const SPREAD = 0.1
const LENGTHS = 11

const angleOf = (overlap: number) => Math.acos(Math.min(1, Math.max(0, overlap)))

/** Linear interpolation between points of rising x, constant beyond them. */
function lineThrough(x: readonly number[], y: readonly number[]): (at: number) => number {
  let k = 0
  return (at) => {
    const last = x.length - 2
    if (last < 0 || at <= (x[0] as number)) return y[0] as number
    while (k > 0 && (x[k] as number) > at) k--
    while (k < last && (x[k + 1] ?? 0) <= at) k++
    const from = x[k] as number
    const to = x[k + 1] ?? 0
    const part = Math.min(1, (at - from) / (to - from))
    return (1 - part) * (y[k] as number) + part * (y[k + 1] ?? 0)
  }
}

/** The angle by which the mode turns in each step along the taper, and half its phase mismatch there, per um; the same for every length. */
interface LocalTurns {
  readonly angleRad: Float64Array
  readonly halfMismatch: Float64Array
}

function localTurns(modes: LocalModes, wavelengthUm: number, exponent: number): LocalTurns {
  requirePositive('wavelengthUm', wavelengthUm)
  requireInRange('exponent', exponent, 1, 4)
  const { widthUm, effectiveIndex, claddingIndex, overlapWithNext, overlapOfEnds } = modes
  const width = (i: number) => widthUm[i] as number
  const [tip, routing] = [width(0), width(widthUm.length - 1)]
  const angles = overlapWithNext.map(angleOf)
  const turning = lineThrough(
    angles.map((_, i) => (width(i) + width(i + 1)) / 2),
    angles.map((angle, i) => angle / (width(i + 1) - width(i))),
  )
  const mismatch = lineThrough(
    widthUm,
    effectiveIndex.map((index, i) => ((2 * Math.PI) / wavelengthUm) * (index - (claddingIndex[i] ?? index))),
  )
  const angleRad = new Float64Array(STEPS)
  const halfMismatch = new Float64Array(STEPS)
  let path = 0
  for (let i = 0; i < STEPS; i++) {
    const from = (i / STEPS) ** exponent
    const to = ((i + 1) / STEPS) ** exponent
    const at = tip + ((routing - tip) * (from + to)) / 2
    angleRad[i] = turning(at) * (routing - tip) * (to - from)
    halfMismatch[i] = mismatch(at) / 2
    path += angleRad[i] as number
  }
  const scale = path > 0 ? angleOf(overlapOfEnds) / path : 0
  return { angleRad: angleRad.map((angle) => scale * angle), halfMismatch }
}

/** Share of the power outside the fundamental mode after this length, oscillation included. */
function lossAfter({ angleRad, halfMismatch }: LocalTurns, lengthUm: number): number {
  const h = lengthUm / STEPS
  let [aRe, aIm, bRe, bIm] = [1, 0, 0, 0]
  for (let i = 0; i < STEPS; i++) {
    // Both coefficients are constant over the step, which is then exact: a rotation by the turn and half the phase together.
    const turn = angleRad[i] as number
    const half = (halfMismatch[i] as number) * h
    const s = Math.hypot(turn, half)
    const cos = Math.cos(s)
    const sinc = s > 0 ? Math.sin(s) / s : 1
    const turned = turn * sinc
    const phase = half * sinc
    const a0 = aRe
    const a1 = aIm
    const b0 = bRe
    const b1 = bIm
    aRe = cos * a0 + phase * a1 - turned * b0
    aIm = cos * a1 - phase * a0 - turned * b1
    bRe = turned * a0 + cos * b0 - phase * b1
    bIm = turned * a1 + cos * b1 + phase * b0
  }
  return Math.min(1, bRe * bRe + bIm * bIm)
}

/** Share of the power that leaves the fundamental mode over exactly this length, 0 to 1, oscillation included. */
export function localModeLoss(modes: LocalModes, { wavelengthUm, lengthUm, exponent }: Taper): number {
  return lossAfter(localTurns(modes, wavelengthUm, exponent), requirePositive('lengthUm', lengthUm))
}

/** Share of the power that a taper loses, 0 to 1: the mean over lengths around its own. InputError unless the length is above 0 and the exponent 1 to 4. */
export function taperLoss(modes: LocalModes, { wavelengthUm, lengthUm, exponent }: Taper): number {
  requirePositive('lengthUm', lengthUm)
  const turns = localTurns(modes, wavelengthUm, exponent)
  let sum = 0
  for (let i = 0; i < LENGTHS; i++) {
    sum += lossAfter(turns, lengthUm * (1 + SPREAD * ((2 * i) / (LENGTHS - 1) - 1)))
  }
  return sum / LENGTHS
}
