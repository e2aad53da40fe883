import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { besselJ0 } from '../../../src/numerics/bessel'
import { InputError } from '../../../src/numerics/inputError'
import { brentRoot } from '../../../src/numerics/roots'
import { faceReturnLoss, turnedReturnDb } from '../../../src/optics/faces/faceReturnLoss'
import {
  ASSUMED_V,
  coreAngleForReturnLoss,
  equivalentCore,
  leastTurnedModeDb,
  lp01TurnedOverlap,
  turnedModeDb,
} from '../../../src/optics/faces/turnedMode'
import { lp01Field } from '../../../src/optics/fibre/lp01Field'
import { solveLp01, stepIndexMode } from '../../../src/optics/fibre/stepIndexMode'

const DEGREE = Math.PI / 180
const WAVELENGTH_UM = 1.55
/** Fused silica at 1550 nm. */
const SILICA = 1.444
const SQUARE_DB = -20 * Math.log10((SILICA - 1) / (SILICA + 1))

interface Row {
  readonly na?: number
  readonly fibre?: string
  readonly angleDeg: number
  readonly lp01Db: readonly [number, number]
  readonly gaussianDb: number
}
const { rows } = JSON.parse(
  readFileSync(new URL('../../reference/data/lp01-return-loss.json', import.meta.url), 'utf8'),
) as { rows: readonly Row[] }

const coreOf = (coreRadiusUm: number, na: number) => ({
  V: (2 * Math.PI * coreRadiusUm * na) / WAVELENGTH_UM,
  radiusXUm: coreRadiusUm,
  radiusYUm: coreRadiusUm,
})

const ownFace = (core: ReturnType<typeof coreOf>, angleDeg: number) =>
  SQUARE_DB +
  turnedModeDb({
    wavelengthUm: WAVELENGTH_UM,
    guideIndex: SILICA,
    core,
    angleXRad: angleDeg * DEGREE,
    angleYRad: 0,
  })

const gaussianDb = (mfdUm: number, angleDeg: number) =>
  faceReturnLoss({
    wavelengthUm: WAVELENGTH_UM,
    guideIndex: SILICA,
    mediumIndex: 1,
    mfdXUm: mfdUm,
    mfdYUm: mfdUm,
    angleXRad: angleDeg * DEGREE,
    angleYRad: 0,
  })

const mfdOf = (coreRadiusUm: number, na: number) =>
  stepIndexMode({ coreRadiusUm, na, wavelengthUm: WAVELENGTH_UM }).bestGaussianMfdUm

/** The single-mode core of a given NA whose best Gaussian returns what the reference says of the Gaussian. */
function coreRadiusOf({ na = 0.12, angleDeg, gaussianDb: wanted }: Row): number {
  // The mode is narrowest near V = 2 and wider on either side; the search stays on the weakly held side.
  const radiusAt = (V: number) => (V * WAVELENGTH_UM) / (2 * Math.PI * na)
  return brentRoot((a) => gaussianDb(mfdOf(a, na), angleDeg) - wanted, radiusAt(1.5), radiusAt(2.05)).x
}

describe('return loss of an angled face by the exact mode', () => {
  test.each(rows.filter((row) => row.na !== undefined))('NA $na at $angleDeg degrees', (row) => {
    const result = ownFace(coreOf(coreRadiusOf(row), row.na ?? 0), row.angleDeg)
    expect(result).toBeGreaterThan(row.lp01Db[0] - 1)
    expect(result).toBeLessThan(row.lp01Db[1] + 1)
    expect(row.gaussianDb - result).toBeGreaterThan(4)
  })

  test('8 degrees of a standard fibre (core 8.2 um, NA 0.12) are 59 to 60 dB, where its Gaussian says 95', () => {
    const row = rows.find((each) => each.fibre === 'standard single-mode')
    const result = ownFace(coreOf(4.1, 0.12), row?.angleDeg ?? 0)
    expect(result).toBeGreaterThan(row?.lp01Db[0] ?? Number.NaN)
    expect(result).toBeLessThan(row?.lp01Db[1] ?? Number.NaN)
    expect(Math.abs(gaussianDb(mfdOf(4.1, 0.12), 8) - (row?.gaussianDb ?? 0))).toBeLessThan(3)
  })

  test('a small turn is that of the second moment of the intensity, whatever the mode: 1 - (q r)^2 / 4', () => {
    // Petermann I is the root-mean-square width: <r^2> = MFD^2 / 8.
    const { petermann1MfdUm } = stepIndexMode({ coreRadiusUm: 4.1, na: 0.12, wavelengthUm: WAVELENGTH_UM })
    const { V } = coreOf(4.1, 0.12)
    const q = 0.01
    const square = (petermann1MfdUm / 4.1) ** 2 / 8
    expect((1 - lp01TurnedOverlap(V, q)) / (q * q)).toBeCloseTo(square / 4, 4)
  })

  test.each([3, 12, 34])('the integral at q = %d agrees with fine trapezoids', (q) => {
    const mode = solveLp01(2)
    const step = 2e-3
    let [turned, power] = [0, 0]
    for (let r = step / 2; r < 20; r += step) {
      const square = lp01Field(mode, r) ** 2 * r
      turned += square * besselJ0(q * r)
      power += square
    }
    expect(lp01TurnedOverlap(2, q)).toBeCloseTo(turned / power, 6)
  })

  test('two axes add like the hypotenuse, and a stretched core scales its axis', () => {
    const face = { wavelengthUm: WAVELENGTH_UM, guideIndex: SILICA, core: coreOf(4.1, 0.12) }
    const both = turnedModeDb({ ...face, angleXRad: 0.03, angleYRad: 0.04 })
    expect(both).toBeCloseTo(turnedModeDb({ ...face, angleXRad: 0.05, angleYRad: 0 }), 9)
    const wide = { ...face, core: { ...face.core, radiusXUm: 8.2 } }
    expect(turnedModeDb({ ...wide, angleXRad: 0.02, angleYRad: 0 })).toBeCloseTo(
      turnedModeDb({ ...face, angleXRad: 0, angleYRad: 0.04 }),
      9,
    )
    expect(turnedModeDb({ ...face, angleXRad: 0, angleYRad: 0 })).toBe(0)
  })

  test('bad input is named', () => {
    const face = { wavelengthUm: 1.55, guideIndex: SILICA, core: coreOf(4.1, 0.12), angleYRad: 0 }
    expect(() => turnedModeDb({ ...face, angleXRad: 0.8 })).toThrow('angleXRad is 0.8; must be -0.7 to 0.7')
    expect(() => turnedModeDb({ ...face, angleXRad: 0.1, guideIndex: 0 })).toThrow(InputError)
    expect(() => turnedModeDb({ ...face, angleXRad: 0.1, core: { ...face.core, V: 30 } })).toThrow(InputError)
  })
})

