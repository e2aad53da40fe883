// A field on the graded grid that a mode was solved on. Its plane waves are summed there directly, by one matrix product along
// each axis, so that no regular grid comes between the solver and the joint:
//   F(kx, ky) = sum over cells of amplitude * area * exp(-i (kx x + ky y))

import { gridProfile } from './gridProfile'
import type { ModeProfile, PlaneWaves } from './modeProfile'
import type { SampledField } from './sampledField'

/** Plain data: places of the cells about the field's origin, the amplitude times the area of each, and the power. */
export interface GradedField {
  readonly xUm: Float64Array
  readonly yUm: Float64Array
  /** Row-major, index iy * nx + ix, um^2 times the amplitude. */
  readonly weighted: Float64Array
  /** Integral of the amplitude's square, um^2. */
  readonly powerUm2: number
}

/** A complex matrix, row-major. */
interface Matrix {
  readonly re: Float64Array
  readonly im: Float64Array
}

/** exp(-i k x): a row for each wavenumber, a column for each place. */
function waveTable(waves: Float64Array, positions: Float64Array): Matrix {
  const count = positions.length
  const re = new Float64Array(waves.length * count)
  const im = new Float64Array(waves.length * count)
  waves.forEach((wave, k) => {
    for (let i = 0; i < count; i++) {
      const phase = wave * (positions[i] as number)
      re[k * count + i] = Math.cos(phase)
      im[k * count + i] = -Math.sin(phase)
    }
  })
  return { re, im }
}

/** Writes the sums over the `width` columns of both: a row for each row of a, a column for each row of b. */
function rowProducts(a: Matrix, b: Matrix, width: number, { re, im }: Matrix): void {
  const [rows, columns] = [a.re.length / width, b.re.length / width]
  for (let q = 0; q < rows; q++) {
    const from = q * width
    // Two columns at a time, so that each number of a is read once for both; the last of an odd number is its own neighbour.
    for (let p = 0; p < columns; p += 2) {
      const next = Math.min(p + 1, columns - 1)
      const first = p * width
      const second = next * width
      let re1 = 0
      let im1 = 0
      let re2 = 0
      let im2 = 0
      for (let i = 0; i < width; i++) {
        const c = a.re[from + i] as number
        const s = a.im[from + i] as number
        const x1 = b.re[first + i] as number
        const y1 = b.im[first + i] as number
        const x2 = b.re[second + i] as number
        const y2 = b.im[second + i] as number
        re1 += x1 * c - y1 * s
        im1 += x1 * s + y1 * c
        re2 += x2 * c - y2 * s
        im2 += x2 * s + y2 * c
      }
      re[q * columns + p] = re1
      im[q * columns + p] = im1
      re[q * columns + next] = re2
      im[q * columns + next] = im2
    }
  }
}

/** Writes F at the product of two lists of wavenumbers, 1/um: index iy * kx.length + ix. */
function gradedWaves(
  { xUm, yUm, weighted }: GradedField,
  kx: Float64Array,
  ky: Float64Array,
  re: Float64Array,
  im: Float64Array,
): void {
  const [nx, ny, across] = [xUm.length, yUm.length, kx.length]
  const field = { re: weighted, im: new Float64Array(nx * ny) }
  const alongX = { re: new Float64Array(across * ny), im: new Float64Array(across * ny) }
  rowProducts(waveTable(kx, xUm), field, nx, alongX)
  rowProducts(waveTable(ky, yUm), alongX, ny, { re, im })
}

/** Grids whose waves are kept: sums at single poses come back to the same few, a megabyte or so each. */
const KEPT_GRIDS = 6

/** `gradedWaves`, which remembers the latest wavenumbers and their waves. */
function rememberedWaves(graded: GradedField): PlaneWaves['waves'] {
  const known = new Map<string, Matrix>()
  return (kx, ky, re, im) => {
    const key = `${kx.join()};${ky.join()}`
    const waves = known.get(key) ?? { re: new Float64Array(re.length), im: new Float64Array(im.length) }
    if (!known.delete(key)) gradedWaves(graded, kx, ky, waves.re, waves.im)
    known.set(key, waves)
    const [oldest] = known.keys()
    if (known.size > KEPT_GRIDS && oldest !== undefined) known.delete(oldest)
    re.set(waves.re)
    im.set(waves.im)
  }
}

/** The profile of a sampled field with the plane waves of the graded one that the samples were taken from. */
export function gradedProfile(field: SampledField, graded: GradedField): ModeProfile {
  const propagating = field.wavelengthUm / (2 * field.index)
  const samples = gridProfile(field)
  return {
    ...samples,
    // The waves need no samples: the other mode says how fine the grid is to be, from all waves that propagate on.
    stepXUm: Math.max(samples.stepXUm, propagating),
    stepYUm: Math.max(samples.stepYUm, propagating),
    plane: {
      powerUm2: graded.powerUm2,
      isRound: false,
      waves: rememberedWaves(graded),
    },
  }
}
