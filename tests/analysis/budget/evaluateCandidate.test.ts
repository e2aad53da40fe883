import { produce } from 'immer'
import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { GapElement } from '../../../src/model/schema/candidate'
import type { Project } from '../../../src/model/schema/project'
import { stepIndexMode } from '../../../src/optics/index'

const IDS = ['cleaved-dry', 'high-na-bonded']

function withGap(project: Project, id: string, change: Partial<GapElement>): Project {
  return {
    ...project,
    candidates: project.candidates.map((candidate) =>
      candidate.id !== id
        ? candidate
        : {
            ...candidate,
            chain: candidate.chain.map((each) => (each.kind === 'gap' ? { ...each, ...change } : each)),
          },
    ),
  }
}

/** A butt joint of two given modes in air, index-matched guides, no gap. */
function buttJoint(fibreUm: number, chipXUm: number, chipYUm: number, wavelengthNm: number): Project {
  const project = withGap(demoProject(), 'cleaved-dry', { gap: quantityOf(0, 'um') })
  const air = { kind: 'material', material: 'air' } as const
  return {
    ...project,
    requirements: { ...project.requirements, wavelength: quantityOf(wavelengthNm, 'nm') },
    fibres: project.fibres.map((fibre) => ({
      ...fibre,
      mode: { kind: 'mfd' as const, mfdX: quantityOf(fibreUm, 'um') },
      index: air,
    })),
    facets: project.facets.map((facet) => ({
      ...facet,
      mfdX: quantityOf(chipXUm, 'um'),
      mfdY: quantityOf(chipYUm, 'um'),
      taperLoss: quantityOf(0, 'dB'),
      index: air,
    })),
  }
}

describe('a budget', () => {
  test('has lines that add up to its total, also when everything is misaligned', () => {
    const bent = withGap(demoProject(), 'high-na-bonded', {
      gap: quantityOf(7, 'um'),
      offsetX: quantityOf(0.6, 'um'),
      offsetY: quantityOf(-0.4, 'um'),
      tiltX: quantityOf(2, 'deg'),
      tiltY: quantityOf(-1, 'deg'),
      roll: quantityOf(20, 'deg'),
      nearFaceAngle: quantityOf(8, 'deg'),
    })
    for (const project of [demoProject(), bent]) {
      for (const id of IDS) {
        const { lines, nominalDb } = evaluateCandidate(project, id)
        const sum = lines.reduce((total, line) => total + line.lossDb, 0)
        expect(Math.abs(sum - nominalDb)).toBeLessThan(1e-9)
        expect(lines.every((line) => Number.isFinite(line.lossDb))).toBe(true)
      }
    }
  })

  // D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703 (formula from memory), and the separable elliptical case.
  test.each([
    [9.2, 3.2, 3.2, 1310, -20 * Math.log10((2 * 9.2 * 3.2) / (9.2 ** 2 + 3.2 ** 2))],
    [5.2, 2.8, 8.0, 1550, 1.17494],
    [3.2, 4.0, 2.6, 1550, 0.200195],
  ])('of a %f um fibre at a %f x %f um facet shows the published mismatch', (fibre, x, y, nm, expected) => {
    const line = evaluateCandidate(buttJoint(fibre, x, y, nm), 'cleaved-dry').lines.find(
      (each) => each.kind === 'mode mismatch',
    )
    expect(line?.lossDb).toBeCloseTo(expected, 5)
  })

  test('computes the mode of a fibre given by its core', () => {
    const { joints } = evaluateCandidate(demoProject(), 'cleaved-dry')
    const mode = stepIndexMode({ coreRadiusUm: 4.1, na: 0.125, wavelengthUm: 1.6537 })
    expect(joints[0]?.joint.emitterMfdXUm).toBeCloseTo(mode.bestGaussianMfdUm, 6) // the optimum is flat: 1e-7 is what a search resolves
  })

  test('says that a standard fibre at a bare 0.4 um waveguide couples less than one per cent (common practice, no source)', () => {
    const { lines } = evaluateCandidate(buttJoint(10.4, 0.4, 0.4, 1550), 'cleaved-dry')
    expect(lines.find((line) => line.kind === 'mode mismatch')?.lossDb).toBeGreaterThan(20)
  })

  test('says that a facet of 5.5 um with taper losses takes roughly half (common practice, no source)', () => {
    const base = buttJoint(10.4, 5.5, 5.5, 1550)
    const project = {
      ...base,
      facets: base.facets.map((facet) => ({ ...facet, taperLoss: quantityOf(1, 'dB') })),
    }
    const arriving = 10 ** (-evaluateCandidate(project, 'cleaved-dry').nominalDb / 10)
    expect(arriving).toBeGreaterThan(0.4)
    expect(arriving).toBeLessThan(0.6)
  })

  test('shows that core diffusion brings the splice to a high-NA fibre to about 0.1 dB, where the abrupt one loses several decibels (common practice, no source)', () => {
    const spliceDb = (basis: 'typed' | 'abrupt') => {
      const project = produce(demoProject(), (draft) => {
        for (const { chain } of draft.candidates) {
          for (const element of chain) if (element.kind === 'splice') element.basis = basis
        }
      })
      return evaluateCandidate(project, 'high-na-bonded').lines.find((line) => line.kind === 'splice')?.lossDb
    }
    expect(spliceDb('typed')).toBeCloseTo(0.1, 1)
    expect(spliceDb('abrupt')).toBeGreaterThan(3)
  })
})