describe('a fibre known by its mode-field diameter', () => {
  test('gets a core whose best Gaussian has that diameter', () => {
    for (const [mfdUm, V] of [
      [10.4, ASSUMED_V.standard],
      [5, ASSUMED_V.smallMode],
    ] as const) {
      const core = equivalentCore(mfdUm, mfdUm, WAVELENGTH_UM)
      expect(core.V).toBe(V)
      expect(mfdOf(core.radiusXUm, (V * WAVELENGTH_UM) / (2 * Math.PI * core.radiusXUm))).toBeCloseTo(
        mfdUm,
        6,
      )
    }
  })

  test.each([
    [0.12, 4.1, 8],
    [0.41, 1.1, 12],
    [0.41, 1.4, 10],
  ])(
    'returns no less than the least of the usual cores: NA %d, radius %d um, %d degrees',
    (na, radius, deg) => {
      const mfdUm = mfdOf(radius, na)
      const face = { wavelengthUm: WAVELENGTH_UM, guideIndex: SILICA, angleXRad: deg * DEGREE, angleYRad: 0 }
      const assumed = { ...face, core: equivalentCore(mfdUm, mfdUm, WAVELENGTH_UM) }
      const least = leastTurnedModeDb(assumed)
      expect(least).toBeLessThanOrEqual(turnedModeDb(assumed))
      expect(turnedModeDb({ ...face, core: coreOf(radius, na) })).toBeGreaterThan(least - 0.1)
      // The ends of the range, each a core of its own.
      for (const V of [1.6, 2.4]) {
        const a = (V * WAVELENGTH_UM) / (2 * Math.PI * na)
        const scale = mfdUm / mfdOf(a, na)
        const core = { V, radiusXUm: a * scale, radiusYUm: a * scale }
        expect(least).toBeLessThan(turnedModeDb({ ...face, core }) + 1e-6)
      }
    },
  )

  test('8 degrees at 10.4 um return about 60 dB', () => {
    expect(ownFace(equivalentCore(10.4, 10.4, WAVELENGTH_UM), 8)).toBeCloseTo(59.8, 1)
  })

  test('every small turn loses less than the Gaussian of the same diameter from 30 dB on', () => {
    const core = equivalentCore(5, 5, WAVELENGTH_UM)
    for (const angleDeg of [9, 10, 11, 12]) {
      const angle = { angleXRad: angleDeg * DEGREE, angleYRad: 0 }
      const guide = { wavelengthUm: WAVELENGTH_UM, guideIndex: SILICA }
      const gaussian = turnedReturnDb({ ...guide, mfdXUm: 5, mfdYUm: 5, ...angle })
      expect(turnedModeDb({ ...guide, core, ...angle })).toBeLessThan(gaussian - 3)
    }
  })
})

describe('the angle for a wanted return loss', () => {
  const guide = { wavelengthUm: WAVELENGTH_UM, guideIndex: SILICA, core: coreOf(4.1, 0.12) }
  const reflectance = ((SILICA - 1) / (SILICA + 1)) ** 2

  test('no steeper face returns less', () => {
    const angle = coreAngleForReturnLoss(guide, reflectance, 55)
    for (let i = 0; i <= 200; i++) {
      const angleXRad = angle + ((0.7 - angle) * i) / 200
      expect(SQUARE_DB + turnedModeDb({ ...guide, angleXRad, angleYRad: 0 })).toBeGreaterThan(55 - 1e-6)
    }
    expect(SQUARE_DB + turnedModeDb({ ...guide, angleXRad: 0.99 * angle, angleYRad: 0 })).toBeLessThan(55)
  })

  test('a null before a side lobe is not taken for the answer: 60 dB wants more than the null near 6 degrees', () => {
    expect(ownFace(guide.core, 6)).toBeGreaterThan(60)
    expect(coreAngleForReturnLoss(guide, reflectance, 60) / DEGREE).toBeGreaterThan(8)
  })

  test('a square face that does already needs none', () => {
    expect(coreAngleForReturnLoss(guide, reflectance, 10)).toBe(0)
    expect(() => coreAngleForReturnLoss(guide, 2, 10)).toThrow(InputError)
  })
})
