// Power coupled between two Gaussian modes at a joint: the exact paraxial overlap of a general astigmatic beam
// (two waists, rolled, tilted, displaced, carried over a gap) with a real elliptical Gaussian mode.
//
// The emitted field at the receiver's face is exp(-r'A r - i k t'r) about its centre X = offset + gap * tilt, with
// A = R diag(i k / (2 (gap - waist + i zR))) R', zR = k MFD^2 / 8, R the roll and k = 2 pi n / lambda. The
// receiver is exp(-r'B r), B = diag(4 / MFD^2). With M = A + B and g = B X + i k t / 2 the Gaussian integral gives
//   efficiency = 4 sqrt(det Re A det B) / |det M| * exp(2 Re(g' inv(M) g) - 2 X' B X)
// Lengths in micrometres, MFD = full 1/e^2 intensity width. Paraxial: trust for MFD > wavelength and
// half-angles below about 0.3 rad.
// Sources: general Gaussian integral; its per-axis special case is W. B. Joyce and B. C. DeLoach, Appl. Opt. 23
// (1984) 4187, and D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703.

import {
  FAR_DISTANCES_UM2,
  FAR_ROLL_RAD2,
  FAR_TILTS_RAD2,
  type GaussianJoint,
  INDEX_GREATEST,
  INDEX_LEAST,
  MFD_GREATEST_UM,
  MFD_LEAST_UM,
  requireJoint,
  WAVELENGTH_GREATEST_UM,
  WAVELENGTH_LEAST_UM,
} from './gaussianJoint'

export type { GaussianJoint } from './gaussianJoint'

const { cos, exp, min, sin, sqrt } = Math
const SPREAD = 4 / Math.PI

// How the work is cut into functions follows the engine: V8 inlines a call only below 460 bytes of bytecode, and
// 1.2 times all that is inlined only below 920. A call that is not inlined boxes each number it passes, which costs
// as much as the formula. So turnedEfficiency and overlap stay short enough to be taken in by jointEfficiency, and
// that one, with its check spelled out in place, is too long to be taken in anywhere: it is always one call with one
// record. npm run bench watches over it.

/**
 * Coupled power as a ratio, 0 to 1, good to 1e-12. Throws InputError for a field missing or outside JOINT_RANGES
 * (a negative gap, a zero MFD).
 */
export function jointEfficiency(joint: GaussianJoint): number {
  const {
    wavelengthUm,
    index,
    emitterMfdXUm,
    emitterMfdYUm,
    receiverMfdXUm,
    receiverMfdYUm,
    offsetXUm,
    offsetYUm,
    gapUm,
    tiltXRad,
    tiltYRad,
    rollRad,
    waistXUm,
    waistYUm,
  } = joint
  // Half the comparisons identify a joint far from every border; for any other the full check decides and says what is
  // wrong. Written so that NaN fails.
  const farFromBorders =
    typeof wavelengthUm === 'number' &&
    typeof index === 'number' &&
    typeof emitterMfdXUm === 'number' &&
    typeof emitterMfdYUm === 'number' &&
    typeof receiverMfdXUm === 'number' &&
    typeof receiverMfdYUm === 'number' &&
    typeof offsetXUm === 'number' &&
    typeof offsetYUm === 'number' &&
    typeof gapUm === 'number' &&
    typeof tiltXRad === 'number' &&
    typeof tiltYRad === 'number' &&
    typeof rollRad === 'number' &&
    typeof waistXUm === 'number' &&
    typeof waistYUm === 'number' &&
    wavelengthUm >= WAVELENGTH_LEAST_UM &&
    wavelengthUm <= WAVELENGTH_GREATEST_UM &&
    index >= INDEX_LEAST &&
    index <= INDEX_GREATEST &&
    emitterMfdXUm >= MFD_LEAST_UM &&
    emitterMfdYUm >= MFD_LEAST_UM &&
    receiverMfdXUm >= MFD_LEAST_UM &&
    receiverMfdYUm >= MFD_LEAST_UM &&
    emitterMfdXUm + emitterMfdYUm + (receiverMfdXUm + receiverMfdYUm) <= MFD_GREATEST_UM &&
    gapUm >= 0 &&
    offsetXUm * offsetXUm +
      offsetYUm * offsetYUm +
      (waistXUm * waistXUm + waistYUm * waistYUm) +
      gapUm * gapUm <=
      FAR_DISTANCES_UM2 &&
    tiltXRad * tiltXRad + tiltYRad * tiltYRad <= FAR_TILTS_RAD2 &&
    rollRad * rollRad <= FAR_ROLL_RAD2
  if (!farFromBorders) requireJoint(joint)
  const square = rollRad * rollRad
  let sin2: number
  let sinCos: number
  if (square < SMALL_ROLL_RAD2) {
    sin2 = square * (1 - square * (1 / 3 - square * (2 / 45 - square * (1 / 315))))
    sinCos = rollRad * (1 - square * (2 / 3 - square * (2 / 15 - square * (4 / 315))))
  } else {
    const sine = sin(rollRad)
    sin2 = sine * sine
    sinCos = sine * cos(rollRad)
  }
  return turnedEfficiency(
    wavelengthUm,
    index,
    emitterMfdXUm,
    emitterMfdYUm,
    receiverMfdXUm,
    receiverMfdYUm,
    offsetXUm,
    offsetYUm,
    gapUm,
    tiltXRad,
    tiltYRad,
    sin2,
    sinCos,
    waistXUm,
    waistYUm,
  )
}

