// Interference of two end faces across a gap, with the diffraction that a guided mode suffers on every round trip.
// Light that goes round m times leaves the near face as if it came from an image of the emitter, mirrored 2 m times in
// the two faces, and couples with the amplitude c_m of that image:
//   T(phi) / T_single = |sum over m of a_m exp(-i m phi)|^2,  a_m = (r1 r2)^m c_m / c_0,  phi = k (path of m = 1 - path of 0)
// Without diffraction (all c_m equal) this is the Airy function of etalon.ts. For parallel oblique faces the images
// shift along the faces and phi = 4 pi n L cos(t) / lambda (V. Shah et al., J. Lightwave Technol. 7 (1989) 1478); faces that
// are not parallel turn the beam by twice their angle on every trip.
// Source: own derivation from mirror images and joint.ts. Paraxial, flat faces; a curved tip is not covered.
// Micrometres, radians.

import { type Complex, complex, over, phasor, squareOf, times } from '../../numerics/complex'
import { requireInRange } from '../../numerics/inputError'
import { minimiseBrent } from '../../numerics/minimise'
import { type GaussianJoint, requireJoint } from '../joint/gaussianJoint'
import { jointAmplitude } from '../joint/jointAmplitude'

/** The slopes dx/dz and dy/dz of a face's normal, in the frame of the joint. */
export interface FaceNormal {
  readonly xRad: number
  readonly yRad: number
}

export interface EtalonGap {
  readonly joint: GaussianJoint
  readonly near: FaceNormal
  readonly far: FaceNormal
  /** Reflected over incident amplitude of each face, seen from inside the gap. */
  readonly nearAmplitude: Complex
  readonly farAmplitude: Complex
}

export interface EtalonSeries {
  /** a_m from m = 0, whose value is 1. */
  readonly terms: readonly Complex[]
  /** Phase of one round trip, not wrapped. */
  readonly phaseRad: number
}

/** Terms smaller than this share of the first are omitted: 1e-6 dB. */
const LEAST_TERM = 1e-7
const MOST_TERMS = 200
/** Images tilted by more than this couple nothing, and the paraxial integral would not hold. */
const STEEPEST_RAD = 0.7

/** The round trips of a gap, or null where not even the direct light couples. Throws InputError as jointEfficiency does. */
export function etalonSeries(gap: EtalonGap): EtalonSeries | null {
  const joint = requireJoint(gap.joint)
  const product = times(gap.nearAmplitude, gap.farAmplitude)
  requireInRange('reflectance of the pair', squareOf(product), 0, 0.998)
  const direct = jointAmplitude(joint)
  if (!(squareOf(direct) > 0)) return null
  const near = plane(gap.near)
  const far = plane(gap.far)
  const k = (2 * Math.PI * joint.index) / joint.wavelengthUm
  let image = emitterOf(joint)
  const directUm = pathUm(image)
  const terms: Complex[] = [complex(1)]
  let factor = complex(1)
  let phaseRad = 2 * k * joint.gapUm
  for (let m = 1; m < MOST_TERMS; m++) {
    image = mirrored(mirrored(image, FAR_POINT, far), emitterOf(joint).at, near)
    factor = times(factor, product)
    const moved = jointOf(joint, image)
    if (moved === null || squareOf(factor) < LEAST_TERM ** 2) break
    const phase = k * (pathUm(image) - directUm)
    if (m === 1) phaseRad = phase
    const coupled = times(over(jointAmplitude(moved), direct), times(factor, phasor(m * phaseRad - phase)))
    terms.push(coupled)
    if (squareOf(coupled) < LEAST_TERM ** 2) break
  }
  return { terms, phaseRad }
}

/** Transmission at a round-trip phase over that of a single pass. */
export function etalonFactor({ terms }: EtalonSeries, phaseRad: number): number {
  const turn = phasor(-phaseRad)
  let re = 0
  let im = 0
  for (let m = terms.length - 1; m >= 0; m--) {
    const next = re * turn.re - im * turn.im + (terms[m]?.re ?? 0)
    im = re * turn.im + im * turn.re + (terms[m]?.im ?? 0)
    re = next
  }
  return re * re + im * im
}

export interface EtalonExtremes {
  /** Transmission over that of a single pass: here, at the ripple maximum, at the minimum, and on average over a period. */
  readonly here: number
  readonly crest: number
  readonly trough: number
  readonly mean: number
  /** How far the phase is past the nearest maximum, in periods, -0.5 to 0.5. */
  readonly fromCrest: number
}

const SCAN_POINTS = 48

/** Maximum and minimum of the ripple, and where in its period the gap is. */
export function etalonExtremes(series: EtalonSeries): EtalonExtremes {
  const step = (2 * Math.PI) / SCAN_POINTS
  let [highest, lowest] = [0, 0]
  let [most, least] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  for (let i = 0; i < SCAN_POINTS; i++) {
    const value = etalonFactor(series, i * step)
    if (value > most) [most, highest] = [value, i * step]
    if (value < least) [least, lowest] = [value, i * step]
  }
  const near = (sign: 1 | -1, at: number) =>
    minimiseBrent((phase) => sign * etalonFactor(series, phase), at - step, at + step)
  const crest = near(-1, highest)
  const fringes = (series.phaseRad - crest.x) / (2 * Math.PI)
  return {
    here: etalonFactor(series, series.phaseRad),
    crest: -crest.value,
    trough: near(1, lowest).value,
    mean: series.terms.reduce((sum, term) => sum + squareOf(term), 0),
    fromCrest: fringes - Math.round(fringes),
  }
}

type Vector = readonly [x: number, y: number, z: number]

interface Placed {
  readonly at: Vector
  readonly along: Vector
}

const FAR_POINT: Vector = [0, 0, 0]

const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

function unit(x: number, y: number): Vector {
  const length = Math.hypot(x, y, 1)
  return [x / length, y / length, 1 / length]
}

const plane = ({ xRad, yRad }: FaceNormal): Vector => unit(Math.tan(xRad), Math.tan(yRad))

/** The emitter in the receiver's frame, whose face centre is the origin. */
const emitterOf = (joint: GaussianJoint): Placed => ({
  at: [joint.offsetXUm, joint.offsetYUm, -joint.gapUm],
  along: unit(joint.tiltXRad, joint.tiltYRad),
})

function mirrored({ at, along }: Placed, point: Vector, normal: Vector): Placed {
  const distance = dot([at[0] - point[0], at[1] - point[1], at[2] - point[2]], normal)
  const slope = dot(along, normal)
  const back = (v: Vector, by: number): Vector => [
    v[0] - 2 * by * normal[0],
    v[1] - 2 * by * normal[1],
    v[2] - 2 * by * normal[2],
  ]
  return { at: back(at, distance), along: back(along, slope) }
}

/** Along the beam from the emitter to the plane of the receiver. */
const pathUm = ({ at, along }: Placed) => -at[2] / along[2]

/** The joint that an image makes; null where it is tilted too far or lies behind the receiver. */
function jointOf(joint: GaussianJoint, { at, along }: Placed): GaussianJoint | null {
  const tiltXRad = along[0] / along[2]
  const tiltYRad = along[1] / along[2]
  const leans = along[2] <= 0 || Math.hypot(tiltXRad, tiltYRad) > STEEPEST_RAD
  if (leans || at[2] > 0) return null
  return { ...joint, offsetXUm: at[0], offsetYUm: at[1], gapUm: -at[2], tiltXRad, tiltYRad }
}
