// The coma that a lens adds to the wavefront of a guide slightly off its axis, to first order in the displacement.
//   W = K . u (p0 + p1 u^2 + p2 u^4),  u the position in the collimated beam in 1/e^2 radii, K the displacement
// A guide that is tilted against the lens illuminates it off centre, where spherical aberration also looks like coma: the tilt
// counts as a displacement of `tiltUm` per radian.
// Source: least squares, weighted by the mode's power, on the rays of skewField.ts; the third-order term is that of
// M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 5.3. Micrometres.

import { solveSmall } from '../../numerics/linear/smallSystem'
import type { LensSide } from './lensSide'
import { type SkewField, skewField } from './skewField'

export interface Coma {
  /** um of path per um of displacement. */
  readonly p: readonly [number, number, number]
  /** Displacement equivalent to one radian between guide and lens, um. */
  readonly tiltUm: number
}

export const NO_COMA: Coma = { p: [0, 0, 0], tiltUm: 0 }

/** Trial displacement, in radii of the guide's mode, and trial tilt, in divergence angles. */
const TRIAL = 0.5

/** Moments of the mode's power: <u^2 r^(2 n)>, n from 0, over the points of a Gaussian beam. */
function moment(field: SkewField, n: number): number {
  const { xUm, yUm, power, centreXUm, centreYUm, beamRadiusUm: w } = field
  let sum = 0
  for (let i = 0; i < power.length; i++) {
    const u = ((xUm[i] as number) - centreXUm) / w
    const v = ((yUm[i] as number) - centreYUm) / w
    sum += (power[i] as number) * u * u * (u * u + v * v) ** n
  }
  return sum
}

/** The coefficients p of the odd part of a field's path error along x. */
function oddPart(field: SkewField): readonly [number, number, number] {
  const { xUm, yUm, power, errorUm, centreXUm, centreYUm, beamRadiusUm: w } = field
  const right = [0, 0, 0]
  for (let i = 0; i < power.length; i++) {
    const u = ((xUm[i] as number) - centreXUm) / w
    const v = ((yUm[i] as number) - centreYUm) / w
    const share = (power[i] as number) * (errorUm[i] as number) * u
    for (let n = 0; n < 3; n++) right[n] = (right[n] as number) + share * (u * u + v * v) ** n
  }
  const m = [0, 1, 2, 3, 4].map((n) => moment(field, n))
  const row = (n: number) => [m[n] as number, m[n + 1] as number, m[n + 2] as number, right[n] as number]
  const [p0 = 0, p1 = 0, p2 = 0] = solveSmall([row(0), row(1), row(2)]) ?? []
  return [p0, p1, p2]
}

/** The coma of a side; none for a lens known by its matrix or where no ray gets through. */
export function comaOf(side: LensSide): Coma {
  const { mode, lens, matrix, thicknessUm, mediumIndex } = side
  if (lens === null) return NO_COMA
  const inLine = { offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const placed = { shape: lens, matrix, thicknessUm, mediumIndex, ...inLine }
  const still = { heightUm: 0, slopeRad: 0 }
  const offset = TRIAL * mode.waistRadiusUm
  const slope = (TRIAL * mode.wavelengthUm) / (Math.PI * mediumIndex * mode.waistRadiusUm)
  const displaced = skewField(mode, { x: { heightUm: offset, slopeRad: 0 }, y: still }, placed)
  const sloped = skewField(
    mode,
    { x: { heightUm: slope * mode.distanceUm, slopeRad: slope }, y: still },
    placed,
  )
  if (displaced === null || sloped === null) return NO_COMA
  const p = oddPart(displaced).map((value) => value / offset) as [number, number, number]
  const q = oddPart(sloped).map((value) => value / slope)
  // Share of the displacement's coma in that of the tilt, weighted by the power of the mode.
  const m = [0, 1, 2, 3, 4].map((n) => moment(displaced, n))
  let [both, own] = [0, 0]
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      const weight = m[i + j] as number
      both += (p[i] as number) * (q[j] as number) * weight
      own += (p[i] as number) * (p[j] as number) * weight
    }
  }
  return { p, tiltUm: own > 0 ? both / own : 0 }
}
