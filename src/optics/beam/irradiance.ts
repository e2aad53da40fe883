// Irradiance on the axis of an elliptical Gaussian beam.
//   I = 2 P / (pi wx wy),  w = half the 1/e^2 diameter
// Source: integral of the Gaussian (ISO 11145 calls its power over area the mean; the peak is twice that; from memory).

import { requireInRange, requirePositive } from '../../numerics/inputError'

/** Peak irradiance in uW/um^2 (1 uW/um^2 is 100 W/cm^2). Throws InputError for a negative power or a diameter of 0. */
export function peakIrradiance(powerUw: number, mfdXUm: number, mfdYUm: number): number {
  requireInRange('powerUw', powerUw, 0, 1e12)
  return (8 * powerUw) / (Math.PI * requirePositive('mfdXUm', mfdXUm) * requirePositive('mfdYUm', mfdYUm))
}