/**
 * Squared roll below which the series of sin^2 and of sin cos = sin(2 roll) / 2 serve, their next terms below 1e-15 of them. A
 * call of sin costs more. They are in separate functions for `jointEfficiencyOf` only: see the cut above.
 */
const SMALL_ROLL_RAD2 = 0.001

export function sinSquareOf(rollRad: number): number {
  const square = rollRad * rollRad
  if (square < SMALL_ROLL_RAD2)
    return square * (1 - square * (1 / 3 - square * (2 / 45 - square * (1 / 315))))
  return sin(rollRad) ** 2
}

export function sinCosOf(rollRad: number): number {
  const square = rollRad * rollRad
  if (square < SMALL_ROLL_RAD2)
    return rollRad * (1 - square * (2 / 3 - square * (2 / 15 - square * (4 / 315))))
  return sin(rollRad) * cos(rollRad)
}

/**
 * The same for hot loops: plain numbers, no checks, no allocation. The caller has checked the ranges
 * (requireJoint); outside them the result may be NaN.
 */
export function jointEfficiencyAt(
  wavelengthUm: number,
  index: number,
  emitterMfdXUm: number,
  emitterMfdYUm: number,
  receiverMfdXUm: number,
  receiverMfdYUm: number,
  offsetXUm: number,
  offsetYUm: number,
  gapUm: number,
  tiltXRad: number,
  tiltYRad: number,
  rollRad: number,
  waistXUm: number,
  waistYUm: number,
): number {
  const sine = sin(rollRad)
  return turnedEfficiency(
    wavelengthUm,
    index,
    emitterMfdXUm,
    emitterMfdYUm,
    receiverMfdXUm,
    receiverMfdYUm,
    offsetXUm,
    offsetYUm,
    gapUm,
    tiltXRad,
    tiltYRad,
    sine * sine,
    sine * cos(rollRad),
    waistXUm,
    waistYUm,
  )
}

/** A joint without its medium and wavelength, as records of hot loops hold it. */
type JointPose = Omit<GaussianJoint, 'wavelengthUm' | 'index'>

/**
 * The same for a record that is written anew for every call: one reference is passed instead of twelve numbers, each of
 * which would be put into an object of its own where the call is not inlined.
 */
