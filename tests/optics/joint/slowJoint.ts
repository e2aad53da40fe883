// The joint by complex numbers and 2 x 2 matrices, written as the mathematics is: slow, obvious, sharing no line with
// the real closed form it checks.

import type { GaussianJoint } from '../../../src/optics/joint/gaussianJoint'

interface Complex {
  readonly re: number
  readonly im: number
}

const real = (re: number): Complex => ({ re, im: 0 })
const imaginary = (im: number): Complex => ({ re: 0, im })
const add = (...terms: Complex[]): Complex =>
  terms.reduce((sum, z) => ({ re: sum.re + z.re, im: sum.im + z.im }), real(0))
const times = (...factors: Complex[]): Complex =>
  factors.reduce((p, z) => ({ re: p.re * z.re - p.im * z.im, im: p.re * z.im + p.im * z.re }), real(1))
const minus = (z: Complex): Complex => times(real(-1), z)
const over = (a: Complex, b: Complex): Complex => {
  const square = b.re ** 2 + b.im ** 2
  return times(a, { re: b.re / square, im: -b.im / square })
}

export function jointByComplexNumbers(joint: GaussianJoint): number {
  const k = (2 * Math.PI * joint.index) / joint.wavelengthUm
  const beam = (mfdUm: number, waistUm: number) =>
    over(imaginary(k / 2), { re: joint.gapUm - waistUm, im: (k * mfdUm ** 2) / 8 })
  const own = [beam(joint.emitterMfdXUm, joint.waistXUm), beam(joint.emitterMfdYUm, joint.waistYUm)] as const
  const cos = real(Math.cos(joint.rollRad))
  const sin = real(Math.sin(joint.rollRad))
  const a11 = add(times(cos, cos, own[0]), times(sin, sin, own[1]))
  const a22 = add(times(sin, sin, own[0]), times(cos, cos, own[1]))
  const a12 = times(cos, sin, add(own[0], minus(own[1])))
  const b11 = real(4 / joint.receiverMfdXUm ** 2)
  const b22 = real(4 / joint.receiverMfdYUm ** 2)
  const x = real(joint.offsetXUm + joint.gapUm * joint.tiltXRad)
  const y = real(joint.offsetYUm + joint.gapUm * joint.tiltYRad)
  const sx = imaginary(-k * joint.tiltXRad)
  const sy = imaginary(-k * joint.tiltYRad)
  // The integrand is exp(-r'M r + l'r + c).
  const m11 = add(a11, b11)
  const m22 = add(a22, b22)
  const det = add(times(m11, m22), minus(times(a12, a12)))
  const lx = add(times(real(2), add(times(a11, x), times(a12, y))), sx)
  const ly = add(times(real(2), add(times(a12, x), times(a22, y))), sy)
  const c = minus(
    add(times(a11, x, x), times(a22, y, y), times(real(2), a12, x, y), times(sx, x), times(sy, y)),
  )
  const quadratic = add(times(lx, lx, m22), times(ly, ly, m11), times(real(-2), lx, ly, a12))
  const exponent = add(over(quadratic, times(real(4), det)), c)
  const detReal = a11.re * a22.re - a12.re ** 2
  const front = (4 * Math.sqrt(detReal * b11.re * b22.re)) / Math.hypot(det.re, det.im)
  return front * Math.exp(2 * exponent.re)
}
