// Power coupled from a fibre's mode, polarised along the leading component, into a solved mode at the optimum offset, faces in contact:
// int E1 E2 int E1 H2 / (int E1^2 int (E2 x H2)). E2 and H2 are the leading pair; the power is that of both pairs. The
// fibre's own H is its E times an index, which cancels.
// Source: A. W. Snyder and J. D. Love, Optical Waveguide Theory (1983), sect. 20-2 and 31-1 (from memory): products of E of one mode
// with H of the other, in both directions.

import { minimiseBrent } from '../../../numerics/minimise'
import { lp01Field } from '../../fibre/lp01Field'
import { normalisedFrequency, type StepIndexFibre, solveLp01 } from '../../fibre/stepIndexMode'
import { cellSizes } from '../grid'
import { integralOfProduct } from '../magneticField'
import type { ModeWidths } from '../modeWidths'
import type { SolvedMode } from '../solveMode'

/** Defined by its diameters or by its core. */
export type FibreModeKind =
  | { readonly kind: 'gaussian'; readonly mfdXUm: number; readonly mfdYUm: number }
  | { readonly kind: 'lp01'; readonly coreRadiusUm: number; readonly na: number }

export interface FibreOverlap {
  /** Share of the power, 0 to 1. */
  readonly efficiency: number
  /** The same by E alone, |int E1 E2|^2 / (int E1^2 int |E2|^2): the difference shows the error of omitting H for a guide of high contrast. */
  readonly electricEfficiency: number
  /** Position of the fibre's axis at that offset. */
  readonly xUm: number
  readonly yUm: number
}

/** Amplitude of a fibre's mode at (x, y) from its axis, and the integral of its square over the plane. */
interface Emitter {
  readonly amplitude: (xUm: number, yUm: number) => number
  readonly power: number
}

const TABLE = 4096
/** The radial field is cut off at this many decay lengths beyond the core. */
const DECAYS = 18

function lp01Emitter(fibre: StepIndexFibre): Emitter {
  const mode = solveLp01(normalisedFrequency(fibre))
  const radiusUm = fibre.coreRadiusUm
  const reach = 1 + DECAYS / mode.W
  const table = Float64Array.from({ length: TABLE + 2 }, (_, i) => lp01Field(mode, (i * reach) / TABLE))
  const step = (reach * radiusUm) / TABLE
  // Simpson's rule on the table
  let power = 0
  for (let i = 0; i < TABLE; i += 2) {
    const ring = (at: number) => (table[at] as number) ** 2 * at * step
    power += ((ring(i) + 4 * ring(i + 1) + ring(i + 2)) * step) / 3
  }
  return {
    power: 2 * Math.PI * power,
    amplitude: (x, y) => {
      const position = Math.sqrt(x * x + y * y) / step
      if (position >= TABLE) return 0
      const at = Math.floor(position)
      const part = position - at
      return (1 - part) * (table[at] as number) + part * (table[at + 1] as number)
    },
  }
}

function gaussianEmitter(mfdXUm: number, mfdYUm: number): Emitter {
  const [a, b] = [4 / mfdXUm ** 2, 4 / mfdYUm ** 2]
  return {
    power: (Math.PI / 8) * mfdXUm * mfdYUm,
    amplitude: (x, y) => Math.exp(-a * x * x - b * y * y),
  }
}

/** The overlap at the optimum offset; `widths` are those of the mode. */
export function fibreOverlap(
  {
    axes,
    field,
    wavelengthUm,
    magnetic,
    leadingShare,
  }: Pick<SolvedMode, 'axes' | 'field' | 'wavelengthUm' | 'magnetic' | 'leadingShare'>,
  widths: ModeWidths,
  fibre: FibreModeKind,
): FibreOverlap {
  const emitter =
    fibre.kind === 'lp01'
      ? lp01Emitter({ ...fibre, wavelengthUm })
      : gaussianEmitter(fibre.mfdXUm, fibre.mfdYUm)
  const [x, y] = [axes.x.centres, axes.y.centres]
  const [hx, hy] = [cellSizes(axes.x), cellSizes(axes.y)]
  const nx = x.length
  const electric = new Float64Array(field.length)
  const beside = new Float64Array(field.length)
  field.forEach((value, i) => {
    const area = (hx[i % nx] as number) * (hy[Math.floor(i / nx)] as number)
    electric[i] = value * area
    beside[i] = (magnetic.leading[i] as number) * area
  })
  const overlapsAt = (xUm: number, yUm: number) => {
    let ofE = 0
    let ofH = 0
    for (let iy = 0; iy < y.length; iy++) {
      const dy = (y[iy] as number) - yUm
      for (let ix = 0; ix < nx; ix++) {
        const amplitude = emitter.amplitude((x[ix] as number) - xUm, dy)
        ofE += (electric[iy * nx + ix] as number) * amplitude
        ofH += (beside[iy * nx + ix] as number) * amplitude
      }
    }
    return { ofE, ofH }
  }
  const efficiencyAt = (xUm: number, yUm: number): number => {
    const { ofE, ofH } = overlapsAt(xUm, yUm)
    return (ofE * ofH) / (magnetic.flux * emitter.power)
  }
  const { centreUm, mfdUm } = widths.gaussian
  const best = { x: centreUm.x, y: centreUm.y }
  const options = { tolerance: 1e-4 }
  best.y = minimiseBrent(
    (at) => -efficiencyAt(best.x, at),
    best.y - mfdUm.y / 4,
    best.y + mfdUm.y / 4,
    options,
  ).x
  best.x = minimiseBrent(
    (at) => -efficiencyAt(at, best.y),
    best.x - mfdUm.x / 4,
    best.x + mfdUm.x / 4,
    options,
  ).x
  const { ofE } = overlapsAt(best.x, best.y)
  const electricPower = integralOfProduct(axes, field, field) / leadingShare
  return {
    efficiency: Math.min(1, efficiencyAt(best.x, best.y)),
    electricEfficiency: Math.min(1, ofE ** 2 / (electricPower * emitter.power)),
    xUm: best.x,
    yUm: best.y,
  }
}
