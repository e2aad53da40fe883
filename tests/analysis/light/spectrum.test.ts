import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate } from '../../../src/analysis/index'
import { spectrum } from '../../../src/analysis/light/spectrum'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { stepIndexMode } from '../../../src/optics/index'
import { fiveJointProject } from '../support/fiveJoints'

function spectrumOf(project: Project, id: string, band?: readonly [number, number], points?: number) {
  const result = spectrum(project, id, band, points)
  if (!result.ok) throw new Error(result.issues.map((issue) => issue.message).join(' '))
  return result.value
}

/** The project at another wavelength, guides and alignment as if it were designed there. */
function designedAt(project: Project, wavelengthUm: number): Project {
  const { requirements } = project
  return {
    ...project,
    requirements: {
      ...requirements,
      wavelength: quantityOf(wavelengthUm, 'um'),
      wavelengthMin: undefined,
      wavelengthMax: undefined,
    },
  }
}

describe('a spectrum', () => {
  test('passes through the budget at the project wavelength', () => {
    for (const { id } of demoProject().candidates) {
      const found = spectrumOf(demoProject(), id)
      const nominal = evaluateCandidate(demoProject(), id).nominalDb
      expect(found.designDb).toBeCloseTo(nominal, 6)
      expect(found.lossesDb[100]).toBeCloseTo(nominal, 6)
    }
  })

  test('of a joint aligned at a wavelength where its core guides no usable mode is refused in words', () => {
    const demo = demoProject()
    const { wavelengthMin, wavelengthMax } = demo.requirements
    const requirements = { ...designedAt(demo, 1).requirements, wavelengthMin, wavelengthMax }
    const result = spectrum({ ...demo, requirements }, 'high-na-bonded')
    expect(result.ok ? '' : result.issues.map(({ message }) => message).join()).toBe(
      'the spectrum from 1650.7 to 1656.7 nm extends beyond the data of a part: a waveguide has no usable mode at some wavelength of the band or at the wavelength of the project',
    )
  })

  // With square faces nothing is turned, so that a design at the other wavelength is the same chain: the slow way.
  test('is what the budget says when the project is moved to each wavelength', () => {
    const project = demoProject()
    const found = spectrumOf(project, 'cleaved-dry', [1.5, 1.68], 7)
    for (const [i, wavelengthUm] of found.wavelengthsUm.entries()) {
      const slow = evaluateCandidate(designedAt(project, wavelengthUm), 'cleaved-dry').nominalDb
      expect(found.lossesDb[i]).toBeCloseTo(slow, 5)
    }
  })

  test('follows the exact fibre mode: the mismatch at 1.5 um is that of the LP01 mode there', () => {
    const found = spectrumOf(demoProject(), 'cleaved-dry', [1.5, 1.68])
    const { bestGaussianMfdUm: mfd } = stepIndexMode({ coreRadiusUm: 4.1, na: 0.125, wavelengthUm: 1.5 })
    const axis = (facetUm: number) => (2 * mfd * facetUm) / (mfd ** 2 + facetUm ** 2)
    const byHand = -10 * Math.log10(axis(3.4) * axis(2.8))
    const mismatch = found.parts.find((part) => part.kind === 'mode mismatch')
    expect(mismatch?.lossesDb[0]).toBeCloseTo(byHand, 6)
  })

  test('has parts that add up to the total', () => {
    const found = spectrumOf(fiveJointProject(), 'five-joints', [1.6, 1.68])
    for (const [i, wavelengthUm] of found.coarseUm.entries()) {
      const sum = found.parts.reduce((total, part) => total + (part.lossesDb[i] ?? 0), 0)
      const at = found.wavelengthsUm.findIndex((each) => Math.abs(each - wavelengthUm) < 1e-9)
      if (at >= 0) expect(sum).toBeCloseTo(found.lossesDb[at] ?? 0, 8)
    }
  })

  test('names least and worst of the single pass as the budget does, and beside them those with round trips', () => {
    const found = spectrumOf(demoProject(), 'cleaved-dry', [1.2, 1.68], 401)
    const { ripples } = evaluateCandidate(demoProject(), 'cleaved-dry')
    expect(found.rippleDb).toBeGreaterThan(0.28)
    expect(found.rippleDb).toBeLessThan((ripples[0]?.peakToPeakDb ?? 0) * 0.6)
    expect(found.rippledWorstDb).toBe(Math.max(...found.rippledDb))
    // A gap at a ripple maximum over the whole band: with round trips even the worst is below the single pass.
    const project = structuredClone(demoProject())
    const own = project.candidates[0]?.chain.find((each) => each.kind === 'gap')
    if (own?.kind !== 'gap') throw new Error('no gap')
    own.gap.value = 5
    const crest = spectrumOf(project, 'cleaved-dry', [1.6507, 1.6567])
    expect(crest.rippledWorstDb).toBeLessThan(crest.leastDb)
    expect(crest.worstDb).toBeGreaterThanOrEqual(crest.leastDb)
    expect(crest.worstDb).toBeCloseTo(evaluateCandidate(project, 'cleaved-dry').band?.worstDb ?? 0, 6)
  })

  test('measures bandwidths from the minimum loss, and reports where they exceed the spectrum', () => {
    const found = spectrumOf(demoProject(), 'cleaved-dry', [1.4, 1.68])
    const [half, whole] = found.bandwidths
    expect((half?.toUm ?? 0) - (half?.fromUm ?? 0)).toBeLessThan((whole?.toUm ?? 0) - (whole?.fromUm ?? 0))
    expect(half?.openBelow).toBe(true)
    expect(half?.openAbove).toBe(false)
    const edge = half?.toUm ?? 0
    const at = found.wavelengthsUm.findIndex((each) => each > edge)
    expect(found.lossesDb[at] ?? 0).toBeGreaterThan(found.leastDb + 0.5)
    expect(found.lossesDb[at - 1] ?? 9).toBeLessThanOrEqual(found.leastDb + 0.5)
  })

  test('keeps the pointing of the project wavelength: with angled faces another wavelength is tilted', () => {
    const project = demoProject()
    const gap = project.candidates[0]?.chain[1]
    if (gap?.kind === 'gap') {
      gap.nearFaceAngle = quantityOf(12, 'deg')
      gap.nearCoating = undefined
    }
    const found = spectrumOf(project, 'cleaved-dry', [1.3, 1.68], 5)
    const redesigned = evaluateCandidate(designedAt(project, 1.3), 'cleaved-dry').nominalDb
    expect(found.lossesDb[0]).toBeGreaterThan(redesigned + 1e-5)
    expect(found.parts.some((part) => part.kind === 'tilt')).toBe(true)
  })
})

