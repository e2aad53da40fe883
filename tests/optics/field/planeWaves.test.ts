// Plane waves that a profile knows, against the transform of its samples on a grid that is fine and wide enough for both.

import { describe, expect, test } from 'vitest'
import { fftPlan, forward2 } from '../../../src/numerics/fft/fft2'
import { centredGrid, fillSamples } from '../../../src/optics/field/fieldGrid'
import { gaussianProfile, type ModeProfile, stretchedProfile } from '../../../src/optics/field/modeProfile'
import { profileWaves } from '../../../src/optics/field/profileWaves'
import { stepIndexProfile } from '../../../src/optics/field/stepIndexProfile'
import { tipProfile } from '../../../src/optics/field/tipProfile'

const GAUSSIAN = gaussianProfile({
  mfdXUm: 10.4,
  mfdYUm: 6,
  waistXUm: 30,
  waistYUm: -12,
  wavelengthUm: 1.55,
  index: 1,
})
const ROUND = gaussianProfile({
  mfdXUm: 10.4,
  mfdYUm: 10.4,
  waistXUm: 0,
  waistYUm: 0,
  wavelengthUm: 1.55,
  index: 1,
})
const CORE = stepIndexProfile({ coreRadiusUm: 4.1, na: 0.125, wavelengthUm: 1.55 })

const POSE = { xPerUm: 0.31, yPerUm: -0.12, rollRad: 0 }

/** Greatest difference of the waves as a share of the largest, up to a wavenumber, and that of the power. */
function difference(profile: ModeProfile, points: number, stepUm: number, rollRad = 0, mostPerUm = 1e9) {
  const grid = centredGrid(points, points, stepUm, stepUm)
  const plan = fftPlan(points, points)
  const own = profileWaves(profile, grid, plan, { ...POSE, rollRad })
  const re = new Float64Array(points * points)
  const im = new Float64Array(points * points)
  const squares = fillSamples(
    profile,
    grid,
    { waveXPerUm: POSE.xPerUm, waveYPerUm: POSE.yPerUm, rollRad },
    re,
    im,
  )
  forward2(plan, re, im)
  let worst = 0
  let largest = 0
  for (let i = 0; i < re.length; i++) {
    const perStep = (2 * Math.PI) / (points * stepUm)
    const [kx, ky] = [plan.orderX[i % points] ?? 0, plan.orderY[Math.floor(i / points)] ?? 0]
    if (Math.hypot(kx * perStep + POSE.xPerUm, ky * perStep + POSE.yPerUm) > mostPerUm) continue
    worst = Math.max(worst, Math.hypot((own.re[i] ?? 0) - (re[i] ?? 0), (own.im[i] ?? 0) - (im[i] ?? 0)))
    largest = Math.max(largest, Math.hypot(re[i] ?? 0, im[i] ?? 0))
  }
  return { waves: worst / largest, power: Math.abs(own.squares / squares - 1) }
}

describe('plane waves of a profile are the transform of its samples', () => {
  test.each([
    ['an elliptical Gaussian with its waists elsewhere', GAUSSIAN, 256, 0.3, 1e-9],
    ['a stretched Gaussian', stretchedProfile(GAUSSIAN, 1.2, 0.9), 256, 0.3, 1e-9],
    ['a step-index core', CORE, 512, 0.2, 2e-5],
  ] as const)('%s', (_, profile, points, stepUm, within) => {
    const { waves, power } = difference(profile, points, stepUm)
    expect(waves).toBeLessThan(within)
    expect(power).toBeLessThan(within)
  })

  // Beyond the radius at which a sampled tip is cut off it sends 0.1 % of its power, most of it near grazing.
  test.each([
    [14, 0.3],
    [7, 0.15],
  ])('a lensed tip of %f um, up to 0.8 k', (radiusUm, stepUm) => {
    const face = { radiusUm, indexBefore: 1.468, indexAfter: 1, wavelengthUm: 1.55 }
    const { waves, power } = difference(
      tipProfile(ROUND, face).profile,
      512,
      stepUm,
      0,
      (0.8 * 2 * Math.PI) / 1.55,
    )
    expect(waves).toBeLessThan(3e-3)
    expect(power).toBeLessThan(1.2e-3)
  })

  test('where a profile is rolled, too', () => {
    expect(difference(CORE, 512, 0.2, 0.7).waves).toBeLessThan(2e-5)
    expect(difference(GAUSSIAN, 256, 0.3, 0.7).waves).toBeLessThan(1e-9)
  })
})
