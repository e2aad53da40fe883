// A field on the graded grid that a mode was solved on. Its plane waves are summed there directly, by one matrix product along
// each axis, so that no regular grid comes between the solver and the joint:
//   F(kx, ky) = sum over cells of amplitude * area * exp(-i (kx x + ky y))

import { gridProfile } from './gridProfile'
import type { ModeProfile } from './modeProfile'
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

interface Waves {
  readonly cos: Float64Array
  readonly sin: Float64Array
}

/** exp(-i k x), row by row of x: index ix * count + ik. */
function waveTable(places: Float64Array, waves: Float64Array): Waves {
  const count = waves.length
  const cos = new Float64Array(places.length * count)
  const sin = new Float64Array(places.length * count)
  places.forEach((place, i) => {
    for (let k = 0; k < count; k++) {
      const phase = (waves[k] as number) * place
      cos[i * count + k] = Math.cos(phase)
      sin[i * count + k] = -Math.sin(phase)
    }
  })
  return { cos, sin }
}

/** Writes F at the product of two lists of wavenumbers, 1/um: index iy * kx.length + ix. */
function gradedWaves(
  { xUm, yUm, weighted }: GradedField,
  kx: Float64Array,
  ky: Float64Array,
  re: Float64Array,
  im: Float64Array,
): void {
  const [nx, ny, across, up] = [xUm.length, yUm.length, kx.length, ky.length]
  const alongX = waveTable(xUm, kx)
  const alongY = waveTable(yUm, ky)
  re.fill(0)
  im.fill(0)
  const rowRe = new Float64Array(across)
  const rowIm = new Float64Array(across)
  for (let iy = 0; iy < ny; iy++) {
    rowRe.fill(0)
    rowIm.fill(0)
    for (let ix = 0; ix < nx; ix++) {
      const value = weighted[iy * nx + ix] as number
      const from = ix * across
      for (let p = 0; p < across; p++) {
        rowRe[p] = (rowRe[p] as number) + value * (alongX.cos[from + p] as number)
        rowIm[p] = (rowIm[p] as number) + value * (alongX.sin[from + p] as number)
      }
    }
    for (let q = 0; q < up; q++) {
      const c = alongY.cos[iy * up + q] as number
      const s = alongY.sin[iy * up + q] as number
      const to = q * across
      for (let p = 0; p < across; p++) {
        const a = rowRe[p] as number
        const b = rowIm[p] as number
        re[to + p] = (re[to + p] as number) + a * c - b * s
        im[to + p] = (im[to + p] as number) + a * s + b * c
      }
    }
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
      waves: (kx, ky, re, im) => gradedWaves(graded, kx, ky, re, im),
    },
  }
}
