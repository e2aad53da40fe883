// Cross-sections that several tests solve.

import type { CrossSection } from '../../../src/optics/modeSolver/crossSection'

/** An upright rectangle in one medium. */
export function rectangle(
  widthUm: number,
  heightUm: number,
  index: number,
  around: number,
  bottomUm = 0,
): CrossSection {
  return {
    substrateIndex: around,
    layers: [],
    coverIndex: around,
    cores: [{ shape: 'trapezoid', xUm: 0, bottomUm, widthUm, heightUm, sidewallRad: Math.PI / 2, index }],
  }
}

/** A silicon wire in oxide at 1550 nm. */
export const siliconWire = (widthUm: number, heightUm = 0.22): CrossSection =>
  rectangle(widthUm, heightUm, 3.476, 1.444)
