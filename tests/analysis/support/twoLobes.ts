// A facet of two lobes of unequal height, 4 µm apart, which no fit holds to 0.02 dB at offsets of some micrometres.

import type { SampledField } from '../../../src/optics/index'
import { fieldProject } from './fieldDraws'

const [N, STEP_UM] = [96, 0.105]

function twoLobes(): SampledField {
  const from = (-(N - 1) / 2) * STEP_UM
  const re = Float64Array.from({ length: N * N }, (_, i) => {
    const [x, y] = [from + STEP_UM * (i % N), from + STEP_UM * Math.floor(i / N)]
    return (Math.exp(-((x - 2) ** 2)) + 0.6 * Math.exp(-((x + 2) ** 2))) * Math.exp(-y * y)
  })
  const grid = { nx: N, ny: N, dxUm: STEP_UM, dyUm: STEP_UM, x0Um: from, y0Um: from }
  return { ...grid, re, im: new Float64Array(N * N), wavelengthUm: 1.55, index: 1 }
}

/** The fibre of fieldDraws.ts in air before that facet, with offsets of so many micrometres. */
export const twoLobesProject = (offsetsUm: number) =>
  fieldProject({ field: twoLobes(), powerShare: 1, mfdXUm: 5, mfdYUm: 2, offsetsUm, inGel: false })