describe('what disperses', () => {
  test('a facet mode as a power of the wavelength, and at two wavelengths, agree where they must', () => {
    const withLaw = (law: NonNullable<Project['facets'][number]['overWavelength']>) => {
      const project = demoProject()
      const [facet] = project.facets
      if (facet !== undefined) facet.overWavelength = law
      return spectrumOf(project, 'cleaved-dry', [1.6, 1.66], 3)
    }
    const linear = withLaw({ kind: 'power law', exponent: quantityOf(1, '1') })
    const point = (um: number) => ({
      wavelength: quantityOf(um, 'um'),
      mfdX: quantityOf((3.4 * um) / 1.6537, 'um'),
      mfdY: quantityOf((2.8 * um) / 1.6537, 'um'),
    })
    const points = withLaw({ kind: 'points', points: [point(1.7), point(1.5)] })
    for (const i of [0, 1, 2]) expect(points.lossesDb[i]).toBeCloseTo(linear.lossesDb[i] ?? 0, 9)
    const constant = withLaw({ kind: 'power law', exponent: quantityOf(0, '1') })
    expect(constant.lossesDb[0]).not.toBeCloseTo(linear.lossesDb[0] ?? 0, 3)
  })

  test('what nobody has stated is held constant and named; what is beyond its points is extrapolated and named', () => {
    const project = demoProject()
    expect(spectrumOf(project, 'cleaved-dry').notes[0]).toContain('held constant: Silicon-nitride facet')
    const [facet] = project.facets
    const point = (um: number) => ({
      wavelength: quantityOf(um, 'um'),
      mfdX: quantityOf(3.4, 'um'),
      mfdY: quantityOf(2.8, 'um'),
    })
    if (facet !== undefined) facet.overWavelength = { kind: 'points', points: [point(1.65), point(1.66)] }
    expect(spectrumOf(project, 'cleaved-dry', [1.6, 1.66]).notes[0]).toMatch(
      /^Extrapolated: .*known from 1650 to 1660 nm/,
    )
  })

  test('a material outside the range of its dispersion data is refused by name and range, never used', () => {
    const result = spectrum(demoProject(), 'cleaved-dry', [1.6, 2.51])
    expect(result.ok).toBe(false)
    if (!result.ok) {
      expect(result.issues[0]?.message).toContain('Air')
      expect(result.issues[0]?.message).toContain('must be 230 to 2500 nm')
    }
  })

  test('an empty band is refused', () => {
    expect(spectrum(demoProject(), 'cleaved-dry', [1.6, 1.6]).ok).toBe(false)
  })
})

describe('the requirement over the band', () => {
  const bandVerdict = (project: Project, id: string) =>
    checkRequirements(project, evaluateCandidate(project, id)).find((verdict) => verdict.id === 'band')

  test('is met by the bonded stub and not by the dry fibre, ripple included', () => {
    expect(bandVerdict(demoProject(), 'high-na-bonded')?.status).toBe('met')
    const dry = bandVerdict(demoProject(), 'cleaved-dry')
    expect(dry?.status).toBe('not met')
    // Two faces of n = 1.4428 and 1.457 in air, r1 r2 = 0.0337: 20 log(1 + r1 r2) = 0.288 dB at no gap, a little less across 3 µm.
    expect(dry?.reason).toContain('including up to 0.28 dB ripple')
  })

  test('is not asked where no band required, and not known where data end within it', () => {
    expect(bandVerdict(designedAt(demoProject(), 1.6537), 'cleaved-dry')).toBeUndefined()
    const project = demoProject()
    project.requirements.wavelengthMax = quantityOf(2510, 'nm')
    expect(bandVerdict(project, 'cleaved-dry')?.status).toBe('not known')
  })
})
