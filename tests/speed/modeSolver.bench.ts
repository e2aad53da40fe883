// The mode of a facet's cross-section on a grid of 200 x 150 cells, full-vector, with its window found: under 1.5 s; and a sweep
// of a tip's width over 20 values with widths, overlap and leakage: under 20 s. A tip is its own mirror image; a cross-section
// that is not costs about four times as much and is shown without a limit.

import { sweepSteps } from '../../src/analysis/crossSection/modeSweep'
import { demoProject } from '../../src/model/index'
import { newCrossSection } from '../../src/model/parts/newCrossSection'
import { type CrossSection, solveMode } from '../../src/optics/index'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const RUNS = 7
const MODE_LIMIT_MS = 1500
const SWEEP_LIMIT_S = 20
const SWEEP_POINTS = 20
const OPTIONS = { kind: 'TE', wavelengthUm: 1.55, cells: { x: 200, y: 150 } } as const

const tip = (widthUm: number, xUm: number) => ({
  shape: 'trapezoid' as const,
  xUm,
  bottomUm: 3,
  widthUm,
  heightUm: 0.22,
  sidewallRad: Math.PI / 2,
  index: 3.476,
})
const oxide = { substrateIndex: 3.476, layers: [{ thicknessUm: 3, index: 1.444 }], coverIndex: 1.444 }
const single: CrossSection = { ...oxide, cores: [tip(0.18, 0)] }
const pair: CrossSection = { ...oxide, cores: [tip(0.16, 0), tip(0.14, 1)] }

const solved = (section: CrossSection) => timeMs(() => solveMode(section, OPTIONS))

solved(single)
const spread = spreadOf(Array.from({ length: RUNS }, () => solved(single)))
printSpread('mode of a silicon tip, 200 x 150', spread, 'ms', 0)
printVerdict(`a mode takes under ${MODE_LIMIT_MS} ms`, spread.median < MODE_LIMIT_MS)
printSpread('mode of two unequal tips', spreadOf([solved(pair), solved(pair)]), 'ms', 0)

const steps = sweepSteps({
  section: newCrossSection(0.6, 0.2),
  wavelengthUm: 1.6537,
  fibre: demoProject().fibres[0] ?? null,
  cells: OPTIONS.cells,
  variable: { kind: 'width', coreId: null },
  from: 0.45,
  to: 0.9,
  points: SWEEP_POINTS,
})
let told = 0
const seconds =
  timeMs(() => {
    while (!steps.next().done) told++
  }) / 1000
console.log(`  sweep over ${SWEEP_POINTS} widths: ${seconds.toFixed(1)} s, ${told} times told how far it is`)
printVerdict(`a sweep takes under ${SWEEP_LIMIT_S} s`, seconds < SWEEP_LIMIT_S)
printVerdict('it tells how far it is at least once a value', told >= SWEEP_POINTS)