export function jointEfficiencyOf(joint: JointPose, index: number, wavelengthUm: number): number {
  const { rollRad } = joint
  return turnedEfficiency(
    wavelengthUm,
    index,
    joint.emitterMfdXUm,
    joint.emitterMfdYUm,
    joint.receiverMfdXUm,
    joint.receiverMfdYUm,
    joint.offsetXUm,
    joint.offsetYUm,
    joint.gapUm,
    joint.tiltXRad,
    joint.tiltYRad,
    sinSquareOf(rollRad),
    sinCosOf(rollRad),
    joint.waistXUm,
    joint.waistYUm,
  )
}

/** The emitted field at the receiver's face. Roll comes as sin^2 and sin cos of it. */
export function turnedEfficiency(
  wavelengthUm: number,
  index: number,
  emitterMfdXUm: number,
  emitterMfdYUm: number,
  receiverMfdXUm: number,
  receiverMfdYUm: number,
  offsetXUm: number,
  offsetYUm: number,
  gapUm: number,
  tiltXRad: number,
  tiltYRad: number,
  sin2: number,
  sinCos: number,
  waistXUm: number,
  waistYUm: number,
): number {
  // Everything is scaled so that B = 1 / MFD^2; the factors 4 come back in `overlap`.
  const spread = SPREAD * wavelengthUm
  const perSpread = index / spread
  const squareX = emitterMfdXUm * emitterMfdXUm * index
  const squareY = emitterMfdYUm * emitterMfdYUm * index
  const pathX = (gapUm - waistXUm) * spread
  const pathY = (gapUm - waistYUm) * spread
  const scaleX = index / (squareX * squareX + pathX * pathX)
  const scaleY = index / (squareY * squareY + pathY * pathY)
  const aX = squareX * scaleX
  const aY = squareY * scaleY
  const aStep = aY - aX
  const cX = pathX * scaleX
  const cY = pathY * scaleY
  const cStep = cY - cX
  const bX = 1 / (receiverMfdXUm * receiverMfdXUm)
  const bY = 1 / (receiverMfdYUm * receiverMfdYUm)
  return overlap(
    aX * aY * bX * bY,
    aX + bX + aStep * sin2,
    aY + bY - aStep * sin2,
    aStep * sinCos,
    cX + cStep * sin2,
    cY - cStep * sin2,
    cStep * sinCos,
    bX,
    bY,
    offsetXUm + gapUm * tiltXRad,
    offsetYUm + gapUm * tiltYRad,
    tiltXRad * perSpread,
    tiltYRad * perSpread,
  )
}

/**
 * The Gaussian integral for M = m + i c (symmetric, 11 22 12), receiver B = diag(bX, bY), beam centre (x, y) and
 * scaled slopes (s, t). `widths` is det Re A times det B. The off-diagonals come negated: adj(M) needs them so.
 */
function overlap(
  widths: number,
  m11: number,
  m22: number,
  m12: number,
  c11: number,
  c22: number,
  c12: number,
  bX: number,
  bY: number,
  x: number,
  y: number,
  s: number,
  t: number,
): number {
  const detRe = m11 * m22 - m12 * m12 - (c11 * c22 - c12 * c12)
  const detIm = m11 * c22 + m22 * c11 - 2 * m12 * c12
  const perDet2 = 1 / (detRe * detRe + detIm * detIm)
  const u = bX * x
  const v = bY * y
  const xx = u * u - s * s
  const yy = v * v - t * t
  const us = u * s
  const vt = v * t
  const xy = u * v - s * t
  const twist = u * t + v * s
  const re = xx * m22 + yy * m11 - 2 * (us * c22 + vt * c11 + (twist * c12 - xy * m12))
  const im = xx * c22 + yy * c11 + 2 * (us * m22 + vt * m11 + (twist * m12 + xy * c12))
  const exponent = (re * detRe + im * detIm) * perDet2 - (u * x + v * y)
  // Rounding alone could put a perfect joint at 1 + 1e-16, a negative loss.
  return min(4 * sqrt(widths * perDet2) * exp(8 * exponent), 1)
}
