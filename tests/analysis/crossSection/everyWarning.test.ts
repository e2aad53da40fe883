// Each warning about a solved mode on either side of its limit, on numbers that are set here.

import { expect, test } from 'vitest'
import { bestOf, betweenPoints, type SweepPoint } from '../../../src/analysis/crossSection/modeSweep'
import { modeWarnings } from '../../../src/analysis/crossSection/modeWarnings'
import { opticsSection } from '../../../src/analysis/crossSection/opticsSection'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { CrossSection, Leakage, ModeWidths, SolvedMode } from '../../../src/optics/index'

/** Oxide that ends 5 um above the substrate, in air. */
const section: CrossSection = {
  substrateIndex: 1.444,
  layers: [{ thicknessUm: 5, index: 1.444 }],
  coverIndex: 1,
  cores: [
    {
      ...{ shape: 'trapezoid', xUm: 0, bottomUm: 2, widthUm: 0.8, heightUm: 0.4 },
      ...{ sidewallRad: Math.PI / 2, index: 1.996 },
    },
  ],
}
interface Change {
  readonly mode?: Partial<SolvedMode>
  readonly overlap?: number
  readonly centreYUm?: number
  readonly secondMomentUm?: { readonly x: number; readonly y: number }
  readonly leakageDbPerMm?: number
  readonly indexError?: number
}
/** A mode that raises no warning, and what one change makes of it. */
function warningsOf({
  mode,
  overlap = 0.99,
  centreYUm = 1,
  secondMomentUm = { x: 2, y: 2 },
  ...change
}: Change) {
  const { leakageDbPerMm, indexError = 1e-6 } = change
  const solved = {
    ...{ section, effectiveIndex: 1.5, cutOffIndex: 1.444, wavelengthUm: 1.55 },
    ...{ substrateTakenOut: false, leadingShare: 0.99 },
    ...mode,
  } as SolvedMode
  const widths = {
    gaussian: { overlap, centreUm: { x: 0, y: centreYUm } },
    secondMomentUm,
  } as ModeWidths
  const leakage = leakageDbPerMm === undefined ? null : ({ dbPerMm: leakageDbPerMm } as Leakage)
  return modeWarnings(solved, widths, leakage, indexError)
}

test.each<readonly [words: string, before: Change, beyond: Change]>([
  [
    'of the power is in the minor transverse component',
    { mode: { leadingShare: 0.95 } },
    { mode: { leadingShare: 0.94 } },
  ],
  // 2 % of 0.056 above cut-off.
  ['Grid too coarse', { indexError: 0.00112 - 1e-6 }, { indexError: 0.00112 + 1e-6 }],
  ['Close to cut-off', { mode: { effectiveIndex: 1.4461 } }, { mode: { effectiveIndex: 1.4459 } }],
  ['Strongly non-Gaussian: best-fit Gaussian overlap', { overlap: 0.95 }, { overlap: 0.949 }],
  ['The substrate index exceeds', {}, { mode: { substrateTakenOut: true } }],
  ['Substrate leakage', { leakageDbPerMm: 0.049 }, { leakageDbPerMm: 0.05 }],
  ['(first order). Keep the tip short', { leakageDbPerMm: 0.04 }, { leakageDbPerMm: 10 }],
  ['a first-order estimate is rough', { leakageDbPerMm: 10 }, { leakageDbPerMm: 10.1 }],
  [
    'smaller than the wavelength',
    { secondMomentUm: { x: 1.55, y: 2 } },
    { secondMomentUm: { x: 2, y: 1.54 } },
  ],
  // 5 um less 1 um of half the height is where the mode of 2 um reaches the end of the oxide.
  ['0.99 µm above its centre: the boundary distorts', { centreYUm: 4 }, { centreYUm: 4.01 }],
])('%s', (words, before, beyond) => {
  expect(warningsOf({})).toEqual([])
  expect(warningsOf(before).join()).not.toContain(words)
  expect(warningsOf(beyond).join()).toContain(words)
})

