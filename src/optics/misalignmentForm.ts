// Excess loss of a joint for offset and tilt: in decibels an exact quadratic form, whatever gap, roll or waists.
//
// With v = (offsetX, offsetY, tiltX, tiltY), X = d + gap t, M, B, k as in joint.ts and inv(M) = S + i T:
//   loss(v) = loss(0) + 20/ln(10) * [ X'(B - B S B)X + k t'T B X + k^2/4 t'S t ] = loss(0) + v' H v
// So tolerance windows, best points and sensitivities need no search.
// Source: the exponent of joint.ts, written out; per axis it is W. B. Joyce and B. C. DeLoach, Appl. Opt. 23 (1984)
// 4187. Lengths in micrometres, angles in radians.

import { lossDb } from './decibel'
import { type GaussianJoint, requireJoint } from './gaussianJoint'
import { jointEfficiency } from './joint'

export const FORM_AXES = ['offsetXUm', 'offsetYUm', 'tiltXRad', 'tiltYRad'] as const
export type FormAxis = (typeof FORM_AXES)[number]

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

/** The form of a joint; its own offset and tilt play no part. Throws InputError as jointEfficiency does. */
export function misalignmentForm(joint: GaussianJoint): MisalignmentForm {
  requireJoint(joint)
  const aligned = { ...joint, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const k = (2 * Math.PI * joint.index) / joint.wavelengthUm
  const z = joint.gapUm
  const b = [4 / joint.receiverMfdXUm ** 2, 4 / joint.receiverMfdYUm ** 2] as const
  const { real, imaginary } = inverseM(joint, k, b)
  const perDb = 20 / Math.LN10
  const curvatureDb = new Float64Array(16)
  for (let i = 0; i < 2; i++) {
    for (let j = 0; j < 2; j++) {
      const bi = b[i] ?? 0
      const bj = b[j] ?? 0
      const s = real[i + j] ?? 0
      const t = imaginary[i + j] ?? 0
      const offset = (i === j ? bi : 0) - bi * s * bj
      const twist = z * offset + (k / 2) * bi * t
      curvatureDb[4 * i + j] = perDb * offset
      curvatureDb[4 * i + j + 2] = perDb * twist
      curvatureDb[4 * (j + 2) + i] = perDb * twist
      curvatureDb[4 * (i + 2) + j + 2] =
        perDb * (z * z * offset + (k * k * s) / 4 + (z * k * t * (bi + bj)) / 2)
    }
  }
  return { alignedLossDb: lossDb(jointEfficiency(aligned)), curvatureDb }
}

/** Loss at a misalignment, in dB. */
export function formLossDb(form: MisalignmentForm, at: Readonly<Record<FormAxis, number>>): number {
  const v = FORM_AXES.map((axis) => at[axis])
  let excess = 0
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) excess += (v[i] ?? 0) * (form.curvatureDb[4 * i + j] ?? 0) * (v[j] ?? 0)
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
  const curvature = form.curvatureDb[5 * i] ?? 0
  let slope = 0
  for (const [j, other] of FORM_AXES.entries()) {
    if (j !== i) slope += (form.curvatureDb[4 * i + j] ?? 0) * at[other]
  }
  const best = 0 - slope / curvature
  const halfWidth = Math.sqrt(excessDb / curvature)
  return { best, lower: best - halfWidth, upper: best + halfWidth }
}

/** inv(M) as its entries 11, 12, 22, so that entry (i, j) is number i + j. */
function inverseM(joint: GaussianJoint, k: number, b: readonly [number, number]) {
  const [aX, cX] = emittedForm(k, joint.emitterMfdXUm, joint.gapUm - joint.waistXUm)
  const [aY, cY] = emittedForm(k, joint.emitterMfdYUm, joint.gapUm - joint.waistYUm)
  const cos = Math.cos(joint.rollRad)
  const sin = Math.sin(joint.rollRad)
  const [a11, a12, a22] = rotated(aX, aY, cos, sin)
  const [c11, c12, c22] = rotated(cX, cY, cos, sin)
  const m11 = a11 + b[0]
  const m22 = a22 + b[1]
  const detRe = m11 * m22 - a12 * a12 - c11 * c22 + c12 * c12
  const detIm = m11 * c22 + m22 * c11 - 2 * a12 * c12
  const det2 = detRe * detRe + detIm * detIm
  const re = (x: number, y: number) => (x * detRe + y * detIm) / det2
  const im = (x: number, y: number) => (y * detRe - x * detIm) / det2
  return {
    real: [re(m22, c22), re(-a12, -c12), re(m11, c11)],
    imaginary: [im(m22, c22), im(-a12, -c12), im(m11, c11)],
  }
}

/** A = i k / (2 (path + i zR)) as its real and imaginary part. */
function emittedForm(k: number, mfdUm: number, pathUm: number): readonly [number, number] {
  const rayleigh = (k * mfdUm * mfdUm) / 8
  const scale = k / (2 * (rayleigh * rayleigh + pathUm * pathUm))
  return [rayleigh * scale, pathUm * scale]
}

function rotated(x: number, y: number, cos: number, sin: number): readonly [number, number, number] {
  return [x * cos * cos + y * sin * sin, (x - y) * cos * sin, x * sin * sin + y * cos * cos]
}
