// A stored cross-section as the solver takes it.

import { describe, expect, test } from 'vitest'
import { opticsSection } from '../../../src/analysis/crossSection/opticsSection'
import { sweepChoices } from '../../../src/analysis/crossSection/sweepVariable'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { crossSectionSchema } from '../../../src/model/schema/crossSection'
import { CORE_PROFILES, type CoreProfile } from '../../../src/model/words/crossSection'

const WAVELENGTH_UM = 1.55

function withProfile(profile: CoreProfile) {
  const section = newCrossSection(6, 4)
  for (const core of section.cores) core.profile = profile
  return section
}

function gradedCore(profile: CoreProfile) {
  const [core] = opticsSection(withProfile(profile), WAVELENGTH_UM).cores
  if (core?.shape !== 'graded') expect.fail(`${profile} is no graded core`)
  return core
}

describe('the index profile of a core', () => {
  test('is uniform where a file says nothing', () => {
    const section = crossSectionSchema.parse(newCrossSection(6, 4))
    expect(opticsSection(section, WAVELENGTH_UM).cores[0]).toMatchObject({ shape: 'trapezoid', widthUm: 6 })
    expect(
      crossSectionSchema.safeParse({ ...section, cores: [{ ...section.cores[0], profile: 'steep' }] })
        .success,
    ).toBe(false)
  })

  test.each([
    // The core of newCrossSection lies on 4 um of oxide: it reaches from 4 to 8 um.
    ['buried Gaussian', 6, 4, Math.exp(-1)],
    ['surface Gaussian', 8, 4, Math.exp(-1)],
    ['surface erfc', 8, 4, 0.157299207],
  ] as const)(
    '%s peaks at %f um, falls to 1/e at half its width, and to its share in depth',
    (profile, peakUm, endUm, share) => {
      const core = gradedCore(profile)
      expect(core.share(0, peakUm)).toBeCloseTo(1, 12)
      expect(core.share(3, peakUm)).toBeCloseTo(Math.exp(-1), 12)
      expect(core.share(0, endUm)).toBeCloseTo(share, 8)
    },
  )

  test.each(['surface Gaussian', 'surface erfc'] as const)('%s adds nothing above the surface', (profile) => {
    expect(gradedCore(profile).share(0, 8.001)).toBe(0)
  })

  test('leaves no side walls to sweep', () => {
    const kinds = (profile: CoreProfile) =>
      sweepChoices(withProfile(profile), WAVELENGTH_UM).map(({ key }) => key)
    expect(kinds('uniform').some((key) => key.startsWith('sidewall'))).toBe(true)
    for (const profile of CORE_PROFILES.slice(1)) {
      expect(kinds(profile).some((key) => key.startsWith('sidewall'))).toBe(false)
    }
  })
})
