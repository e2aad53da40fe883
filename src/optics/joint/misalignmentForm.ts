// Excess loss of a joint for offset and tilt: in decibels an exact quadratic form, whatever gap, roll or waists.
//
// With v = (offsetX, offsetY, tiltX, tiltY), X = d + gap t, M, B, k as in joint.ts and inv(M) = S + i T:
//   loss(v) = loss(0) + 20/ln(10) * [ X'(B - B S B)X + k t'T B X + k^2/4 t'S t ] = loss(0) + v' H v
// So tolerance windows, best points and sensitivities need no search.
// Source: the exponent of joint.ts, written out; per axis it is W. B. Joyce and B. C. DeLoach, Appl. Opt. 23 (1984)
// 4187. Lengths in micrometres, angles in radians.

import { lossDb } from '../beam/decibel'
import { type GaussianJoint, requireJoint } from './gaussianJoint'
import { jointEfficiency } from './joint'

export const FORM_AXES = ['offsetXUm', 'offsetYUm', 'tiltXRad', 'tiltYRad'] as const
export type FormAxis = (typeof FORM_AXES)[number]

/** The part of a joint that the form depends on. */
export type FormJoint = Omit<GaussianJoint, FormAxis>

/** `curvatureDb`: the symmetric 4 x 4 H, row-major in the order of FORM_AXES. */
export interface MisalignmentForm {
  readonly alignedLossDb: number
  readonly curvatureDb: Float64Array
}

/** Best point and the two points where the loss is higher than at the best by the loss asked for. */
export interface FormWindow {
  readonly best: number
  readonly lower: number
  readonly upper: number
}

/** The form of a joint; its own offset and tilt are ignored. Throws InputError as jointEfficiency does. */
export function misalignmentForm(joint: GaussianJoint): MisalignmentForm {
  requireJoint(joint)
  const aligned = { ...joint, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const curvatureDb = new Float64Array(16)
  fillCurvatureDb(joint, curvatureDb)
  return { alignedLossDb: lossDb(jointEfficiency(aligned)), curvatureDb }
}

/**
 * The same for hot loops: writes H to `out` without checks or allocation. The caller has checked the ranges
 * (requireJoint).
 */
export function fillCurvatureDb(joint: Readonly<FormJoint>, out: Float64Array): void {
  const k = (2 * Math.PI * joint.index) / joint.wavelengthUm
  const z = joint.gapUm
  const bX = 4 / joint.receiverMfdXUm ** 2
  const bY = 4 / joint.receiverMfdYUm ** 2
  // A = i k / (2 (path + i zR)) along the emitter's axes, real and imaginary part, then turned by the roll.
  const pathX = z - joint.waistXUm
  const pathY = z - joint.waistYUm
  const rayleighX = (k * joint.emitterMfdXUm ** 2) / 8
  const rayleighY = (k * joint.emitterMfdYUm ** 2) / 8
  const scaleX = k / (2 * (rayleighX * rayleighX + pathX * pathX))
  const scaleY = k / (2 * (rayleighY * rayleighY + pathY * pathY))
  const sin = Math.sin(joint.rollRad)
  const cos = Math.cos(joint.rollRad)
  const aStep = rayleighY * scaleY - rayleighX * scaleX
  const cStep = pathY * scaleY - pathX * scaleX
  const m11 = rayleighX * scaleX + aStep * sin * sin + bX
  const m22 = rayleighY * scaleY - aStep * sin * sin + bY
  const m12 = -aStep * sin * cos
  const c11 = pathX * scaleX + cStep * sin * sin
  const c22 = pathY * scaleY - cStep * sin * sin
  const c12 = -cStep * sin * cos
  const detRe = m11 * m22 - m12 * m12 - c11 * c22 + c12 * c12
  const detIm = m11 * c22 + m22 * c11 - 2 * m12 * c12
  const per = 1 / (detRe * detRe + detIm * detIm)
  // inv(M) = S + i T
  const s11 = (m22 * detRe + c22 * detIm) * per
  const s12 = -(m12 * detRe + c12 * detIm) * per
  const s22 = (m11 * detRe + c11 * detIm) * per
  const t11 = (c22 * detRe - m22 * detIm) * per
  const t12 = -(c12 * detRe - m12 * detIm) * per
  const t22 = (c11 * detRe - m11 * detIm) * per
  const perDb = 20 / Math.LN10
  const o11 = bX - bX * s11 * bX
  const o12 = -bX * s12 * bY
  const o22 = bY - bY * s22 * bY
  const half = k / 2
  out[0] = perDb * o11
  out[1] = out[4] = perDb * o12
  out[5] = perDb * o22
  out[2] = out[8] = perDb * (z * o11 + half * bX * t11)
  out[3] = out[12] = perDb * (z * o12 + half * bX * t12)
  out[6] = out[9] = perDb * (z * o12 + half * bY * t12)
  out[7] = out[13] = perDb * (z * o22 + half * bY * t22)
  out[10] = perDb * (z * z * o11 + half * half * s11 + z * half * t11 * 2 * bX)
  out[11] = out[14] = perDb * (z * z * o12 + half * half * s12 + z * half * t12 * (bX + bY))
  out[15] = perDb * (z * z * o22 + half * half * s22 + z * half * t22 * 2 * bY)
}

/** Loss at a misalignment, in dB. */
export function formLossDb(form: MisalignmentForm, at: Readonly<Record<FormAxis, number>>): number {
  const v = FORM_AXES.map((axis) => at[axis])
  let excess = 0
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++)
      excess += (v[i] as number) * (form.curvatureDb[4 * i + j] as number) * (v[j] as number)
  }
  return form.alignedLossDb + excess
}

/** The window of one axis, the other three held at `at`, for `excessDb` (0 or more) above the axis's best point. */
export function formWindow(
  form: MisalignmentForm,
  axis: FormAxis,
  at: Readonly<Record<FormAxis, number>>,
  excessDb: number,
): FormWindow {
  const i = FORM_AXES.indexOf(axis)
  const curvature = form.curvatureDb[5 * i] as number
  let slope = 0
  for (const [j, other] of FORM_AXES.entries()) {
    if (j !== i) slope += (form.curvatureDb[4 * i + j] as number) * at[other]
  }
  const best = 0 - slope / curvature
  const halfWidth = Math.sqrt(excessDb / curvature)
  return { best, lower: best - halfWidth, upper: best + halfWidth }
}
