// Coupling of solved modes by E and H, against tests/reference/data/recipes/vector_overlap.py: full-vector finite differences in
// scipy on uniform cells, H from the other of Maxwell's curl equations.

import { describe, expect, test } from 'vitest'
import { ALIGNED_POSE, fieldEfficiency, fieldPairOf, lossDb, type ModeSpec } from '../../../src/optics/index'
import { couplingField, gradedField } from '../../../src/optics/modeSolver/coupling/couplingField'
import { fibreOverlap } from '../../../src/optics/modeSolver/coupling/fibreOverlap'
import { modeWidths } from '../../../src/optics/modeSolver/modeWidths'
import { sampledMode } from '../../../src/optics/modeSolver/sampledMode'
import { solveMode } from '../../../src/optics/modeSolver/solveMode'
import { siliconWire } from './sections'

const face = (mode: ModeSpec) => ({ mode, tip: null, stretchX: 1, stretchY: 1 })

describe.each([
  // What E and H together lose less than E alone to a round Gaussian of 3.0 um, by the recipe on cells of 0.04 um.
  { widthUm: 0.18, changeDb: -0.157 },
  { widthUm: 0.5, changeDb: 0.524 },
])('a silicon wire $widthUm um wide in oxide', ({ widthUm, changeDb }) => {
  const mode = solveMode(siliconWire(widthUm), {
    kind: 'TE',
    wavelengthUm: 1.55,
    cells: { x: 100, y: 80 },
  })
  const widths = modeWidths(mode)
  const to = (mfdUm: number) => fibreOverlap(mode, widths, { kind: 'gaussian', mfdXUm: mfdUm, mfdYUm: mfdUm })

  test('couples by E and H as the recipe finds', () => {
    const { efficiency, electricEfficiency } = to(3)
    expect(Math.abs(lossDb(efficiency) - lossDb(electricEfficiency) - changeDb)).toBeLessThan(0.05)
  })

  test.each([3, 10.4])('and in a joint to %f um as on its own grid, to 0.002 dB', (mfdUm) => {
    const centre = widths.gaussian.centreUm
    const { field, powerShare } = couplingField(mode)
    const grid = { nx: 64, ny: 64, dxUm: 0.1, dyUm: 0.1, centreXUm: centre.x, centreYUm: centre.y }
    const pair = fieldPairOf({
      emitter: face({ kind: 'gaussian', mfdXUm: mfdUm, mfdYUm: mfdUm, waistXUm: 0, waistYUm: 0 }),
      receiver: face({
        kind: 'sampled',
        field: sampledMode({ ...mode, field }, grid),
        graded: gradedField(mode, field, centre),
        powerShare,
        key: '',
      }),
      wavelengthUm: 1.55,
      index: 1.444,
      propagation: 'exact',
    })
    const best = to(mfdUm)
    const { efficiency } = fieldEfficiency(pair, {
      ...ALIGNED_POSE,
      offsetXUm: best.xUm - centre.x,
      offsetYUm: best.yUm - centre.y,
    })
    expect(Math.abs(lossDb(efficiency) - lossDb(best.efficiency))).toBeLessThan(0.002)
  })
})
