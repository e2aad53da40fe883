// Paraxial ray matrices [a b; c d] acting on (height, angle), with plain (not reduced) angles, and the Gaussian beam
// they carry by q' = (a q + b) / (c q + d), q = z + i zR.
// The determinant is (index before) / (index after), so a matrix knows the medium it ends in.
// Radii of curvature are positive when the centre lies downstream; Infinity is a flat face. Lengths in micrometres.
// Source: H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550, table I and eq. 43 (numbers from memory); A. E. Siegman,
// Lasers (1986), ch. 15 and 20. Paraxial, no aberrations.

import { InputError, requireFinite, requirePositive } from '../../numerics/inputError'
import { type GaussianBeam, rayleighRangeUm, requireBeam } from './gaussianBeam'

export interface RayMatrix {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
}

/** A beam at a reference plane: its waist lies waistDistanceUm downstream of the plane (negative: behind it). */
export interface PlacedBeam extends GaussianBeam {
  readonly waistDistanceUm: number
}

/** A path of 0 or more in one medium. */
export function freeSpace(lengthUm: number): RayMatrix {
  if (!(lengthUm >= 0) || !Number.isFinite(lengthUm)) throw new InputError('lengthUm', lengthUm, '0 or more')
  return { a: 1, b: lengthUm, c: 0, d: 1 }
}

/** An ideal thin lens between equal media; positive focal length collects. */
export function thinLens(focalLengthUm: number): RayMatrix {
  requireNonZero('focalLengthUm', focalLengthUm)
  return { a: 1, b: 0, c: -1 / focalLengthUm, d: 1 }
}

/** A spherical (or, with radius Infinity, flat) face between two media. */
export function sphericalInterface(face: {
  readonly indexBefore: number
  readonly indexAfter: number
  readonly radiusUm: number
}): RayMatrix {
  const { indexBefore, indexAfter, radiusUm } = face
  requirePositive('indexBefore', indexBefore)
  requirePositive('indexAfter', indexAfter)
  requireNonZero('radiusUm', radiusUm)
  return { a: 1, b: 0, c: (indexBefore - indexAfter) / (indexAfter * radiusUm), d: indexBefore / indexAfter }
}

/** Two faces and the path between them, in one surrounding medium (air by default). */
export function thickLens(lens: {
  readonly index: number
  readonly frontRadiusUm: number
  readonly backRadiusUm: number
  readonly thicknessUm: number
  readonly surroundingIndex?: number
}): RayMatrix {
  const outside = lens.surroundingIndex ?? 1
  return chainMatrices([
    sphericalInterface({ indexBefore: outside, indexAfter: lens.index, radiusUm: lens.frontRadiusUm }),
    freeSpace(lens.thicknessUm),
    sphericalInterface({ indexBefore: lens.index, indexAfter: outside, radiusUm: lens.backRadiusUm }),
  ])
}

/** A full sphere, from its front pole to its back pole. */
export function ballLens(ball: {
  readonly index: number
  readonly diameterUm: number
  readonly surroundingIndex?: number
}): RayMatrix {
  requirePositive('diameterUm', ball.diameterUm)
  return thickLens({
    index: ball.index,
    frontRadiusUm: ball.diameterUm / 2,
    backRadiusUm: -ball.diameterUm / 2,
    thicknessUm: ball.diameterUm,
    ...(ball.surroundingIndex === undefined ? {} : { surroundingIndex: ball.surroundingIndex }),
  })
}

/** A rod of index n0 (1 - g^2 r^2 / 2) with flat faces; quarter pitch is a length of pi / (2 g). */
export function gradientIndexRod(rod: {
  readonly axisIndex: number
  readonly gradientPerUm: number
  readonly lengthUm: number
  readonly indexBefore?: number
  readonly indexAfter?: number
}): RayMatrix {
  const { axisIndex, gradientPerUm, lengthUm } = rod
  requirePositive('gradientPerUm', gradientPerUm)
  requirePositive('lengthUm', lengthUm)
  const phase = gradientPerUm * lengthUm
  const flat = Number.POSITIVE_INFINITY
  return chainMatrices([
    sphericalInterface({ indexBefore: rod.indexBefore ?? 1, indexAfter: axisIndex, radiusUm: flat }),
    {
      a: Math.cos(phase),
      b: Math.sin(phase) / gradientPerUm,
      c: -gradientPerUm * Math.sin(phase),
      d: Math.cos(phase),
    },
    sphericalInterface({ indexBefore: axisIndex, indexAfter: rod.indexAfter ?? 1, radiusUm: flat }),
  ])
}

/** The matrix of elements in the order in which the light meets them. No elements: the identity. */
export function chainMatrices(elements: readonly RayMatrix[]): RayMatrix {
  return elements.reduce(
    (before, next) => ({
      a: next.a * before.a + next.b * before.c,
      b: next.a * before.b + next.b * before.d,
      c: next.c * before.a + next.d * before.c,
      d: next.c * before.b + next.d * before.d,
    }),
    { a: 1, b: 0, c: 0, d: 1 },
  )
}

/** Effective focal length in the exit medium; an afocal system (c = 0) is an InputError. */
export function effectiveFocalLengthUm(matrix: RayMatrix): number {
  requireNonZero('c', matrix.c)
  return -1 / matrix.c
}

/** Distance from the last face to the focus of a parallel beam; an afocal system (c = 0) is an InputError. */
export function backFocalDistanceUm(matrix: RayMatrix): number {
  requireNonZero('c', matrix.c)
  return -matrix.a / matrix.c
}

/** The beam behind the elements, at their last plane, in the medium they end in. */
export function transformBeam(matrix: RayMatrix, beam: PlacedBeam): PlacedBeam {
  requireBeam(beam)
  requireFinite('waistDistanceUm', beam.waistDistanceUm)
  const { a, b, c, d } = matrix
  const determinant = a * d - b * c
  if (!(determinant > 0)) throw new InputError('matrix determinant', determinant, 'above 0')
  const rayleigh = rayleighRangeUm(beam)
  const z = -beam.waistDistanceUm
  const denominator = (c * z + d) ** 2 + (c * rayleigh) ** 2
  const exitZ = ((a * z + b) * (c * z + d) + a * c * rayleigh * rayleigh) / denominator
  const exitRayleigh = (determinant * rayleigh) / denominator
  const exitIndex = beam.index / determinant
  return {
    waistRadiusUm: Math.sqrt((exitRayleigh * beam.wavelengthUm) / (Math.PI * exitIndex)),
    waistDistanceUm: 0 - exitZ,
    wavelengthUm: beam.wavelengthUm,
    index: exitIndex,
  }
}

function requireNonZero(field: string, value: number): void {
  if (Number.isNaN(value) || value === 0) throw new InputError(field, value, 'a number other than 0')
}
