// Rays through two thin lenses that are decentred and tilted, against heights and slopes by hand (Hecht, Optics, ch. 6).

import { describe, expect, test } from 'vitest'
import { newRelayRecord } from '../../../../src/analysis/path/relay/relayGeometry'
import { relayState } from '../../../../src/analysis/path/relay/relayOptics'
import { relayRays } from '../../../../src/analysis/path/relay/relayRays'
import { thinLens } from '../../../../src/optics/index'

const [FRONT, STRETCH, BACK] = [1200, 3000, 350]
const [F1, F2] = [1000, 300]
const lens = (focalUm: number, offsetXUm: number, offsetYUm: number) => ({
  matrix: thinLens(focalUm),
  ...{ thicknessUm: 0, offsetXUm, offsetYUm, offsetZUm: 0, tiltXRad: 0, tiltYRad: 0 },
})
const relay = {
  ...newRelayRecord(),
  ...{
    wavelengthUm: 1.55,
    mediumIndex: 1.2,
    emitterMfdXUm: 10,
    emitterMfdYUm: 7,
    receiverMfdXUm: 3,
    receiverMfdYUm: 3,
  },
  ...{
    waistXUm: 40,
    waistYUm: -30,
    offsetXUm: 2,
    offsetYUm: -3,
    tiltXRad: 0.002,
    tiltYRad: -0.004,
    rollRad: 0,
  },
  ...{
    frontGapUm: FRONT,
    stretchUm: STRETCH,
    backGapUm: BACK,
    leastBackUm: 0,
    deviceLengthUm: 0,
    deviceIndex: 1,
  },
  lens1: lens(F1, 5, -4),
  lens2: lens(F2, -6, 7),
}
const rays = relayRays(relay, relayState(relay), [null, null])

describe.each([
  ['x', 10, 40, 2, 0.002, 5, -6],
  ['y', 7, -30, -3, -0.004, -4, 7],
] as const)('along %s', (plane, mfdUm, waistUm, offsetUm, tiltRad, lens1Um, lens2Um) => {
  test('eleven rays leave the wavefront at lens 1, and the lenses bend them', () => {
    expect(rays[plane]).toHaveLength(11)
    const rayleigh = (Math.PI * 1.2 * (mfdUm / 2) ** 2) / 1.55
    const distance = FRONT - waistUm
    for (const [i, { zUm, heightUm }] of rays[plane].entries()) {
      // Height in radii of the beam at lens 1, whose wavefront is a sphere of radius z + zR^2 / z there (Kogelnik & Li).
      const onWave = -1.5 + 0.3 * i
      const height = onWave * (mfdUm / 2) * Math.hypot(1, distance / rayleigh)
      const slope = Math.asin(height / (distance + rayleigh ** 2 / distance))
      const start = offsetUm + height - FRONT * Math.tan(slope)
      const at1 = start + FRONT * Math.tan(slope + tiltRad)
      const slope1 = Math.tan(slope + tiltRad) - (at1 - lens1Um) / F1
      const at2 = at1 + STRETCH * slope1
      const slope2 = slope1 - (at2 - lens2Um) / F2
      expect(zUm).toEqual(
        [0, FRONT, FRONT + STRETCH, FRONT + STRETCH + BACK].map((z) => expect.closeTo(z, 9)),
      )
      expect(heightUm).toEqual([start, at1, at2, at2 + BACK * slope2].map((each) => expect.closeTo(each, 6)))
    }
  })
})

test('a tilted thin lens bends as one that is upright, to first order, at the place where the ray meets it', () => {
  const tilted = { ...relay, lens1: { ...relay.lens1, tiltXRad: 0.01 } }
  const [before, after] = [rays.x[8], relayRays(tilted, relayState(tilted), [null, null]).x[8]]
  // The lens slopes towards +x about (5 um, FRONT): a ray at height h meets it h - 5 um times its slope earlier.
  const h = (before?.heightUm[1] ?? 0) - 5
  expect(after?.zUm[1]).toBeCloseTo(FRONT - 0.01 * h, 1)
  expect(after?.heightUm[1]).toBeCloseTo(before?.heightUm[1] ?? Number.NaN, 0)
  expect(h).toBeGreaterThan(50)
})

test('no ray is drawn whose wavefront is steeper than can be', () => {
  const steep = { ...relay, emitterMfdXUm: 0.5, frontGapUm: 30 }
  const drawn = relayRays(steep, relayState(steep), [null, null])
  expect(drawn.x.length).toBeLessThan(11)
  expect(drawn.y).toHaveLength(11)
})
