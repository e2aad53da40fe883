// Skew rays through displaced and tilted lenses: the fan in one plane, closed forms of Gaussian beams, what geometry leaves unchanged,
// and the sine condition.

import { describe, expect, test } from 'vitest'
import { jointEfficiency } from '../../../src/optics'
import {
  collimatedField,
  coupledBy,
  gaussianBehind,
  ringSpectrum,
  waveNodes,
  wavesOver,
} from '../../../src/optics/lens/collimatedField'
import type { ChiefRay, PlacedLens } from '../../../src/optics/lens/placedLens'
import { ringPupil, squarePupil } from '../../../src/optics/lens/pupil'
import { type BeamMove, coupledSkew, moveBetween } from '../../../src/optics/lens/skewCoupling'
import { type SkewField, skewField } from '../../../src/optics/lens/skewField'
import { BALL, PLANO_CONVEX } from '../../support/lensPair'

const WAVELENGTH_UM = 1.55
const K = (2 * Math.PI) / WAVELENGTH_UM
const STRETCH_UM = 2800
const IN_LINE = { mediumIndex: 1, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
const AXIS = { heightUm: 0, slopeRad: 0 }
const ON_AXIS: ChiefRay = { x: AXIS, y: AXIS }
const STILL: BeamMove = { shiftXUm: 0, shiftYUm: 0, tiltXRad: 0, tiltYRad: 0 }

const ball: PlacedLens = { ...BALL, ...IN_LINE }
const PLANO = { index: 1.444, radiusUm: 500, thicknessUm: 500 }
const planoConvex: PlacedLens = { ...PLANO_CONVEX, ...IN_LINE }

const mode = (mfdUm: number, distanceUm: number) => ({
  wavelengthUm: WAVELENGTH_UM,
  waistRadiusUm: mfdUm / 2,
  distanceUm,
})
const NEAR = mode(10.4, 891)
const FAR = mode(3, 27.5)
const RINGS = ringPupil(18, 14, 2.5)

function fieldOf(
  of: ReturnType<typeof mode>,
  chief: ChiefRay,
  lens: PlacedLens,
  pupil: Parameters<typeof skewField>[3] = RINGS,
): SkewField {
  const field = skewField(of, chief, lens, pupil)
  if (field === null) throw new Error('no ray gets through')
  return field
}
const near = fieldOf(NEAR, ON_AXIS, planoConvex)
const couple = (far: SkewField, move: BeamMove = moveBetween(near, far, STRETCH_UM)) =>
  -10 * Math.log10(coupledSkew(near, far, STRETCH_UM, K, 1, move))

test.each([
  ['square', squarePupil(27)],
  ['rings', ringPupil(14, 10, 2.5)],
] as const)('the rays of a %s carry the power of the mode', (_name, pupil) => {
  for (const lens of [planoConvex, { ...planoConvex, shape: null }]) {
    const { power } = fieldOf(NEAR, ON_AXIS, lens, pupil)
    expect(power.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 4)
  }
})

describe('in line', () => {
  const rings = collimatedField(NEAR, planoConvex.shape as never, planoConvex.matrix)
  const other = collimatedField(FAR, ball.shape as never, ball.matrix)
  if (rings === null || other === null) throw new Error('no ray gets through')
  const waves = waveNodes(Math.min(rings.beamRadiusUm, other.beamRadiusUm), 12)

  test('skew rays and modes give the coupling of the fan in one plane and its conical waves', () => {
    const exact = coupledBy(
      ringSpectrum(rings, waves.q),
      ringSpectrum(other, waves.q),
      wavesOver(waves, STRETCH_UM, K),
    )
    expect(Math.abs(couple(fieldOf(FAR, ON_AXIS, ball)) + 10 * Math.log10(exact))).toBeLessThan(0.002)
  })
})

describe('without faces', () => {
  const bare = (lens: PlacedLens, placed: Partial<PlacedLens> = {}): PlacedLens => ({
    ...lens,
    shape: null,
    ...placed,
  })
  const waistOf = (of: ReturnType<typeof mode>, lens: PlacedLens) => {
    const { radiusUm, curvaturePerUm } = gaussianBehind(lens.matrix, of, 1)
    const spread = 2 / (K * radiusUm ** 2)
    const size = curvaturePerUm ** 2 + spread ** 2
    return { mfdUm: 2 * Math.sqrt((2 * spread) / size / K), behindUm: curvaturePerUm / size }
  }

  test.each([
    [0, 0],
    [30, 0.002],
    [-15, -0.005],
  ])(
    'beams shifted by %d um and tilted by %d couple as in the closed form of two Gaussian modes',
    (shift, tilt) => {
      const [one, two] = [waistOf(NEAR, planoConvex), waistOf(FAR, ball)]
      const efficiency = jointEfficiency({
        wavelengthUm: WAVELENGTH_UM,
        index: 1,
        emitterMfdXUm: one.mfdUm,
        emitterMfdYUm: one.mfdUm,
        receiverMfdXUm: two.mfdUm,
        receiverMfdYUm: two.mfdUm,
        // Carried to the plane of the second beam's waist, whose light comes the other way.
        offsetXUm: shift + tilt * (STRETCH_UM + two.behindUm),
        offsetYUm: 0,
        gapUm: 0,
        tiltXRad: tilt,
        tiltYRad: 0,
        rollRad: 0,
        waistXUm: -one.behindUm - STRETCH_UM - two.behindUm,
        waistYUm: -one.behindUm - STRETCH_UM - two.behindUm,
      })
      const move = { ...STILL, shiftXUm: shift, tiltXRad: tilt }
      const [first, second] = [fieldOf(NEAR, ON_AXIS, bare(planoConvex)), fieldOf(FAR, ON_AXIS, bare(ball))]
      expect(coupledSkew(first, second, STRETCH_UM, K, 1, move) / efficiency).toBeCloseTo(1, 4)
      const turned = { ...STILL, shiftYUm: shift, tiltYRad: tilt }
      expect(coupledSkew(first, second, STRETCH_UM, K, 1, turned) / efficiency).toBeCloseTo(1, 4)
    },
  )

  test('chief rays follow the matrix of a displaced and tilted lens', () => {
    const { chief } = fieldOf(FAR, { x: { heightUm: 2, slopeRad: 0 }, y: AXIS }, bare(ball, { offsetXUm: 2 }))
    expect(chief.x.heightUm).toBeCloseTo(2, 12)
    expect(chief.x.slopeRad).toBeCloseTo(0, 12)
    const first = fieldOf(NEAR, { x: { heightUm: 3, slopeRad: 0.01 }, y: AXIS }, bare(planoConvex))
    const second = fieldOf(FAR, { x: AXIS, y: { heightUm: 1, slopeRad: 0.02 } }, bare(ball))
    const move = moveBetween(first, second, STRETCH_UM)
    expect(move.shiftXUm).toBeCloseTo(first.chief.x.heightUm, 12)
    expect(move.tiltXRad).toBeCloseTo(first.chief.x.slopeRad, 12)
    const { heightUm, slopeRad } = second.chief.y
    expect(move.shiftYUm).toBeCloseTo(-heightUm - STRETCH_UM * slopeRad, 12)
    expect(move.tiltYRad).toBeCloseTo(slopeRad, 12)
  })
})

describe('what geometry leaves unchanged', () => {
  const straight = couple(fieldOf(FAR, ON_AXIS, ball))

  test('a ball may turn about its middle', () => {
    const turned = fieldOf(FAR, ON_AXIS, { ...ball, tiltXRad: 0.06, tiltYRad: -0.04 })
    expect(couple(turned, STILL)).toBeCloseTo(straight, 8)
  })

  test('guide and lens moved together shift the beam and do nothing else', () => {
    const moved = fieldOf(FAR, { x: { heightUm: 9, slopeRad: 0 }, y: AXIS }, { ...ball, offsetXUm: 9 })
    expect(couple(moved)).toBeCloseTo(couple(fieldOf(FAR, ON_AXIS, ball), { ...STILL, shiftXUm: -9 }), 8)
    expect(couple(moved, STILL)).toBeCloseTo(straight, 8)
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
    const move =
      axis === 'x'
        ? { ...STILL, shiftXUm: shift, tiltXRad: angle }
        : { ...STILL, shiftYUm: shift, tiltYRad: angle }
    expect(couple(turned)).toBeCloseTo(couple(fieldOf(far, ON_AXIS, planoConvex), move), 2)
  })

  test('a displacement turned by 30 degrees couples as before', () => {
    const off = (angle: number) => {
      const at = (size: number) => ({ heightUm: size, slopeRad: size * 1e-3 })
      return fieldOf(FAR, { x: at(1.2 * Math.cos(angle)), y: at(1.2 * Math.sin(angle)) }, ball)
    }
    const [along, turned] = [couple(off(0)), couple(off(Math.PI / 6))]
    expect(along - straight).toBeGreaterThan(0.5)
    expect(turned).toBeCloseTo(along, 3)
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
    const w = near.beamRadiusUm
    // Displacement x slope per um of height, near the axis: what a lens without coma adds.
    const small = added(1e-4)
    const perHeight = small.perUm / small.outUm
    const displacedUm = 2.6
    const errorAt = (u: number) => {
      const pupil = {
        u: Float64Array.of(u, -u),
        v: Float64Array.of(0, 0),
        area: Float64Array.of(1, 1),
      }
      const field = fieldOf(NEAR, { x: { heightUm: displacedUm, slopeRad: 0 }, y: AXIS }, planoConvex, pupil)
      const [there = 0, back = 0] = field.errorUm
      return { oddUm: (there - back) / 2, u: ((field.xUm[0] ?? 0) - (field.xUm[1] ?? 0)) / 2 / w }
    }
    for (const sine of [0.06, 0.09, 0.12]) {
      const { outUm, perUm } = added(sine)
      const expected = displacedUm * (perUm - perHeight * outUm)
      // The ray that leaves at this height.
      let [low, high] = [0.1, 2.5]
      for (let i = 0; i < 40; i++) {
        const middle = (low + high) / 2
        if (errorAt(middle).u < outUm / w) low = middle
        else high = middle
      }
      const { oddUm } = errorAt(low)
      expect(oddUm / expected, `${sine}`).toBeGreaterThan(0.93)
      expect(oddUm / expected, `${sine}`).toBeLessThan(1.07)
    }
  })
})
