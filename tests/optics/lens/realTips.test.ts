import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { InputError } from '../../../src/numerics/inputError'
import { lossDb } from '../../../src/optics/beam/decibel'
import { fieldEfficiency } from '../../../src/optics/field/fieldJoint'
import { ALIGNED_POSE } from '../../../src/optics/field/fieldPose'
import { fieldPairOf } from '../../../src/optics/field/modeSpec'
import type { LensedTip } from '../../../src/optics/lens/lensedTip'
import { lensedTipFocus } from '../../../src/optics/lens/lensedTip'
import { bestTipDistance, fitTip, tipEfficiency } from '../../../src/optics/lens/tipCoupling'
import { tipSpectrum } from '../../../src/optics/lens/tipSpectrum'

interface Coupled {
  readonly lossAtParaxialDb: number
  readonly bestLossDb: number
  readonly bestDistanceUm: number
}
interface Row {
  readonly fibreModeRadiusUm: number
  readonly tipRadiusUm: number
  readonly fibreIndex: number
  readonly wavelengthUm: number
  readonly mediumIndex: number
  readonly paraxialSpotMfdUm: number
  readonly paraxialWorkingDistanceUm: number
  readonly transmissionOverFlat: number
  readonly toSpotMatched: Coupled
  readonly toRound3um: Coupled
}

const { tips } = JSON.parse(
  readFileSync(new URL('../../reference/data/real-tips.json', import.meta.url), 'utf8'),
) as { tips: readonly Row[] }

const tipOf = (row: Row): LensedTip => ({ ...row, modeRadiusUm: row.fibreModeRadiusUm })
const CENTRED = { offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }

describe.each(tips)('a tip of $tipRadiusUm um', (row) => {
  const spectrum = tipSpectrum(tipOf(row))
  test.each([
    ['toSpotMatched', row.paraxialSpotMfdUm],
    ['toRound3um', 3],
  ] as const)('%s: loss at the paraxial distance, least loss and its distance', (name, mfdUm) => {
    const expected = row[name]
    const at = { ...CENTRED, receiverMfdXUm: mfdUm, receiverMfdYUm: mfdUm }
    const paraxial = lossDb(tipEfficiency(spectrum, { ...at, gapUm: row.paraxialWorkingDistanceUm }))
    expect(Math.abs(paraxial - expected.lossAtParaxialDb)).toBeLessThan(0.05)
    const best = bestTipDistance(spectrum, mfdUm / 2, 1.4 * row.paraxialWorkingDistanceUm)
    expect(Math.abs(lossDb(best.efficiency) - expected.bestLossDb)).toBeLessThan(0.05)
    expect(Math.abs(best.gapUm - expected.bestDistanceUm)).toBeLessThan(0.15)
  })

  test('lets through what the wave solution says, within 1.5 %', () => {
    expect(Math.abs(spectrum.power - row.transmissionOverFlat)).toBeLessThan(0.015)
  })
})

/** A joint by the field engine: both modes sampled, a plain sum over plane waves. */
function byFields(row: Row, receiver: { mfdXUm: number; mfdYUm: number }, pose: typeof ALIGNED_POSE): number {
  const { wavelengthUm, mediumIndex: index } = row
  const flat = { waistXUm: 0, waistYUm: 0 }
  const fibre = { kind: 'gaussian', mfdXUm: 10.4, mfdYUm: 10.4, ...flat } as const
  const pair = fieldPairOf({
    emitter: {
      mode: fibre,
      tip: { radiusUm: row.tipRadiusUm, guideIndex: row.fibreIndex },
      stretchX: 1,
      stretchY: 1,
    },
    receiver: { mode: { kind: 'gaussian', ...receiver, ...flat }, tip: null, stretchX: 1, stretchY: 1 },
    wavelengthUm,
    index,
    propagation: 'exact',
  })
  return fieldEfficiency(pair, pose, 1e-5).efficiency
}