describe('the tolerance totals', () => {
  test('order as nominal, RSS, worst case, and exceed every single contribution', () => {
    for (const id of IDS) {
      const { nominalDb, rootSumSquare, worstCorner } = evaluateCandidate(demoProject(), id)
      expect(rootSumSquare.lossDb).toBeGreaterThan(nominalDb)
      expect(worstCorner.lossDb).toBeGreaterThan(rootSumSquare.lossDb)
      for (const each of rootSumSquare.contributions) {
        expect(each.addedDb).toBeLessThanOrEqual(worstCorner.lossDb - nominalDb + 1e-12)
      }
    }
  })

  test('search signs together: with offset and tilt toleranced across a gap the worst case exceeds the sum of separate searches', () => {
    const still = (value: number, unit: 'um' | 'deg' | 'dB') => quantityOf(value, unit)
    const base = buttJoint(3.2, 3.2, 3.2, 1550)
    const project = withGap(base, 'cleaved-dry', {
      gap: still(10, 'um'),
      offsetX: quantityOf(0, 'um', 'estimate', 0.5),
      offsetY: still(0, 'um'),
      tiltX: quantityOf(0, 'deg', 'estimate', 2),
      tiltY: still(0, 'deg'),
      roll: still(0, 'deg'),
    })
    const { nominalDb, worstCorner, rootSumSquare } = evaluateCandidate(project, 'cleaved-dry')
    const apart = rootSumSquare.contributions.reduce((sum, each) => sum + each.addedDb, 0)
    expect(worstCorner.exhaustive).toBe(true)
    expect(worstCorner.lossDb - nominalDb).toBeGreaterThan(apart)
  })
})

describe('angled end faces', () => {
  const angled = (change: Partial<GapElement>) =>
    withGap(demoProject(), 'cleaved-dry', { nearFaceAngle: quantityOf(8, 'deg'), ...change })

  test('turn the fibre by Snell, so that the pointing error disappears from the tilt line', () => {
    const { joints, lines } = evaluateCandidate(angled({}), 'cleaved-dry')
    const deg = (rad: number) => (rad * 180) / Math.PI
    const expected = deg(Math.asin(1.44327 * Math.sin((8 * Math.PI) / 180))) - 8
    expect(deg(joints[0]?.pointingXRad ?? 0)).toBeCloseTo(-expected, 1)
    expect(lines.find((line) => line.kind === 'tilt')?.lossDb).toBeCloseTo(0, 9)
  })

  test('add tilt when the axes stay parallel', () => {
    const { lines } = evaluateCandidate(angled({ pointing: 'parallel' }), 'cleaved-dry')
    expect(lines.find((line) => line.kind === 'tilt')?.lossDb).toBeGreaterThan(0.3)
  })

  test('raise the return loss of the fibre face', () => {
    const flat = evaluateCandidate(demoProject(), 'cleaved-dry').returnLoss.fibre.incoherentDb ?? 0
    const leaning =
      evaluateCandidate(angled({ farFaceAngle: quantityOf(8, 'deg') }), 'cleaved-dry').returnLoss.fibre
        .incoherentDb ?? 0
    expect(flat).toBeLessThan(15)
    expect(leaning).toBeGreaterThan(flat + 10)
  })
})

describe('what cannot be computed', () => {
  const complaint = (project: Project, id = 'cleaved-dry') => {
    try {
      evaluateCandidate(project, id)
      return ''
    } catch (error) {
      return error instanceof Error ? error.message : ''
    }
  }

  test('is named: an unknown candidate, a wavelength outside a material, an impossible sequence', () => {
    expect(complaint(demoProject(), 'nope')).toContain(
      'design is "nope"; the project has cleaved-dry, high-na-bonded',
    )
    const far = demoProject()
    expect(
      complaint({ ...far, requirements: { ...far.requirements, wavelength: quantityOf(4.5, 'um') } }),
    ).toContain('index of')
    const project = demoProject()
    const [first, ...rest] = project.candidates
    const broken = { ...first!, chain: first!.chain.filter((each) => each.kind !== 'gap') }
    expect(complaint({ ...project, candidates: [broken, ...rest] })).toContain(
      'needs at least a fibre, a joint and a facet',
    )
  })
})