test('a further mode is stated where it keeps more than half of the distance to cut-off, in squares, along the wider axis', () => {
  // n^2 less (2 lambda / pi / d)^2 with lambda / n as in the parabolic profile; half of 1.5^2 - 1.444^2 = 0.16486 is 0.08243.
  const widest = (2 * 1.55) / Math.PI / Math.sqrt(0.082432)
  expect(widest).toBeCloseTo(3.437, 3)
  const at = (x: number, y: number) =>
    warningsOf({ secondMomentUm: { x, y } }).filter((each) => each.startsWith('Not single-mode'))
  expect(at(widest - 0.001, 2)).toEqual([])
  expect(at(widest + 0.001, 2)[0]).toMatch(
    /node along x has an effective index of at least 1\.47, above cut-off at 1\.44/,
  )
  expect(at(2, widest + 0.001)[0]).toContain('node along y')
  expect(at(5, 4)[0]).toContain('along x')
  expect(at(4, 5)[0]).toContain('along y')
})

test('a peak step over wavelength lies on straight lines between the rows, and holds at the ends', () => {
  const entry = newCrossSection(6, 4)
  const core = entry.cores[0]!
  core.profile = 'buried Gaussian'
  core.stepOverWavelength = { wavelengthsUm: [1.3, 1.5, 1.6], steps: [0.01, 0.02, 0.05] } as NonNullable<
    typeof core.stepOverWavelength
  >
  // The cladding as a number, so that the step is the only thing that moves.
  const oxide = { kind: 'value', index: quantityOf(1.444, '1') } as const
  entry.substrate.index = oxide
  for (const layer of entry.layers) layer.index = oxide
  entry.cover.index = oxide
  const stepAt = (wavelengthUm: number) => (opticsSection(entry, wavelengthUm).cores[0]?.index ?? 0) - 1.444
  for (const [at, step] of [
    [1.2, 0.01],
    [1.3, 0.01],
    [1.35, 0.0125],
    [1.5, 0.02],
    [1.52, 0.026],
    [1.6, 0.05],
    [1.7, 0.05],
  ] as const)
    expect(stepAt(at)).toBeCloseTo(step, 12)
  // A uniform core has its own index, whatever the rows say.
  core.profile = 'uniform'
  core.index = { kind: 'value', index: quantityOf(1.46, '1') }
  expect(opticsSection(entry, 1.35).cores[0]?.index).toBe(1.46)
})

test('the best of a sweep is at an end where either neighbour is missing or has no mode', () => {
  const points = (...losses: readonly (number | null)[]) =>
    losses.map(
      (lossDb, i) =>
        ({
          value: i,
          numbers: lossDb === null ? null : { fibreLoss: { fieldDb: lossDb } },
          message: '',
        }) as SweepPoint,
    )
  const at = (...losses: readonly (number | null)[]) => {
    const best = bestOf(points(...losses))
    return [best?.value, best?.lossDb, best?.atEnd]
  }
  expect(at(3, 1, 2)).toEqual([1, 1, false])
  expect(at(1, 2, 3)).toEqual([0, 1, true])
  expect(at(3, 2, 1)).toEqual([2, 1, true])
  expect(at(null, 1, 2)).toEqual([1, 1, true])
  expect(at(2, 1, null)).toEqual([1, 1, true])
  expect(bestOf(points(null, null))).toBeNull()
  // Of equal ones the first; a parabola through 3, 1, 2 is least at 1 + (3 - 2) / (2 (3 - 2 + 2)).
  expect(at(2, 1, 1, 2)).toEqual([1, 1, false])
  expect(betweenPoints(points(3, 1, 2))).toBeCloseTo(1 + 1 / 6, 12)
  expect(betweenPoints(points(2, 1, 3))).toBeCloseTo(1 - 1 / 6, 12)
  expect(betweenPoints(points(1, 2, 3))).toBeNull()
  expect(betweenPoints(points(3, 2, 1))).toBeNull()
})