describe('a tip out of line', () => {
  const [, row] = tips
  if (row === undefined) throw new Error('no tip')
  const spectrum = tipSpectrum(tipOf(row))

  test.each([
    ['aligned', ALIGNED_POSE],
    ['displaced', { ...ALIGNED_POSE, offsetXUm: 1.1, offsetYUm: -0.7 }],
    ['tilted', { ...ALIGNED_POSE, tiltXRad: 0.06, tiltYRad: 0.03 }],
    ['both', { ...ALIGNED_POSE, offsetXUm: 0.9, offsetYUm: 0.5, tiltXRad: -0.05, tiltYRad: 0.04 }],
  ])('%s: the radial sum is what sampled fields give, for an elliptical mode', (_, pose) => {
    const receiver = { mfdXUm: 3, mfdYUm: 4.4 }
    const at = { ...pose, gapUm: 15 }
    const sum = tipEfficiency(spectrum, { ...at, receiverMfdXUm: 3, receiverMfdYUm: 4.4 })
    // Fields move all waves of a tilted tip alike, by their mean slope; the radial sum moves each by its own.
    const allowed = pose.tiltXRad === 0 ? 2e-3 : 8e-3
    expect(Math.abs(sum - byFields(row, receiver, at))).toBeLessThan(allowed)
  })

  test('the fitted Gaussian is nearer than the paraxial focus, and couples best', () => {
    const fit = fitTip(tipOf(row))
    const paraxial = lensedTipFocus(tipOf(row))
    expect(fit.workingDistanceUm).toBeLessThan(paraxial.workingDistanceUm - 3)
    const worth = (radiusUm: number, gapUm: number) =>
      tipEfficiency(spectrum, {
        ...CENTRED,
        gapUm,
        receiverMfdXUm: 2 * radiusUm,
        receiverMfdYUm: 2 * radiusUm,
      })
    expect(worth(fit.spotRadiusUm, fit.workingDistanceUm)).toBeCloseTo(fit.overlap, 9)
    for (const [dr, dz] of [
      [0.1, 0],
      [-0.1, 0],
      [0, 0.5],
      [0, -0.5],
    ] as const) {
      expect(worth(fit.spotRadiusUm + dr, fit.workingDistanceUm + dz)).toBeLessThan(fit.overlap)
    }
  })

  test('a tip so gentle that nothing is left of aberration is the paraxial one', () => {
    const gentle = { ...tipOf(row), tipRadiusUm: 80 }
    const { spotRadiusUm, workingDistanceUm } = lensedTipFocus(gentle)
    const mfdUm = 2 * spotRadiusUm
    const at = { ...CENTRED, receiverMfdXUm: mfdUm, receiverMfdYUm: mfdUm, gapUm: workingDistanceUm }
    expect(tipEfficiency(tipSpectrum(gentle), at)).toBeGreaterThan(0.998)
  })

  test('impossible tips are refused', () => {
    expect(() => tipSpectrum({ ...tipOf(row), tipRadiusUm: 0 })).toThrow(InputError)
    expect(() => tipSpectrum({ ...tipOf(row), mediumIndex: 1.5 })).toThrow(InputError)
  })
})

// Spherical waves about the centre of the tip, matched at the sphere (recipes/sphere_tips.py).
const sphere = JSON.parse(
  readFileSync(new URL('../../reference/data/sphere-tips.json', import.meta.url), 'utf8'),
) as {
  tips: readonly (LensedTip & {
    readonly mfdUm: number
    readonly paraxialDistanceUm: number
    readonly paraxialDb: number
    readonly bestDb: number
    readonly bestUm: number
  })[]
}

test.each(sphere.tips)(
  'a tip of $tipRadiusUm um on a mode of radius $modeRadiusUm um, $wavelengthUm um, to $mfdUm um',
  (row) => {
    const spectrum = tipSpectrum(row)
    const at = { ...CENTRED, receiverMfdXUm: row.mfdUm, receiverMfdYUm: row.mfdUm }
    const paraxial = lossDb(tipEfficiency(spectrum, { ...at, gapUm: row.paraxialDistanceUm }))
    expect(Math.abs(paraxial - row.paraxialDb)).toBeLessThan(0.08)
    const best = bestTipDistance(spectrum, row.mfdUm / 2, 1.4 * row.paraxialDistanceUm)
    expect(Math.abs(lossDb(best.efficiency) - row.bestDb)).toBeLessThan(0.04)
    expect(Math.abs(best.gapUm - row.bestUm)).toBeLessThan(0.25)
  },
)
