// The mode of a facet's cross-section on a grid of 200 x 150 cells, full-vector, with its window found: under 1.5 s; and a sweep
// of a tip's width over 20 values with widths, overlap and leakage: under 20 s. A tip is its own mirror image; a cross-section
// that is not costs about four times as much and is shown without a limit. The whole solution, its window and coarser grids
// included, is compared with scipy's eigensolver on the finest operator alone (modeSolverLimit.py, where python3 has it), in
// processor time: the ratio is to be below 1.

import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { sweepSteps } from '../../src/analysis/crossSection/modeSweep'
import { demoProject } from '../../src/model/index'
import { newCrossSection } from '../../src/model/parts/newCrossSection'
import { type CrossSection, solveMode } from '../../src/optics/index'
import { autoWindow } from '../../src/optics/modeSolver/autoWindow'
import { mirrorAxis } from '../../src/optics/modeSolver/crossSection'
import { gridOf, planGrid } from '../../src/optics/modeSolver/modeWindow'
import { vectorOperator } from '../../src/optics/modeSolver/vectorOperator'
import { operatorEntries } from './operatorEntries'
import { printSpread, printVerdict, processorMs, spreadOf, timeMs } from './timing'

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

/** What scipy takes for the same operator; null where there is none. */
function byScipy(mode: ReturnType<typeof solveMode>) {
  const { section } = mode
  const mirrorUm = mirrorAxis(section)
  const found = autoWindow(section, OPTIONS, mirrorUm, 0)
  if (found === null) throw new Error('the tip guides a mode')
  const { window } = found
  const { wavelengthUm, cells, kind } = OPTIONS
  const nodes = gridOf(planGrid(section, window, wavelengthUm, cells, mode.levels.length - 1, mirrorUm), 2)
  const { size, rows, columns, values } = operatorEntries(
    vectorOperator(kind, section, nodes, wavelengthUm, mirrorUm !== null),
  )
  const folder = mkdtempSync(path.join(tmpdir(), 'operator-'))
  const file = path.join(folder, 'entries')
  writeFileSync(
    file,
    Buffer.concat(
      [Uint32Array.of(size, rows.length), rows, columns, values].map((each) => Buffer.from(each.buffer)),
    ),
  )
  const k2 = ((2 * Math.PI) / wavelengthUm) ** 2
  const shift = String(k2 * mode.effectiveIndex ** 2 * (1 + 1e-3))
  const run = spawnSync('python3', ['tests/speed/modeSolverLimit.py', file, shift], {
    encoding: 'utf8',
    env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
  })
  rmSync(folder, { recursive: true })
  if (run.status !== 0) return null
  const { seconds, value } = JSON.parse(run.stdout) as { seconds: number; value: number }
  return { seconds, effectiveIndex: Math.sqrt(value / k2) }
}

const mode = solveMode(single, OPTIONS)
const scipy = byScipy(mode)
if (scipy === null) console.log('  ratio to scipy: not measured, python3 has no scipy here')
else {
  const own = spreadOf(Array.from({ length: RUNS }, () => processorMs(() => solveMode(single, OPTIONS))))
  const ratio = own.median / 1000 / scipy.seconds
  console.log(
    `  processor time ${own.median.toFixed(0)} ms, scipy ${(1000 * scipy.seconds).toFixed(0)} ms, ratio ${ratio.toFixed(2)}; effective index ${mode.effectiveIndex.toFixed(8)} and ${scipy.effectiveIndex.toFixed(8)}`,
  )
  printVerdict('ratio to scipy below 1', ratio < 1)
  printVerdict(
    'both find the same effective index to 1e-7',
    Math.abs(mode.effectiveIndex - scipy.effectiveIndex) < 1e-7,
  )
}

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
