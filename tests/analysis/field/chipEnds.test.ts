// An SSC chip whose ends have cross-sections: the same mode as a facet's, seen from either side.

import { beforeAll, describe, expect, test } from 'vitest'
import { facetModeSteps, type SolvedField } from '../../../src/analysis/crossSection/facetMode'
import { modeHolders, withHolders } from '../../../src/analysis/field/modeHolders'
import { wantedSection, withSolvedField } from '../../../src/analysis/field/portShape'
import { evaluateCandidate } from '../../../src/analysis/index'
import { newCrossSection, newGlassSection } from '../../../src/model/parts/newCrossSection'
import { demoProject } from '../../../src/model/project/demoProject'
import { parseProject } from '../../../src/model/project/parseProject'
import { coreValue, quantityOf } from '../../../src/model/quantity/quantity'
import type { CrossSectionEntry } from '../../../src/model/schema/crossSection'
import type { Project } from '../../../src/model/schema/project'

const demo = demoProject()
const WAVELENGTH_UM = coreValue(demo.requirements.wavelength, 'wavelength')
/** A tip above a dense substrate: its mode is not the same upside down. */
const TIP = newCrossSection(0.6, 0.2)
const GLASS = newGlassSection({ x: 9, y: 7 }, WAVELENGTH_UM)

function solved(section: CrossSectionEntry) {
  const cells = { x: 60, y: 60 }
  const steps = facetModeSteps({ section, wavelengthUm: WAVELENGTH_UM, fibre: null, cells })
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value
}

const modes = new Map<string, ReturnType<typeof solved>>()
const modeOf = (section: CrossSectionEntry) => {
  const key = JSON.stringify(section)
  const mode = modes.get(key) ?? solved(section)
  modes.set(key, mode)
  return mode
}

beforeAll(() => {
  modeOf(TIP)
  modeOf(GLASS)
})

/** The project with its modes solved. */
function withModes(project: Project): Project {
  const fieldOf = (section: CrossSectionEntry): SolvedField => modeOf(section).coupling
  const lists = withHolders(project, (holder) => {
    const wanted = wantedSection(holder, WAVELENGTH_UM)
    return wanted === null ? holder : withSolvedField(holder, fieldOf(wanted.section), wanted.key)
  })
  return { ...project, ...lists }
}

/** Without tolerances, so that nothing moves a joint and no fit of it is made. */
function exactly<T>(value: T): T {
  return JSON.parse(JSON.stringify(value, (key, each) => (key === 'tolerance' ? undefined : each)))
}

function projectWith(change: (chip: Chip, facet: Project['facets'][number]) => void) {
  const project = exactly(structuredClone(demo))
  const design = project.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'taper chip'))!
  const element = design.chain.find((each) => each.kind === 'taper chip')!
  const chip = project.converters.find(({ id }) => id === element.converterId)!
  const last = design.chain.at(-1)!
  if (chip.kind !== 'taper chip' || last.kind !== 'facet') throw new Error('no chip or facet')
  change(chip, project.facets.find(({ id }) => id === last.facetId)!)
  return { project, design }
}
type Chip = Extract<Project['converters'][number], { kind: 'taper chip' }>

/** All joints of the design in contact, with flat faces and aligned, but for an offset of the last. */
function contact({ chain }: Project['candidates'][number], offsetYUm = 0) {
  const gaps = chain.flatMap((each) => (each.kind === 'gap' ? [each] : []))
  for (const gap of gaps) {
    gap.gap = quantityOf(0, 'um')
    gap.offsetX = quantityOf(0, 'um')
    gap.offsetY = quantityOf(0, 'um')
    gap.tiltX = quantityOf(0, 'deg')
    gap.tiltY = quantityOf(0, 'deg')
    gap.roll = quantityOf(0, 'deg')
    gap.nearFaceAngle = quantityOf(0, 'deg')
    gap.farFaceAngle = quantityOf(0, 'deg')
  }
  gaps.at(-1)!.offsetY = quantityOf(offsetYUm, 'um')
}

/** What the modes of a joint lose: its lines but for faces and other losses. */
function modesDb(project: Project, design: Project['candidates'][number], elementId: string): number {
  const kinds = new Set([
    'mode mismatch',
    'mode shape',
    'gap',
    'lateral offset',
    'offset',
    'tilt',
    'combined',
  ])
  return evaluateCandidate(withModes(project), design.id)
    .lines.filter((line) => line.elementId === elementId && kinds.has(line.kind))
    .reduce((sum, { lossDb }) => sum + lossDb, 0)
}

const BY_SECTION = { kind: 'cross-section' } as const
const ROUND = { x: quantityOf(4, 'um'), y: quantityOf(4, 'um') } as const

