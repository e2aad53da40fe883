import { brentRoot } from '../../../src/numerics/roots'
import { fieldRadiusOneOverE, lp01FarField } from '../../../src/optics/fibre/lp01Field'
import {
  approximateStepIndex,
  STEP_INDEX_APPROXIMATIONS,
} from '../../../src/optics/fibre/stepIndexApproximations'
import { corePowerFraction, solveLp01, stepIndexMode } from '../../../src/optics/fibre/stepIndexMode'
import { type CheckRow, recordedRow } from '../checkRow'
import reference from '../data/step-index-lp01.json'
import { GLOGE, SCIPY } from '../sources'

const EXACT = `exact LP01 (weakly guiding), ${GLOGE}, solved with ${SCIPY}`

/** A fibre of core radius 10 um (so that the NA stays small) at the given V. */
const fibre = (V: number) => ({ coreRadiusUm: 10, na: V / (20 * Math.PI), wavelengthUm: 1 })

/** Radius in core radii of one of the mode's diameters. */
const radius = (V: number, key: 'petermann1MfdUm' | 'petermann2MfdUm' | 'bestGaussianMfdUm') => () =>
  stepIndexMode(fibre(V))[key] / 20

/** k a sin(theta) at which the far field falls to a level. */
function farFieldAt(V: number, level: number, lo: number, hi: number): number {
  const mode = solveLp01(V)
  return brentRoot((alpha) => lp01FarField(mode, alpha) - level, lo, hi).x
}

const eigenvalueRows = ([1.2, 1.6, 2.0, 2.405] as const).flatMap((V) => {
  const name = V === 2 ? '2.0' : String(V)
  return [
    recordedRow(`lp01-u-V${name}`, () => solveLp01(V).U),
    recordedRow(`lp01-etag-V${name}`, () => stepIndexMode(fibre(V)).bestGaussianOverlap),
    recordedRow(`lp01-core-V${name}`, () => corePowerFraction(solveLp01(V))),
  ]
})

const referenceKeys = [
  ['V', 1e-6, 'V'],
  ['U', 1e-6, 'U'],
  ['W', 1e-6, 'W'],
  ['b', 1e-6, 'b'],
  ['petermann1MfdUm', 1e-6, 'the Petermann I diameter'],
  ['petermann2MfdUm', 1e-6, 'the Petermann II diameter'],
  ['bestGaussianMfdUm', 1e-5, 'the best-fit Gaussian diameter'],
  ['bestGaussianOverlap', 1e-6, 'the overlap with the best-fit Gaussian'],
] as const

const referenceRows = referenceKeys.map(
  ([key, tolerance, name]): CheckRow => ({
    id: `lp01-16-${key}`,
    quantity: `largest relative difference of ${name} over 16 fibres`,
    source: `${EXACT}, tests/reference/data/recipes/make_lp01.py`,
    input: 'all modes of step-index-lp01.json',
    expected: 0,
    unit: '1',
    tolerance,
    ours: () =>
      Math.max(...reference.modes.map((mode) => Math.abs(stepIndexMode(mode)[key] / mode[key] - 1))),
  }),
)

/** A number of the exact table that is not in the data file. */
function exact(id: string, quantity: string, V: number, expected: number, ours: () => number): CheckRow {
  return { id, quantity, source: EXACT, input: `V ${V}`, expected, unit: '1', tolerance: 1e-6, ours }
}

export const fibreModeChecks: readonly CheckRow[] = [
  ...referenceRows,
  ...eigenvalueRows,
  recordedRow('lp01-w-V1.2', () => solveLp01(1.2).W),
  recordedRow('lp01-w-V1.6', () => solveLp01(1.6).W),
  recordedRow('lp01-w-V2.405', () => solveLp01(2.405).W),
  exact('lp01-u-V1.8', 'core parameter u', 1.8, 1.454475, () => solveLp01(1.8).U),
  exact('lp01-w-V2.2', 'cladding parameter w', 2.2, 1.519385, () => solveLp01(2.2).W),
  exact(
    'lp01-wg-V2.2',
    'Gaussian radius of maximum overlap w_g/a',
    2.2,
    1.162277,
    radius(2.2, 'bestGaussianMfdUm'),
  ),
  exact('lp01-wp2-V1.8', 'Petermann II radius w_p2/a', 1.8, 1.368582, radius(1.8, 'petermann2MfdUm')),
  recordedRow('lp01-wg-V1.6', radius(1.6, 'bestGaussianMfdUm')),
  recordedRow('lp01-wp1-V1.2', radius(1.2, 'petermann1MfdUm')),
  recordedRow('lp01-wp1-V1.6', radius(1.6, 'petermann1MfdUm')),
  recordedRow('lp01-wp1-V2.405', radius(2.405, 'petermann1MfdUm')),
  recordedRow('lp01-wp2-V1.2', radius(1.2, 'petermann2MfdUm')),
  recordedRow('lp01-wp2-V1.6', radius(1.6, 'petermann2MfdUm')),
  recordedRow('lp01-wp2-V2.0', radius(2, 'petermann2MfdUm')),
  recordedRow('lp01-r1e-V1.6', () => fieldRadiusOneOverE(solveLp01(1.6))),
  recordedRow('lp01-r1e-V2.405', () => fieldRadiusOneOverE(solveLp01(2.405))),
  recordedRow('lp01-ff-e2-V2.0', () => farFieldAt(2, Math.exp(-1), 0, 4)),
  recordedRow('lp01-ff-e2-V2.405', () => farFieldAt(2.405, Math.exp(-1), 0, 4)),
  recordedRow('lp01-ff-half-V1.6', () => farFieldAt(1.6, Math.SQRT1_2, 0, 4)),
  recordedRow('lp01-ff-half-V2.405', () => farFieldAt(2.405, Math.SQRT1_2, 0, 4)),
  recordedRow('lp01-ff-null-V1.2', () => farFieldAt(1.2, 0, 3, 5)),
  recordedRow('lp01-ff-null-V2.0', () => farFieldAt(2, 0, 3, 5)),
  recordedRow('marcuse-V1.2', () => approximateStepIndex('marcuse', 1.2)),
  recordedRow('marcuse-V1.6', () => approximateStepIndex('marcuse', 1.6)),
  recordedRow('marcuse-V2.0', () => approximateStepIndex('marcuse', 2)),
  // V = 1.2 lies outside the range the fit is stated for: the coefficients are checked, not the use.
  recordedRow('p2fit-V1.2', () => STEP_INDEX_APPROXIMATIONS.husseyMartinez.evaluate(1.2)),
  recordedRow('p2fit-V1.6', () => approximateStepIndex('husseyMartinez', 1.6)),
  recordedRow('p2fit-V2.0', () => approximateStepIndex('husseyMartinez', 2)),
]
