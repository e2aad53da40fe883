// Cores of profiles, and of diffusion, against their formulas and against straight lines by hand.

import { describe, expect, test } from 'vitest'
import { diffusedCore } from '../../../src/optics/modeSolver/cores/gradedCore'
import { profiledCore, profileReachUm, profileShare } from '../../../src/optics/modeSolver/cores/tabledCore'

const PROFILE = { distancesUm: [0, 1, 2, 4, 7], shares: [8, 6, 5, 1, 0] }

describe('a profile', () => {
  test.each([
    [0, 8 / 8],
    [0.25, 7.5 / 8],
    [1, 6 / 8],
    [1.5, 5.5 / 8],
    [3, 3 / 8],
    [4, 1 / 8],
    [5.5, 0.5 / 8],
    [7, 0],
    [7.1, 0],
    [-0.1, 0],
  ])('at %f µm is %f of its greatest step', (distance, share) => {
    expect(profileShare(PROFILE)(distance)).toBeCloseTo(share, 12)
  })

  test('of two entries is one straight line', () => {
    expect(profileShare({ distancesUm: [0, 4], shares: [2, 1] })(3)).toBeCloseTo(0.625, 12)
  })

  test('reaches to where it last falls to 1/e, or to its end', () => {
    // From 5 at 2 µm to 1 at 4 µm by 2 a µm: 8 / e lies this far beyond 2 µm.
    expect(profileReachUm(PROFILE)).toBeCloseTo(2 + (5 - 8 / Math.E) / 2, 12)
    expect(profileReachUm({ distancesUm: [0, 1, 2], shares: [1, 0.9, 0.5] })).toBe(2)
    // A dip inside does not end it.
    expect(profileReachUm({ distancesUm: [0, 1, 2, 3], shares: [1, 0.1, 0.8, 0] })).toBeCloseTo(
      2 + (0.8 - 1 / Math.E) / 0.8,
      12,
    )
  })

  test.each([
    ['not from 0', [0.5, 1], [1, 0], 'profile.distancesUm[0]'],
    ['falling back', [0, 2, 1], [1, 0.5, 0], 'profile.distancesUm[2]'],
    ['twice at one place', [0, 1, 1], [1, 0.5, 0], 'profile.distancesUm[2]'],
    ['of one entry', [0], [1], 'profile.distancesUm.length'],
    ['without a share for each', [0, 1], [1], 'profile.distancesUm.length'],
    ['of nothing', [0, 1], [0, 0], 'profile.shares'],
  ])('is refused %s', (_, distancesUm, shares, field) => {
    expect(() => profileReachUm({ distancesUm, shares })).toThrow(field)
  })
})

describe('a core of profiles', () => {
  const size = { index: 1.46, xUm: 3, bottomUm: -6, widthUm: 10, heightUm: 4 }
  const reach = 2 + (5 - 8 / Math.E) / 2

  test('has each stretched to its own 1/e extent, even about its middle and down from the surface', () => {
    const core = profiledCore({ ...size, along: PROFILE, depth: PROFILE })
    const [byX, byY] = [5 / reach, 4 / reach]
    for (const [across, down] of [
      [0, 0],
      [1, 0],
      [0, 2],
      [3, 1.5],
    ] as const) {
      const share = profileShare(PROFILE)(across) * profileShare(PROFILE)(down)
      expect(core.share(3 + across * byX, -2 - down * byY)).toBeCloseTo(share, 12)
      expect(core.share(3 - across * byX, -2 - down * byY)).toBeCloseTo(share, 12)
    }
    expect(core.share(3, -1.99)).toBe(0)
    expect(core.reach.leftUm).toBeCloseTo(3 - 7 * byX, 9)
    expect(core.reach.rightUm).toBeCloseTo(3 + 7 * byX, 9)
    expect(core.reach.bottomUm).toBeCloseTo(-2 - 7 * byY, 9)
    expect(core.reach.topUm).toBe(-2)
  })

  test('is Gaussian where it has none', () => {
    const core = profiledCore({ ...size, along: null, depth: null })
    // 1/e at half the width, and at the height below the surface.
    expect(core.share(8, -2)).toBeCloseTo(1 / Math.E, 12)
    expect(core.share(3, -6)).toBeCloseTo(1 / Math.E, 12)
    expect(core.share(core.reach.rightUm, -2)).toBeCloseTo(1e-6, 12)
    expect(core.share(3, core.reach.bottomUm)).toBeCloseTo(1e-6, 12)
  })
})

describe('a diffused core', () => {
  const size = { index: 1.46, xUm: 3, bottomUm: -6, widthUm: 10, heightUm: 4 }
  // M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, table 7.1: erfc(0.5), erfc(1).
  test.each([
    ['buried Gaussian', -4, Math.exp(-0), Math.exp(-((1 / 2) ** 2)), -3],
    ['surface Gaussian', -2, 1, Math.exp(-(0.5 ** 2)), -4],
    ['surface erfc', -2, 1, 0.4795001222, -4],
  ] as const)(
    '%s has its peak and its fall where its formula has them',
    (depth, peakUm, peak, fallen, atUm) => {
      const { share, reach } = diffusedCore({ ...size, depth })
      expect(share(3, peakUm)).toBeCloseTo(peak, 9)
      expect(share(3, atUm)).toBeCloseTo(fallen, 9)
      expect(share(8, peakUm)).toBeCloseTo(peak / Math.E, 9)
      expect(share(1, peakUm)).toBeCloseTo(peak * Math.exp(-(0.4 ** 2)), 9)
      expect(share(reach.leftUm, peakUm)).toBeCloseTo(1e-6, 12)
      expect(share(reach.rightUm, peakUm)).toBeCloseTo(1e-6, 12)
      if (depth === 'buried Gaussian') {
        expect(share(3, reach.topUm)).toBeCloseTo(1e-6, 12)
        expect(share(3, reach.bottomUm)).toBeCloseTo(1e-6, 12)
      } else {
        expect(share(3, -1.99)).toBe(0)
        expect(reach.topUm).toBe(-2)
        expect(share(3, reach.bottomUm)).toBeLessThanOrEqual(1.1e-6)
      }
    },
  )

  test('of erfc has fallen to erfc(1) at its height', () => {
    expect(diffusedCore({ ...size, depth: 'surface erfc' }).share(3, -6)).toBeCloseTo(0.1572992071, 9)
  })
})
