// Rows of the comparison on numbers whose cell is known beforehand.

import { describe, expect, test } from 'vitest'
import { candidateFacts } from '../../../src/analysis/compare/candidateFacts'
import { rowSpecs, type Subject } from '../../../src/analysis/compare/comparisonRows'
import { evaluateCandidate, type YieldResult } from '../../../src/analysis/index'
import type { Evaluation } from '../../../src/analysis/results/evaluation'
import type { PortReturn } from '../../../src/analysis/results/lightResults'
import { aboveWorstCase } from '../../../src/analysis/yield/aboveWorstCase'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject } from '../support/families'

const families = familiesProject()
const evaluated = evaluateCandidate(families, 'cleaved-dry')

function subjectOf(id: string, more: Partial<Subject> = {}, project: Project = familiesProject()): Subject {
  const candidate = project.candidates.find((each) => each.id === id)
  if (candidate === undefined) throw new Error(`no ${id}`)
  return {
    candidate,
    evaluation: evaluated,
    facts: candidateFacts(project, candidate),
    project,
    run: null,
    array: null,
    verdicts: [],
    ...more,
  }
}
const read = (row: string, subject: Subject) =>
  rowSpecs(subject.project)
    .find(({ id }) => id === row)
    ?.read(subject)
const readWith = (row: string, evaluation: Partial<Evaluation>, more: Partial<Subject> = {}) =>
  read(row, subjectOf('cleaved-dry', { evaluation: { ...evaluated, ...evaluation }, ...more }))

describe('losses', () => {
  test('that wait for fields are provisional; a percentile above the worst case has its reason', () => {
    const [worstCorner, rootSumSquare] = [
      { ...evaluated.worstCorner, lossDb: 2.345 },
      { ...evaluated.rootSumSquare, lossDb: 1.5 },
    ]
    const run = { percentiles: [{ share: 0.99, lossDb: 3 }], temperaturesC: [] } as unknown as YieldResult
    expect(readWith('worst', { worstCorner, awaitsFit: false })).toEqual({ value: 2.345, text: '2.35' })
    expect(readWith('worst', { worstCorner, awaitsFit: false }, { run })).toEqual({
      value: 2.345,
      text: '2.35',
      reason: 'P99 lies above it: normally distributed tolerances extend beyond their ±',
    })
    expect(readWith('worst', { worstCorner, awaitsFit: true }, { run })).toMatchObject({ provisional: true })
    expect(readWith('rss', { rootSumSquare, awaitsFit: false })).toBe(1.5)
    expect(readWith('rss', { rootSumSquare, awaitsFit: true })).toMatchObject({
      value: 1.5,
      provisional: true,
    })
  })

  test('count the joints that are entered values', () => {
    const facts = { ...subjectOf('cleaved-dry').facts, typedJoints: 2 }
    expect(readWith('nominal', { nominalDb: 1 }, { facts })).toEqual({
      value: 1,
      text: '1.00',
      reason: '2 joints are an entered value',
    })
  })

  test('above the worst case name the highest such percentile and what the worst case leaves out', () => {
    const temperature = (worstCornerDb: number) => ({ ...evaluated.temperature!, worstCornerDb })
    const worstCorner = { ...evaluated.worstCorner, lossDb: 2 }
    const percentiles = [0.5, 0.95, 0.99].map((share) => ({
      share,
      lossDb: 1 + 2 * share,
      lowDb: 0,
      highDb: 9,
    }))
    const reason = (
      temperaturesC: readonly number[],
      worst: ReturnType<typeof temperature> | null,
      above = percentiles,
    ) => aboveWorstCase({ worstCorner, temperature: worst }, { percentiles: above, temperaturesC })
    const heat =
      'each assembly is evaluated at its worst temperature, the worst case at the assembly temperature'
    const tails = 'normally distributed tolerances extend beyond their ±'
    expect(reason([], null)).toBe(`P99 lies above it: ${tails}`)
    expect(reason([70], temperature(2.98))).toBe(`P99 lies above it: ${heat}`)
    expect(reason([70], temperature(2.9))).toBe(`P99 lies above it: ${heat}; ${tails}`)
    expect(reason([70], null)).toBe(`P99 lies above it: ${heat}; ${tails}`)
    expect(reason([], temperature(5))).toBe(`P99 lies above it: ${tails}`)
    // Exactly as high is not above.
    expect(reason([], null, [{ share: 0.99, lossDb: 2, lowDb: 0, highDb: 9 }])).toBeNull()
    expect(aboveWorstCase({ worstCorner, temperature: null }, null)).toBeNull()
  })
})

