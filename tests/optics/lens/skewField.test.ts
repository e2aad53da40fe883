// Skew rays through displaced and tilted lenses, compared with what geometry leaves unchanged and against the sine condition.

import { describe, expect, test } from 'vitest'
import { ballLens, thickLens } from '../../../src/optics/beam/abcd'
import {
  collimatedField,
  coupledBy,
  ringSpectrum,
  waveNodes,
  wavesOver,
} from '../../../src/optics/lens/collimatedField'
import { comaOf } from '../../../src/optics/lens/coma'
import { FLAT_FACE, sphericalFace } from '../../../src/optics/lens/lensShape'
import { coupledPoints, pointsOfRings, roundLookup, tableLookup } from '../../../src/optics/lens/pointField'
import { type PlacedLens, type SkewField, skewField } from '../../../src/optics/lens/skewField'

const WAVELENGTH_UM = 1.55
const K = (2 * Math.PI) / WAVELENGTH_UM
const STRETCH_UM = 2800
const IN_LINE = { mediumIndex: 1, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
const AXIS = { heightUm: 0, slopeRad: 0 }

const ball: PlacedLens = {
  shape: {
    index: 1.7462,
    mediumIndex: 1,
    thicknessUm: 500,
    first: sphericalFace(250),
    last: sphericalFace(-250),
  },
  matrix: ballLens({ index: 1.7462, diameterUm: 500 }),
  thicknessUm: 500,
  ...IN_LINE,
}
const PLANO = { index: 1.444, radiusUm: 500, thicknessUm: 500 }
const planoConvex: PlacedLens = {
  shape: {
    index: PLANO.index,
    mediumIndex: 1,
    thicknessUm: PLANO.thicknessUm,
    first: FLAT_FACE,
    last: sphericalFace(-PLANO.radiusUm),
  },
  matrix: thickLens({
    index: PLANO.index,
    frontRadiusUm: Number.POSITIVE_INFINITY,
    backRadiusUm: -PLANO.radiusUm,
    thicknessUm: PLANO.thicknessUm,
  }),
  thicknessUm: PLANO.thicknessUm,
  ...IN_LINE,
}

const mode = (mfdUm: number, distanceUm: number) => ({
  wavelengthUm: WAVELENGTH_UM,
  waistRadiusUm: mfdUm / 2,
  distanceUm,
})
const NEAR = mode(10.4, 891)
const FAR = mode(3, 27.5)

function fieldOf(...of: Parameters<typeof skewField>): SkewField {
  const field = skewField(...of)
  if (field === null) throw new Error('no ray gets through')
  return field
}
const near = fieldOf(NEAR, { x: AXIS, y: AXIS }, planoConvex)
const couple = (far: SkewField, move?: Parameters<typeof coupledPoints>[3]) =>
  -10 * Math.log10(coupledPoints(near, tableLookup(far, STRETCH_UM, K), K, move))

describe('in line', () => {
  const rings = collimatedField(NEAR, planoConvex.shape as never, planoConvex.matrix)
  const other = collimatedField(FAR, ball.shape as never, ball.matrix)
  if (rings === null || other === null) throw new Error('no ray gets through')
  const waves = waveNodes(Math.min(rings.beamRadiusUm, other.beamRadiusUm), 12)
  const spectrum = ringSpectrum(other, waves.q)

  test('skew rays and the fan in one plane give the same coupling', () => {
    const exact =
      -10 * Math.log10(coupledBy(ringSpectrum(rings, waves.q), spectrum, wavesOver(waves, STRETCH_UM, K)))
    expect(couple(fieldOf(FAR, { x: AXIS, y: AXIS }, ball))).toBeCloseTo(exact, 2)
    const round = roundLookup(spectrum, waves, other.beamRadiusUm, STRETCH_UM, K)
    expect(-10 * Math.log10(coupledPoints(pointsOfRings(rings, 18), round, K))).toBeCloseTo(exact, 3)
  })

  test('the same holds for fields that are shifted and tilted against each other', () => {
    const round = roundLookup(spectrum, waves, other.beamRadiusUm, STRETCH_UM, K)
    const far = fieldOf(FAR, { x: AXIS, y: AXIS }, ball)
    for (const [shift, tilt] of [
      [30, 0],
      [-20, 0.004],
      [0, -0.006],
    ] as const) {
      const move = { shiftXUm: shift, shiftYUm: 5, tiltXRad: 0.001, tiltYRad: tilt }
      const byRings = -10 * Math.log10(coupledPoints(pointsOfRings(rings, 18), round, K, move))
      expect(Math.abs(couple(far, move) - byRings)).toBeLessThan(0.005)
    }
  })
})

describe('what geometry leaves unchanged', () => {
  const straight = couple(fieldOf(FAR, { x: AXIS, y: AXIS }, ball))

  test('a ball may turn about its middle', () => {
    const turned = fieldOf(FAR, { x: AXIS, y: AXIS }, { ...ball, tiltXRad: 0.06, tiltYRad: -0.04 })
    expect(couple(turned)).toBeCloseTo(straight, 8)
  })

  test('guide and lens moved together shift the beam and do nothing else', () => {
    const moved = fieldOf(FAR, { x: { heightUm: 9, slopeRad: 0 }, y: AXIS }, { ...ball, offsetXUm: 9 })
    const shift = { shiftXUm: -9, shiftYUm: 0, tiltXRad: 0, tiltYRad: 0 }
    expect(couple(moved)).toBeCloseTo(couple(fieldOf(FAR, { x: AXIS, y: AXIS }, ball), shift), 8)
  })

  test.each([
    ['x', 0.004],
    ['y', -0.006],
  ] as const)('guide and lens turned together in %s tilt the beam', (axis, angle) => {
    // About the middle of the plano-convex lens, which itself is no ball: only the frame turns.
    const half = PLANO.thicknessUm / 2
    const far = mode(10.4, 880)
    const chief = { heightUm: -angle * half, slopeRad: angle }
    const turned = fieldOf(
      far,
      axis === 'x' ? { x: chief, y: AXIS } : { x: AXIS, y: chief },
      axis === 'x' ? { ...planoConvex, tiltXRad: angle } : { ...planoConvex, tiltYRad: angle },
    )
    const shift = -angle * (half + STRETCH_UM)
    const still = { shiftXUm: 0, shiftYUm: 0, tiltXRad: 0, tiltYRad: 0 }
    const move =
      axis === 'x'
        ? { ...still, shiftXUm: shift, tiltXRad: angle }
        : { ...still, shiftYUm: shift, tiltYRad: angle }
    expect(couple(turned)).toBeCloseTo(couple(fieldOf(far, { x: AXIS, y: AXIS }, planoConvex), move), 2)
  })
})

describe('coma', () => {
  /**
   * Path that a displaced source adds per um, as a function of where the ray leaves. Hamilton's characteristic function (M. Born
   * and E. Wolf, Principles of Optics, 7th ed., sect. 4.1; from memory): its derivatives are the ray's direction cosines at both
   * ends. The place is counted from the chief ray, which moves by the matrix's a. Axial rays by the formulas of one flat and
   * one spherical face.
   */
  function added(h: number): { readonly outUm: number; readonly perUm: number } {
    const { index: n, radiusUm: R, thicknessUm: t } = PLANO
    const sineIn = h / n
    const slope = Math.tan(Math.asin(sineIn))
    const y0 = NEAR.distanceUm * Math.tan(Math.asin(h))
    // Centre of the convex face: z = t - R. Where the ray inside meets the sphere.
    const [px, pz, dx, dz] = [y0, 0, Math.sin(Math.atan(slope)), Math.cos(Math.atan(slope))]
    const [cx, cz] = [px, pz - (t - R)]
    const b = cx * dx + cz * dz
    const along = -b + Math.sqrt(b * b - (cx * cx + cz * cz - R * R))
    const [x, z] = [px + along * dx, pz + along * dz]
    const [nx, nz] = [x / R, (z - (t - R)) / R]
    const cosine = dx * nx + dz * nz
    const refracted = Math.sqrt(1 - n * n * (1 - cosine * cosine))
    const [ox, oz] = [n * dx + (refracted - n * cosine) * nx, n * dz + (refracted - n * cosine) * nz]
    return { outUm: x + ((t - z) * ox) / oz, perUm: planoConvex.matrix.a * ox - h }
  }

  test('of a displaced guide is what the lens offends against the sine condition', () => {
    const { p } = comaOf({ ...planoConvex, lens: planoConvex.shape, mode: NEAR })
    const w = near.beamRadiusUm
    // Displacement x slope per um of height, near the axis: what a lens without coma adds.
    const small = added(1e-4)
    const perHeight = small.perUm / small.outUm
    for (const sine of [0.06, 0.09, 0.12]) {
      const { outUm, perUm } = added(sine)
      const expected = perUm - perHeight * outUm
      const u = outUm / w
      const computed = u * (p[0] + u * u * (p[1] + u * u * p[2]))
      expect(computed / expected).toBeGreaterThan(0.93)
      expect(computed / expected).toBeLessThan(1.07)
    }
  })
})
