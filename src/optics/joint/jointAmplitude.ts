// The complex amplitude of the coupling whose power jointEfficiency gives, for beams that interfere.
//   a = sqrt(det) factors of the joint's Gaussian integral * exp(g' inv(M) g - X' B X)
// with the letters of joint.ts; the propagation exp(-i k s) along the axis is omitted, the phase of diffraction (Gouy)
// and of the wavefronts is in. Sign convention exp(+i omega t). Source: joint.ts, before the modulus is taken.
// Micrometres, radians; paraxial.

import { type Complex, complex, minus, over, plus, root, times } from '../../numerics/complex'
import { type GaussianJoint, requireJoint } from './gaussianJoint'

/** Amplitude of the coupling; the square of its modulus is jointEfficiency. Throws InputError as that does. */
export function jointAmplitude(joint: GaussianJoint): Complex {
  requireJoint(joint)
  const k = (2 * Math.PI * joint.index) / joint.wavelengthUm
  const alongX = emitted(k, joint.emitterMfdXUm, joint.gapUm - joint.waistXUm)
  const alongY = emitted(k, joint.emitterMfdYUm, joint.gapUm - joint.waistYUm)
  const cos = Math.cos(joint.rollRad)
  const sin = Math.sin(joint.rollRad)
  const step = minus(alongY.curvature, alongX.curvature)
  const bX = 4 / joint.receiverMfdXUm ** 2
  const bY = 4 / joint.receiverMfdYUm ** 2
  const m11 = plus(plus(alongX.curvature, scaled(step, sin * sin)), complex(bX))
  const m22 = plus(minus(alongY.curvature, scaled(step, sin * sin)), complex(bY))
  const m12 = scaled(step, -sin * cos)
  const det = minus(times(m11, m22), times(m12, m12))
  const x = joint.offsetXUm + joint.gapUm * joint.tiltXRad
  const y = joint.offsetYUm + joint.gapUm * joint.tiltYRad
  const gX = complex(bX * x, (k * joint.tiltXRad) / 2)
  const gY = complex(bY * y, (k * joint.tiltYRad) / 2)
  const form = minus(
    plus(times(times(gX, gX), m22), times(times(gY, gY), m11)),
    scaled(times(times(gX, gY), m12), 2),
  )
  const exponent = minus(over(form, det), complex(bX * x * x + bY * y * y))
  // Both Gaussians carry unit power: (2 / pi)^(1/2) (4 / (w w))^(1/4) each, times pi from the integral.
  const widths =
    4 / Math.sqrt(joint.emitterMfdXUm * joint.emitterMfdYUm * joint.receiverMfdXUm * joint.receiverMfdYUm)
  const factor = times(times(alongX.spread, alongY.spread), over(complex(2 * widths), root(det)))
  const size = Math.exp(exponent.re)
  return times(factor, complex(size * Math.cos(exponent.im), size * Math.sin(exponent.im)))
}

/** One axis of the emitted Gaussian `pathUm` behind its waist: i k / (2 q), and the root of q0 / q. */
function emitted(k: number, mfdUm: number, pathUm: number): { curvature: Complex; spread: Complex } {
  const rayleigh = (k * mfdUm * mfdUm) / 8
  const q = complex(pathUm, rayleigh)
  return { curvature: over(complex(0, k / 2), q), spread: root(over(complex(0, rayleigh), q)) }
}

const scaled = ({ re, im }: Complex, by: number): Complex => complex(re * by, im * by)