describe('back-reflection', () => {
  test('is a bound above what can be trusted, and where a tip has no radius', () => {
    const port = (incoherentDb: number | null, atLeast = false): PortReturn => ({
      incoherentDb,
      coherentDb: null,
      atLeast,
      atMostDb: null,
    })
    const cell = (fibre: PortReturn) => readWith('return-loss', { returnLoss: { fibre, chip: port(20) } })
    expect(cell(port(40))).toBe(40)
    expect(cell(port(65))).toBe(65)
    expect(cell(port(65.1))).toEqual({ value: 65, text: '> 65' })
    expect(cell(port(null))).toEqual({ value: 65, text: '> 65' })
    expect(cell(port(33.33, true))).toEqual({ value: 33.33, text: '≥ 33.3', reason: 'tip radius not given' })
    expect(readWith('return-loss-chip', { returnLoss: { fibre: port(40), chip: port(20) } })).toBe(20)
  })

  test('adds the ripple of all gaps', () => {
    const ripple = (peakToPeakDb: number) => ({ ...evaluated.ripples[0]!, peakToPeakDb })
    expect(readWith('ripple', { ripples: [ripple(0.25), ripple(0.5)] })).toBe(0.75)
    expect(readWith('ripple', { ripples: [] })).toMatchObject({ text: 'none' })
  })
})

describe('build', () => {
  test('has the working distance of a relay behind its last lens, of a gap by the joint', () => {
    const [view] = evaluated.joints
    if (view === undefined) throw new Error('no joint')
    const joints = [view, { ...view, joint: { ...view.joint, gapUm: 7.5 } }]
    expect(readWith('working-distance', { joints })).toBe(7.5)
    expect(readWith('working-distance', { joints: [] })).toBeNull()
    const relay = subjectOf('relay')
    const element = relay.candidate.chain.at(-2)
    if (element?.kind !== 'relay') throw new Error('no relay')
    element.backGap = quantityOf(0.3, 'mm')
    expect(read('working-distance', relay)).toBe(300)
  })

  test('counts joints, steps and kinds of parts, each part once, without chip and gas', () => {
    const factsOf = (id: string) => subjectOf(id).facts
    expect(factsOf('high-na-bonded')).toMatchObject({
      splices: 1,
      joints: 1,
      alignmentSteps: 1,
      typedJoints: 0,
    })
    expect(factsOf('relay')).toMatchObject({ splices: 0, joints: 1, alignmentSteps: 3, media: ['Air'] })
    expect(factsOf('relay').partsToBuy).toEqual([
      'Standard single-mode fibre',
      'Lens of 1000 um',
      'Lens of 300 um',
      'Isolator',
    ])
    expect(factsOf('high-na-bonded').partsToBuy).toEqual([
      'Standard single-mode fibre',
      'High-NA bridge fibre',
      'UV-cured adhesive',
    ])
    // Two gaps with one filling are two joints and one part.
    expect(factsOf('taper')).toMatchObject({ joints: 2, alignmentSteps: 2 })
    expect(new Set(factsOf('taper').partsToBuy).size).toBe(factsOf('taper').partsToBuy.length)
    expect(read('parts', subjectOf('high-na-bonded'))).toEqual({
      value: 3,
      text: '3',
      reason: 'Standard single-mode fibre; High-NA bridge fibre; UV-cured adhesive',
    })
    expect(read('medium', subjectOf('high-na-bonded'))).toBe('UV-cured adhesive')
  })
})