describe('an SSC chip known by its cross-sections', () => {
  test('loses nothing against a facet of the same cross-section, whose mode is not the same upside down', () => {
    const { project, design } = projectWith((chip, facet) => {
      chip.outputEnd = { crossSection: TIP, modeShape: BY_SECTION }
      facet.crossSection = TIP
      facet.modeShape = BY_SECTION
    })
    contact(design)
    const joint = design.chain.findLast(({ kind }) => kind === 'gap')!
    expect(Math.abs(modesDb(project, design, joint.id))).toBeLessThan(1e-6)
    // Away from the middle, as much in one direction as in the other.
    const off = (offsetYUm: number) => {
      contact(design, offsetYUm)
      return modesDb(project, design, joint.id)
    }
    expect(off(0.5)).toBeGreaterThan(0.1)
    expect(off(0.5)).toBeCloseTo(off(-0.5), 6)
  })

  test('a light path seen from its other end loses the same: fibre to input end, output end to a facet of the same Gaussian', () => {
    const input = projectWith((chip, facet) => {
      chip.inputEnd = { crossSection: TIP, modeShape: BY_SECTION }
      Object.assign(facet, { modeShape: undefined })
    })
    const output = projectWith((chip, facet) => {
      chip.outputEnd = { crossSection: TIP, modeShape: BY_SECTION }
      chip.outputMfdX = chip.inputMfdX
      chip.outputMfdY = chip.inputMfdY
      facet.mfdX = ROUND.x
      facet.mfdY = ROUND.y
      facet.modeShape = undefined
      facet.oneWidth = undefined
    })
    for (const fibre of input.project.fibres) {
      fibre.mode = { kind: 'mfd', mfdX: ROUND.x }
      fibre.modeShape = undefined
    }
    const [first, last] = [
      input.design.chain.find(({ kind }) => kind === 'gap')!,
      output.design.chain.findLast(({ kind }) => kind === 'gap')!,
    ]
    const lossAt = (offsetYUm: number) => {
      contact(input.design)
      if (first.kind === 'gap') first.offsetY = quantityOf(offsetYUm, 'um')
      contact(output.design, -offsetYUm)
      return [
        modesDb(input.project, input.design, first.id),
        modesDb(output.project, output.design, last.id),
      ] as const
    }
    const [up, upBack] = lossAt(0.8)
    const [down, downBack] = lossAt(-0.8)
    expect(up).toBeCloseTo(upBack, 6)
    expect(down).toBeCloseTo(downBack, 6)
    // The test could not see a mode upside down if both were equal.
    expect(Math.abs(up - down)).toBeGreaterThan(0.002)
  })

  test('says that a Gaussian is used until the cross-section is solved, and reflects by the index of its end', () => {
    const { project, design } = projectWith((chip) => {
      chip.inputEnd = {
        crossSection: GLASS,
        modeShape: BY_SECTION,
        index: { kind: 'value', index: quantityOf(2, '1') },
      }
    })
    const notes = (from: Project) =>
      evaluateCandidate(from, design.id).validity.filter(({ message }) => message.includes('not solved yet'))
    expect(notes(project).map(({ message }) => message)).toEqual([
      expect.stringMatching(/, input end: a Gaussian is used instead of the mode of the cross-section/),
    ])
    expect(notes(withModes(project))).toEqual([])
    const element = design.chain.find(({ kind }) => kind === 'taper chip')!
    const guide = evaluateCandidate(project, design.id).guides.find(
      ({ elementId }) => elementId === element.id,
    )!
    expect(guide.entry.index).toBe(2)
    expect(guide.exit.index).not.toBe(2)
  })

  test('is kept by a project file, and files without ends open as before', () => {
    const { project } = projectWith((chip) => {
      chip.inputEnd = { crossSection: GLASS, modeShape: BY_SECTION }
      chip.outputEnd = { modeShape: { kind: 'gaussian' } }
    })
    const opened = parseProject(JSON.parse(JSON.stringify(project)))
    expect(opened.converters).toEqual(project.converters)
    expect(modeHolders(project).map(({ name }) => name)).toEqual([
      ...project.facets.map(({ name }) => name),
      expect.stringMatching(/, input end$/),
      expect.stringMatching(/, output end$/),
    ])
    const broken = structuredClone(project)
    for (const chip of broken.converters) {
      if (chip.kind === 'taper chip' && chip.inputEnd?.crossSection) chip.inputEnd.crossSection.cores = []
    }
    expect(() => parseProject(JSON.parse(JSON.stringify(broken)))).toThrow(/inputEnd.*cores/)
  })

  test('starts from a core in glass whose mode is nearly as wide as the end', () => {
    const { gaussian } = modeOf(GLASS).widths
    expect(Math.sqrt(gaussian.mfdUm.x * gaussian.mfdUm.y) / Math.sqrt(9 * 7)).toBeGreaterThan(0.8)
    expect(Math.sqrt(gaussian.mfdUm.x * gaussian.mfdUm.y) / Math.sqrt(9 * 7)).toBeLessThan(1.25)
  })
})
