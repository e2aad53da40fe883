// The fan of rays behind a lens: how far it reaches, and the closed form of the Gaussians that it is compared with.

import { describe, expect, test } from 'vitest'
import { jointEfficiency } from '../../../src/optics/index'
import {
  collimatedField,
  coupledGaussians,
  gaussianBehind,
  type LensMode,
} from '../../../src/optics/lens/collimatedField'
import { sphericalFace } from '../../../src/optics/lens/lensShape'
import { traceRay } from '../../../src/optics/lens/traceRay'

const BALL = {
  index: 1.75,
  mediumIndex: 1,
  thicknessUm: 400,
  first: sphericalFace(200),
  last: sphericalFace(-200),
}
/** Ball of radius R: focal length n R / (2 (n - 1)) from its middle. */
const FOCAL_UM = (1.75 * 200) / (2 * 0.75)
const MATRIX = {
  a: 1 - 200 / FOCAL_UM,
  b: 400 - (200 * 200) / FOCAL_UM,
  c: -1 / FOCAL_UM,
  d: 1 - 200 / FOCAL_UM,
}

describe('the fan', () => {
  test('through a ball ends where its rays begin to cross, and takes the power up to there', () => {
    // A mode small enough that its sphere is centred on the waist: rays from a point 33 um in front of the ball.
    const mode = { wavelengthUm: 1.31, waistRadiusUm: 0.9, distanceUm: 33 }
    const field = collimatedField(mode, BALL, MATRIX)
    if (field === null) throw new Error('rays')
    const heightAt = (sine: number, distanceUm: number) => {
      const dz = Math.sqrt(1 - sine * sine)
      const ray = { x: 0, y: 0, z: -distanceUm, dx: sine, dy: 0, dz, path: 0 }
      return traceRay(ray, BALL) ? ray.x : Number.NaN
    }
    // The centre of the sphere, by how far the paraxial beam is wide behind the lens (launchCurvature): within the Rayleigh range of the waist.
    const rayleigh = (Math.PI * mode.waistRadiusUm ** 2) / mode.wavelengthUm
    const front = mode.waistRadiusUm * Math.hypot(1, mode.distanceUm / rayleigh)
    const geometric = Math.sqrt(
      (MATRIX.a + (MATRIX.b * mode.distanceUm) / (mode.distanceUm ** 2 + rayleigh ** 2)) ** 2 +
        ((MATRIX.b * rayleigh) / (mode.distanceUm ** 2 + rayleigh ** 2)) ** 2,
    )
    const curvature = (geometric - MATRIX.a) / MATRIX.b
    let fold = 0
    for (let u = 1e-3, before = 0; u < 3; u += 1e-3, fold = u) {
      const height = heightAt(u * front * curvature, 1 / curvature)
      if (!(height > before)) break
      before = height
    }
    expect(fold).toBeGreaterThan(1)
    expect(fold).toBeLessThan(2.5)
    let [inside, all] = [0, 0]
    for (let u = 5e-4; u * front * curvature < 1 && u < 3; u += 1e-3) {
      const share = u * Math.exp(-2 * u * u) * Math.sqrt(1 - (u * front * curvature) ** 2)
      all += share
      if (u < fold) inside += share
    }
    const power = field.power.reduce((sum, each) => sum + each, 0)
    expect(Math.abs(power - inside / all)).toBeLessThan(1e-4)
    expect(power).toBeLessThan(1 - 1e-4)
  })
})

test('two paraxial beams couple as the closed form of the joint at the waist of one of them says', () => {
  const [wavelengthUm, index] = [1.55, 1.2]
  const k = (2 * Math.PI * index) / wavelengthUm
  const lens = { a: 1, b: 0, c: -1 / 700, d: 1 }
  for (const [distance1, distance2, stretch] of [
    [700, 700, 4000],
    [640, 790, 900],
    [900, 500, 12_000],
  ] as const) {
    const near: LensMode = { wavelengthUm, waistRadiusUm: 5.2, distanceUm: distance1 }
    const far: LensMode = { wavelengthUm, waistRadiusUm: 3.1, distanceUm: distance2 }
    const beam = (mode: LensMode) => {
      const { radiusUm, curvaturePerUm } = gaussianBehind(lens, mode, index)
      return { beamRadiusUm: radiusUm, curvaturePerUm }
    }
    /** Radius of the waist behind the lens and its distance from there, downstream positive. */
    const waist = ({ beamRadiusUm: w, curvaturePerUm: c }: ReturnType<typeof beam>) => {
      const rayleigh = (k * w * w) / 2
      const square = 1 + (rayleigh * c) ** 2
      return { mfdUm: (2 * w) / Math.sqrt(square), atUm: (-c * rayleigh ** 2) / square }
    }
    const [one, two] = [beam(near), beam(far)]
    const [first, second] = [waist(one), waist(two)]
    const wanted = jointEfficiency({
      wavelengthUm,
      index,
      emitterMfdXUm: first.mfdUm,
      emitterMfdYUm: first.mfdUm,
      receiverMfdXUm: second.mfdUm,
      receiverMfdYUm: second.mfdUm,
      offsetXUm: 0,
      offsetYUm: 0,
      gapUm: 0,
      tiltXRad: 0,
      tiltYRad: 0,
      rollRad: 0,
      waistXUm: first.atUm - (stretch - second.atUm),
      waistYUm: first.atUm - (stretch - second.atUm),
    })
    expect(coupledGaussians(one, two, stretch, k)).toBeCloseTo(wanted, 12)
  }
})
