// What a tilt about the chip-side face costs, by brute force.

import type { GaussianJoint } from '../../../src/optics/index'

/** Excess loss of a tilt about the facet, dB, by the sum over x; the waist of the image is `z` in front of the facet. */
export function tiltExcessDb(
  joint: Pick<
    GaussianJoint,
    'wavelengthUm' | 'index' | 'emitterMfdXUm' | 'receiverMfdXUm' | 'waistXUm' | 'gapUm'
  >,
  tiltRad: number,
): number {
  const { wavelengthUm, index, emitterMfdXUm, receiverMfdXUm, waistXUm, gapUm } = joint
  const k = (2 * Math.PI * index) / wavelengthUm
  const [w0, w2, z] = [emitterMfdXUm / 2, receiverMfdXUm / 2, gapUm - waistXUm]
  const rayleigh = (k * w0 * w0) / 2
  const w = w0 * Math.hypot(1, z / rayleigh)
  const curvature = z / (z * z + rayleigh * rayleigh)
  const power = (tilt: number) => {
    let [re, im] = [0, 0]
    for (let x = -40; x <= 40; x += 0.01) {
      const amplitude = Math.exp(-(x * x) / (w * w) - (x * x) / (w2 * w2))
      const phase = k * (tilt * x - (curvature * x * x) / 2)
      re += amplitude * Math.cos(phase)
      im += amplitude * Math.sin(phase)
    }
    return re * re + im * im
  }
  return 10 * Math.log10(power(0) / power(tiltRad))
}
