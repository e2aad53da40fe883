// A solved cross-section as a joint's mode, against the overlap on the solver's own graded grid.

import { describe, expect, test } from 'vitest'
import { facetModeSteps } from '../../../src/analysis/crossSection/facetMode'
import { jointByField } from '../../../src/analysis/field/jointField'
import { wantedSection } from '../../../src/analysis/field/portShape'
import { sectionSolver } from '../../../src/analysis/field/solvedSections'
import { evaluateCandidate } from '../../../src/analysis/index'
import { changeEffects } from '../../../src/analysis/revisions/effects'
import { demoProject } from '../../../src/model/index'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'
import { ALIGNED_POSE, type FieldJointSpec, lossDb } from '../../../src/optics/index'

const WAVELENGTH_UM = 1.6537
const fibre = demoProject().fibres[0]!

/** The modes by width: each is solved once. */
const solvedModes = new Map<number, ReturnType<typeof solvedMode>>()

function solved(widthUm: number) {
  const mode = solvedModes.get(widthUm) ?? solvedMode(widthUm)
  solvedModes.set(widthUm, mode)
  return mode
}

function solvedMode(widthUm: number) {
  const section = newCrossSection(widthUm, 0.2)
  const steps = facetModeSteps({ section, wavelengthUm: WAVELENGTH_UM, fibre, cells: { x: 100, y: 76 } })
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value
}

function jointWith({ coupling }: ReturnType<typeof solvedMode>, powerShare = coupling.powerShare) {
  const plain = { tip: null, stretchX: 1, stretchY: 1 }
  // The core of the demo's standard fibre.
  const spec: FieldJointSpec = {
    emitter: { ...plain, mode: { kind: 'step index', coreRadiusUm: 4.1, na: 0.125 } },
    receiver: {
      ...plain,
      mode: { kind: 'sampled', ...coupling, powerShare, key: `${coupling.field.dxUm} ${powerShare}` },
    },
    wavelengthUm: WAVELENGTH_UM,
    index: 1,
    propagation: 'exact',
  }
  return (offsetYUm: number) => lossDb(jointByField(spec, { ...ALIGNED_POSE, offsetYUm }).efficiency)
}

describe('the mode of a cross-section in a joint', () => {
  test.each([0.45, 0.6, 0.9])('%f um wide loses what the solver says, to 0.01 dB', (widthUm) => {
    const mode = solved(widthUm)
    const loss = jointWith(mode)
    const positions = Array.from({ length: 11 }, (_, i) => (i - 5) / 10)
    const least = Math.min(...positions.map(loss))
    // A window that cuts the tails at 2 % of the amplitude loses 0.1 to 0.4 dB more.
    expect(Math.abs(least - mode.fibreLoss!.fieldDb)).toBeLessThan(0.01)
  })

  test('has fallen to a thousandth at the edge of its samples', () => {
    const { re, nx } = solved(0.6).coupling.field
    const edge = re.filter((_, i) => i < nx || i >= re.length - nx || i % nx === 0 || i % nx === nx - 1)
    expect(Math.max(...edge.map(Math.abs))).toBeLessThan(1e-3 * Math.max(...re))
  })

  test('that holds half of its power in the other polarisation loses 3.01 dB more', () => {
    const mode = solved(0.6)
    expect(jointWith(mode, 0.5)(0) - jointWith(mode, 1)(0)).toBeCloseTo(10 * Math.log10(2), 9)
  })
})

describe('a project solved on the spot', () => {
  const refused: string[] = []
  /** It knows the modes that it has solved. */
  const solve = sectionSolver((name, reason) => refused.push(`${name}: ${reason}`))

  function withSection(widthUm: number) {
    const project = structuredClone(demoProject())
    const facet = project.facets[0]!
    facet.crossSection = newCrossSection(widthUm, 0.2)
    facet.modeShape = { kind: 'cross-section' }
    return project
  }

  test('uses the mode in its budget, and solves a cross-section once', () => {
    const project = withSection(0.6)
    const evaluation = evaluateCandidate(solve(project), 'cleaved-dry')
    expect(evaluation.lines.some(({ kind }) => kind === 'mode shape')).toBe(true)
    expect(evaluation.validity.some(({ message }) => message.includes('not solved yet'))).toBe(false)
    expect(solve(project).facets[0]?.modeShape).toEqual(solve(project).facets[0]?.modeShape)
    expect(refused).toEqual([])
    // The project itself never holds samples.
    expect(project.facets[0]?.modeShape).toEqual({ kind: 'cross-section' })
  })

  test('reports once why a cross-section has no mode, and leaves its facet as it is', () => {
    const project = withSection(0.6)
    // A core of what surrounds it guides nothing.
    project.facets[0]!.crossSection!.cores[0]!.index = { kind: 'material', material: 'fused silica' }
    const refused: string[] = []
    const solve = sectionSolver((name, reason) => refused.push(`${name}: ${reason}`))
    expect(solve(project).facets).toEqual(project.facets)
    solve(project)
    expect(refused).toHaveLength(1)
    expect(refused[0]).toMatch(/^Silicon-nitride facet: .*index/)
  })

  test('compares revisions by the modes of all their states, and says where one is not solved', () => {
    const [narrow, wide] = [withSection(0.6), withSection(0.9)]
    const effects = changeEffects(narrow, wide, 'cleaved-dry', solve)
    const loss = (project: typeof wide) => evaluateCandidate(solve(project), 'cleaved-dry').nominalDb
    expect(effects.before).toMatchObject({ lossDb: loss(narrow), awaitsMode: false })
    expect(effects.after).toMatchObject({ lossDb: loss(wide), awaitsMode: false })
    expect(effects.effects.map(({ alone }) => alone.lossDb)).toEqual([loss(wide)])
    expect(changeEffects(narrow, wide, 'cleaved-dry').after.awaitsMode).toBe(true)
  })

  test('wants nothing of a facet that is said to be Gaussian', () => {
    const [facet] = withSection(0.6).facets
    expect(wantedSection({ ...facet!, modeShape: { kind: 'gaussian' } }, WAVELENGTH_UM)).toBeNull()
    expect(wantedSection(facet!, WAVELENGTH_UM)?.section).toBe(facet!.crossSection)
  })
})
