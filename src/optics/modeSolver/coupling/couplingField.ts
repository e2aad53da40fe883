// A solved mode as a single scalar field that couples as its E and H do. The power coupled from a mode psi of one polarisation is
//   (sum E psi) (sum H psi) / (flux int psi^2)
// Scaled to equal sums over the plane, E and H differ in their overlaps by a few per cent, so that the squared overlap of
// their mean equals that product up to the square of half the difference: 0.01 dB or less, which tests check.

import type { GradedField } from '../../field/gradedField'
import { cellSizes } from '../grid'
import { integralOfProduct } from '../magneticField'
import type { SolvedMode } from '../solveMode'

interface CouplingField {
  /** Row-major on the axes of the mode. */
  readonly field: Float64Array
  /** Int field^2 over the power in the same scale: the factor for an overlap that is normalised by the field alone. */
  readonly powerShare: number
}

type Solved = Pick<SolvedMode, 'axes' | 'field' | 'magnetic'>

export function couplingField({ axes, field, magnetic }: Solved): CouplingField {
  const one = new Float64Array(field.length).fill(1)
  const scale = integralOfProduct(axes, field, one) / integralOfProduct(axes, magnetic.leading, one)
  const mean = field.map((value, i) => (value + scale * (magnetic.leading[i] as number)) / 2)
  return { field: mean, powerShare: integralOfProduct(axes, mean, mean) / (scale * magnetic.flux) }
}

/** A field on the axes of a solved mode, relative to a point of the cross-section. */
export function gradedField(
  { axes }: Pick<SolvedMode, 'axes'>,
  field: Float64Array,
  centreUm: { readonly x: number; readonly y: number },
): GradedField {
  const [hx, hy] = [cellSizes(axes.x), cellSizes(axes.y)]
  const nx = hx.length
  return {
    xUm: axes.x.centres.map((x) => x - centreUm.x),
    yUm: axes.y.centres.map((y) => y - centreUm.y),
    weighted: field.map((value, i) => value * (hx[i % nx] as number) * (hy[Math.floor(i / nx)] as number)),
    powerUm2: integralOfProduct(axes, field, field),
  }
}
