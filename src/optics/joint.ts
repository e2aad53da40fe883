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

import { type GaussianJoint, requireJoint } from './gaussianJoint'

export type { GaussianJoint } from './gaussianJoint'

const { cos, exp, min, sin, sqrt } = Math
const SPREAD = 4 / Math.PI

/**
 * Coupled power as a ratio, 0 to 1, good to 1e-12. Throws InputError for a field missing or outside JOINT_RANGES
 * (a negative gap, a zero MFD).
 */
export function jointEfficiency(joint: GaussianJoint): number {
  requireJoint(joint)
  return jointEfficiencyAt(
    joint.wavelengthUm,
    joint.index,
    joint.emitterMfdXUm,
    joint.emitterMfdYUm,
    joint.receiverMfdXUm,
    joint.receiverMfdYUm,
    joint.offsetXUm,
    joint.offsetYUm,
    joint.gapUm,
    joint.tiltXRad,
    joint.tiltYRad,
    joint.rollRad,
    joint.waistXUm,
    joint.waistYUm,
  )
}

/**
 * The same for hot loops: plain numbers, no checks, no allocation. The caller has checked the ranges
 * (requireJoint); outside them the result may be NaN.
 *
 * Two functions, because V8 inlines a call only below 460 bytes of bytecode and 920 in all, and a call that is not
 * inlined boxes every number: half the speed. npm run bench watches over it.
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
  // A square root costs less than a cosine, and is as exact while the roll is small.
  const sine = sin(rollRad)
  const sin2 = sine * sine
  const sinCos = sine * (rollRad * rollRad < 0.6 ? sqrt(1 - sin2) : cos(rollRad))
  // Everything is scaled so that B = 1 / MFD^2; the factors 4 come back in `overlap`.
  const spread = (SPREAD * wavelengthUm) / index
  const squareX = emitterMfdXUm * emitterMfdXUm
  const squareY = emitterMfdYUm * emitterMfdYUm
  const pathX = (gapUm - waistXUm) * spread
  const pathY = (gapUm - waistYUm) * spread
  const scaleX = 1 / (squareX * squareX + pathX * pathX)
  const scaleY = 1 / (squareY * squareY + pathY * pathY)
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
    aX + aStep * sin2 + bX,
    aY - aStep * sin2 + bY,
    aStep * sinCos,
    cX + cStep * sin2,
    cY - cStep * sin2,
    cStep * sinCos,
    bX,
    bY,
    offsetXUm + gapUm * tiltXRad,
    offsetYUm + gapUm * tiltYRad,
    tiltXRad / spread,
    tiltYRad / spread,
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
  const detRe = m11 * m22 - m12 * m12 - c11 * c22 + c12 * c12
  const detIm = m11 * c22 + m22 * c11 - 2 * m12 * c12
  const perDet2 = 1 / (detRe * detRe + detIm * detIm)
  // g = (u + i s, v + i t); re + i im = g' adj(M) g, which over det M is g' inv(M) g.
  const u = bX * x
  const v = bY * y
  const xx = u * u - s * s
  const yy = v * v - t * t
  const us = u * s
  const vt = v * t
  const xy = u * v - s * t
  const twist = u * t + v * s
  const re = xx * m22 + yy * m11 - 2 * (us * c22 + vt * c11 - xy * m12 + twist * c12)
  const im = xx * c22 + yy * c11 + 2 * (us * m22 + vt * m11 + twist * m12 + xy * c12)
  const exponent = (re * detRe + im * detIm) * perDet2 - u * x - v * y
  const efficiency = 4 * sqrt(widths * perDet2) * exp(8 * exponent)
  // Rounding alone could put a perfect joint at 1 + 1e-16, a negative loss.
  return min(efficiency, 1)
}
