// Elements that are decentred or tilted: ray matrices with a constant part, [height; angle; 1] -> M [height; angle; 1].
// In the frame of the element the ray is the axial one's; going there and back adds the constants. The element is tilted
// about its middle. q, and so the size and curvature of a beam, does not feel any of it.
// Source: A. E. Siegman, Lasers (1986), sect. 15.4 (from memory); the form follows from the change of frame.
// Paraxial, equal media in front and behind. Micrometres, radians.

import type { RayMatrix } from '../beam/abcd'

export interface Ray {
  readonly heightUm: number
  readonly slopeRad: number
}

/** The ray behind an element of matrix `element` and length `lengthUm` that is decentred and tilted. */
export function throughDisplaced(
  element: RayMatrix,
  lengthUm: number,
  offsetUm: number,
  tiltRad: number,
  ray: Ray,
): Ray {
  const half = (tiltRad * lengthUm) / 2
  const height = ray.heightUm - (offsetUm - half)
  const slope = ray.slopeRad - tiltRad
  return {
    heightUm: element.a * height + element.b * slope + offsetUm + half,
    slopeRad: element.c * height + element.d * slope + tiltRad,
  }
}