describe('array and operation', () => {
  test('give the pitch error of the outer channels, and what states no pitch', () => {
    const taper = subjectOf('taper')
    const chip = taper.project.converters.find(({ id }) => id === 'taper')
    if (chip?.kind !== 'taper chip') throw new Error('no chip')
    expect(read('pitch', taper)).toEqual({ value: 0, text: '0.0', reason: '' })
    chip.outputPitch = quantityOf(126.95, 'um')
    expect(read('pitch', taper)).toMatchObject({ value: 0 })
    chip.outputPitch = quantityOf(126.8, 'um')
    // Eleven steps of 0.2 µm, half to either side.
    expect(read('pitch', taper)).toMatchObject({
      text: '1.1',
      reason: expect.stringContaining('misaligned by 1.1 µm'),
    })
    expect(read('pitch', subjectOf('relay'))).toEqual({
      value: null,
      text: 'not known',
      reason: 'no array pitch is given for Lens of 1000 um and Lens of 300 um',
    })
    expect(read('pitches', subjectOf('relay'))).toMatchObject({
      text: '12',
      reason: expect.stringContaining('not given'),
    })
  })

  test('say nothing of polarisation that is kept, and why it is not', () => {
    const subject = subjectOf('cleaved-dry')
    expect(read('polarisation', subject)).toEqual({
      value: null,
      text: 'no',
      reason: 'not polarisation-maintaining: Standard single-mode fibre',
    })
    for (const fibre of subject.project.fibres) fibre.polarisationMaintaining = true
    expect(read('polarisation', subject)).toEqual({ value: null, text: 'yes', reason: '' })
  })

  test('have the worst of the band, none without a band, and a reason where data end within it', () => {
    const of = (project: Project, band: Evaluation['band']) =>
      read('band', subjectOf('cleaved-dry', { evaluation: { ...evaluated, band } }, project))
    const plain = familiesProject()
    plain.requirements = { ...plain.requirements, wavelengthMin: undefined, wavelengthMax: undefined }
    expect(of(plain, null)).toMatchObject({ value: null, text: 'no band' })
    const banded = familiesProject()
    banded.requirements.wavelengthMin = quantityOf(1600, 'nm')
    expect(of(banded, null)).toMatchObject({
      text: 'not known',
      reason: expect.stringContaining('do not cover the band'),
    })
    expect(of(banded, { worstDb: 1.25 } as Evaluation['band'])).toBe(1.25)
  })

  test('have both ends of the usable temperatures, the wider the better', () => {
    const temperature = { assemblyC: 20, worstC: -40.4, worstDb: 2.345, rootSumSquareDb: 0, worstCornerDb: 0 }
    const at = (reachC: readonly [number, number] | null) =>
      readWith('reach', { temperature: { ...temperature, reachC } })
    expect(at([-20.4, 70.6])).toMatchObject({ value: 91, text: '−20 to 71' })
    expect(at([-65, 150])).toMatchObject({ value: 215, text: 'below −65 to above 150' })
    expect(at(null)).toMatchObject({ value: 0, text: 'none' })
    expect(readWith('reach', { temperature: null })).toMatchObject({ value: null, text: 'not evaluated' })
    expect(readWith('temperature', { temperature: { ...temperature, reachC: null } })).toEqual({
      value: 2.345,
      text: '2.35 at −40 °C',
    })
    expect(readWith('temperature', { temperature: null })).toMatchObject({ reason: 'no mount defined' })
  })

  test('count cautions, not notes, and give the collimated section in mm', () => {
    const note = (message: string, caution?: boolean) => ({
      elementId: 'gap',
      message,
      ...(caution && { caution }),
    })
    expect(readWith('cautions', { validity: [note('a', true), note('b'), note('c', true)] })).toEqual({
      value: 2,
      text: '2',
      reason: 'a c',
    })
    expect(readWith('stretch', { relays: [{ stretchUm: 5000 } as Evaluation['relays'][number]] })).toBe(5)
    expect(readWith('stretch', { relays: [] })).toMatchObject({ text: 'none' })
  })
})

describe('runs', () => {
  test('say how they were sampled, and name the percentiles in order without repeating one', () => {
    const run = {
      yield: 0.9512,
      yieldInterval: { low: 0.94, high: 0.96 },
      samples: 2000,
      seed: 7,
      method: 'random',
    } as unknown as YieldResult
    expect(readWith('yield', {}, { run })).toEqual({
      value: 95.12,
      text: '95.1',
      reason: '94.0 to 96.0; 2\u202f000 pseudo-random samples, seed 7',
    })
    expect(readWith('yield', {}, { run: { ...run, method: 'sobol' } })).toMatchObject({
      reason: expect.stringContaining('Sobol samples'),
    })
    const idsFor = (percentile: number) => {
      const project = familiesProject()
      project.requirements.losses = [{ ...project.requirements.losses[0]!, percentile }]
      return rowSpecs(project).flatMap(({ id }) => (/^p\d/.test(id) ? [id] : []))
    }
    expect(idsFor(90)).toEqual(['p50', 'p90', 'p99'])
    expect(idsFor(99.9)).toEqual(['p50', 'p99', 'p99.9'])
    expect(idsFor(99)).toEqual(['p50', 'p99'])
  })
})
