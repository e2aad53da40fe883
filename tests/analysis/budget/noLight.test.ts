import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { bestSettings } from '../../../src/analysis/tolerance/bestSettings'
import { demoProject } from '../../../src/model/index'
import { type Quantity, quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { NO_LIGHT_DB } from '../../../src/optics/index'
import { nonFinitePaths } from '../../fuzz/nonFinite'
import { familiesProject, relayElement } from '../support/families'
import { matchedProject } from '../yield/cases'

/** The demo's butt joint with its gap element changed and 100 mW sent in. */
function changed(gap: Readonly<Record<string, Quantity>>): Project {
  const project = structuredClone(demoProject())
  project.requirements.powerIn = quantityOf(100, 'mW')
  const element = project.candidates.find(({ id }) => id === 'cleaved-dry')?.chain[1]
  Object.assign(element ?? {}, gap)
  return project
}

const dark = changed({ offsetX: quantityOf(900, 'um') })

describe('a joint that no light passes', () => {
  const evaluation = evaluateCandidate(dark, 'cleaved-dry')

  test('loses what means no light, in lines that still add up, and says so first', () => {
    expect(evaluation.nominalDb).toBeGreaterThanOrEqual(NO_LIGHT_DB)
    expect(evaluation.nominalDb).toBeLessThan(NO_LIGHT_DB + 3)
    const sum = evaluation.lines.reduce((total, line) => total + line.lossDb, 0)
    expect(Math.abs(sum - evaluation.nominalDb)).toBeLessThan(1e-9)
    expect(Math.max(...evaluation.lines.map((line) => line.lossDb))).toBeLessThanOrEqual(NO_LIGHT_DB)
    expect(evaluation.validity[0]?.message).toContain('No light reaches the waveguide')
  })

  test('says so where nothing is lost elsewhere either: at the loss that means no light itself', () => {
    const alone = evaluateCandidate(matchedProject(6, 2, { offsetX: quantityOf(900, 'um') }), 'matched')
    expect(alone.nominalDb).toBe(NO_LIGHT_DB)
    expect(alone.validity[0]?.message).toContain('No light reaches the waveguide')
    const near = evaluateCandidate(matchedProject(6, 2, { offsetX: quantityOf(20, 'um') }), 'matched')
    expect(near.validity.map(({ message }) => message).join()).not.toContain('No light')
  })

  test('shares its power out in finite parts that add up to what went in', () => {
    const shares = Object.values(evaluation.power?.shares ?? {})
    expect(shares.every(Number.isFinite)).toBe(true)
    expect(shares.reduce((total, share) => total + share, 0) / 1e5).toBeCloseTo(1, 12)
    expect(nonFinitePaths(evaluation)).toEqual([])
  })

  test('can be brought back by the search, which follows the slope beyond', () => {
    const compiled = compileCandidate(dark, 'cleaved-dry')
    if (!compiled.ok) throw new Error('not compiled')
    const found = bestSettings(compiled.value)
    expect(found.settings.find(({ name }) => name === 'offsetX')?.best).toBeCloseTo(0, 3)
    expect(found.bestDb).toBeLessThan(10)
  })
})

test('a ground tip far beside the facet loses what its real field loses, not less than nothing', () => {
  const project = familiesProject(relayElement())
  const gap = project.candidates.find(({ id }) => id === 'ground-tip')?.chain[1]
  Object.assign(gap ?? {}, { offsetX: quantityOf(100, 'um') })
  const { nominalDb, joints } = evaluateCandidate(project, 'ground-tip')
  const loss = joints[0]?.field?.loss
  if (loss === undefined || 'refusal' in loss) throw new Error('no field')
  expect(nominalDb).toBeGreaterThanOrEqual(loss.fieldDb)
  expect(nominalDb).toBeLessThan(NO_LIGHT_DB)
})

const wide = (plusMinus: number, coverage?: number): Quantity =>
  quantityOf(0, 'um', 'estimate', { plusMinus, distribution: 'normal', ...(coverage && { coverage }) })

test.each([
  ['a coverage factor of 1e-300', changed({ offsetX: wide(1, 1e-300) })],
  ['a tolerance of 900 um', changed({ offsetX: wide(900) })],
  ['a gap of 0', changed({ gap: quantityOf(0, 'um') })],
])('%s gives finite totals and percentiles', (_, project) => {
  const evaluation = evaluateCandidate(project, 'cleaved-dry')
  expect(nonFinitePaths(evaluation)).toEqual([])
  expect(nonFinitePaths(runYield(project, 'cleaved-dry', { samples: 200 }))).toEqual([])
})

test('at contact no wavelength and no temperature moves the ripple by a period', () => {
  const [ripple] = evaluateCandidate(changed({ gap: quantityOf(0, 'um') }), 'cleaved-dry').ripples
  expect(ripple?.periodWavelengthUm).toBeNull()
  expect(ripple?.periodGapUm).toBeGreaterThan(0.1)
})

test('a tolerance of 1e9 um is refused by its name and what it may reach', () => {
  expect(() => evaluateCandidate(changed({ offsetX: wide(1e9) }), 'cleaved-dry')).toThrow(
    'the tolerance of offset x is too wide: offset is 1000000000 µm; must be −1000 to 1000 µm',
  )
})

test('a tolerance of 1e9 um is refused by name', () => {
  expect(() => evaluateCandidate(changed({ offsetX: wide(1e9) }), 'cleaved-dry')).toThrow(
    'the tolerance of offset x is too wide: offset is 1000000000 µm; must be −1000 to 1000 µm',
  )
})
