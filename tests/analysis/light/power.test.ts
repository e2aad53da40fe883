import { describe, expect, test } from 'vitest'
import { checkRequirements, evaluateCandidate } from '../../../src/analysis/index'
import { tightestLocation } from '../../../src/analysis/light/power'
import type { Evaluation } from '../../../src/analysis/results/evaluation'
import type { PowerLocation } from '../../../src/analysis/results/lightResults'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject } from '../support/families'

const withPower = (project: Project, milliwatts: number): Project => ({
  ...project,
  requirements: { ...project.requirements, powerIn: quantityOf(milliwatts, 'mW') },
})

function powerOf(project: Project, id: string) {
  const { power } = evaluateCandidate(project, id)
  if (power === null) throw new Error('no power is stated')
  return power
}

describe('power along a path', () => {
  test('is not looked at where none is stated', () => {
    expect(evaluateCandidate(demoProject(), 'cleaved-dry').power).toBeNull()
  })

  test('goes on chip, back, past and into parts, and adds up to what went in to 1e-12', () => {
    const project = withPower(familiesProject(), 5)
    for (const { id } of project.candidates) {
      const { shares, outUw, inUw } = powerOf(project, id)
      const sum = Object.values(shares).reduce((total, share) => total + share, 0)
      expect(Math.abs(sum / inUw - 1), id).toBeLessThan(1e-12)
      expect(outUw).toBeCloseTo(inUw * 10 ** (-evaluateCandidate(project, id).nominalDb / 10), 6)
    }
  })

  // Fresnel by hand: R = [(n1 - n2) / (n1 + n2)]^2 of what arrives at each face, before any mode takes its part.
  test('reflected at two bare faces is R1 of what arrives and R2 of the rest, not a part of what couples', () => {
    const project = withPower(demoProject(), 50)
    const { shares, locations } = powerOf(project, 'cleaved-dry')
    const [view] = evaluateCandidate(project, 'cleaved-dry').joints
    const r = (index: number) => ((index - 1.000271) / (index + 1.000271)) ** 2 // air at 1653.7 nm, Ciddor 1996
    const [near, far] = [r(view?.near.index ?? 0), r(view?.far.index ?? 0)]
    expect(shares.reflected / 50_000).toBeCloseTo(near + (1 - near) * far, 5)
    expect(locations[1]?.powerUw).toBeCloseTo(50_000 * (1 - near), 0)
  })

  test('at the near face of the demo is what was sent in, its peak 2 P / (pi wx wy)', () => {
    const project = withPower(demoProject(), 1)
    const [near, far, mode] = powerOf(project, 'cleaved-dry').locations
    const [view] = evaluateCandidate(project, 'cleaved-dry').joints
    const w = (view?.near.mfdXUm ?? 0) / 2
    expect(near?.powerUw).toBeCloseTo(1000, 9)
    expect(near?.irradiance).toBeCloseTo(2000 / (Math.PI * w * w), 9)
    expect(far?.powerUw).toBeLessThan(1000)
    expect(far?.mfdXUm).toBeGreaterThan(near?.mfdXUm ?? 0)
    expect(mode?.mfdYUm).toBe(2.8)
  })

  test.each(['fibre to chip', 'chip to fibre'] as const)(
    '%s: a line of the whole design takes its part of what is left at the end',
    (direction) => {
      const project = withPower(demoProject(), 10)
      project.requirements.direction = direction
      const before = powerOf(project, 'cleaved-dry')
      const design = project.candidates.find(({ id }) => id === 'cleaved-dry')
      design?.userLines.push({ id: 'margin', label: 'Margin', kind: 'user line', loss: quantityOf(3, 'dB') })
      const after = powerOf(project, 'cleaved-dry')
      expect(after.shares.reflected).toBeCloseTo(before.shares.reflected, 9)
      expect(after.shares['not coupled']).toBeCloseTo(before.shares['not coupled'], 9)
      expect(after.outUw).toBeCloseTo(before.outUw * 10 ** -0.3, 9)
    },
  )

  test('of a relay is given at both lenses', () => {
    const locations = powerOf(withPower(familiesProject(), 1), 'relay').locations.map(
      (location) => location.label,
    )
    expect(locations).toEqual([
      'Fibre-side face',
      'Lens 1',
      'Lens 2',
      'Chip-side face',
      'Mode behind the chip-side face',
    ])
  })
})

/** Loss of the lines of an element, dB; of those alone whose id ends so, where that is said. */
const lossOf = ({ lines }: Evaluation, elementId: string, end = '') =>
  lines
    .filter((line) => line.elementId === elementId && line.id.endsWith(end))
    .reduce((sum, line) => sum + line.lossDb, 0)

describe('through two joints and a taper chip', () => {
  const project = withPower(familiesProject(), 10)
  const evaluationOf = (direction: Project['requirements']['direction']) =>
    evaluateCandidate({ ...project, requirements: { ...project.requirements, direction } }, 'taper')
  const budget = evaluationOf('fibre to chip')
  const [gap1, chip, gap2, facet] = ['gap-1', 'taper', 'gap-2', 'facet'].map((id) => lossOf(budget, id)) as [
    ...[number, number, number, number],
  ]
  const face = (gap: string, side: 'near' | 'far') => lossOf(budget, gap, `fresnel ${side}`)
  const powers = (lossesDb: readonly number[]) =>
    lossesDb.map((lossDb) => expect.closeTo(10_000 * 10 ** (-lossDb / 10), 6))

  test('what arrives at each face is what everything before it has left', () => {
    expect(chip).toBeCloseTo(0.4, 9)
    const there = [
      0,
      face('gap-1', 'near'),
      gap1,
      gap1 + chip,
      gap1 + chip + face('gap-2', 'near'),
      gap1 + chip + gap2,
    ]
    const found = budget.power?.locations ?? []
    expect(found.map(({ powerUw }) => powerUw)).toEqual(powers(there))
    expect(found.map(({ elementId }) => elementId)).toEqual([
      ...Array.from({ length: 3 }, () => 'gap-1'),
      ...Array.from({ length: 3 }, () => 'gap-2'),
    ])
    for (const { powerUw, mfdXUm, mfdYUm, irradiance } of found)
      expect(irradiance).toBeCloseTo((8 * powerUw) / (Math.PI * mfdXUm * mfdYUm), 6)
  })

  test('from the chip the facet comes first, and both ways are one after the other', () => {
    const far2 = face('gap-2', 'far')
    const far1 = face('gap-1', 'far')
    const back = [
      facet,
      facet + far2,
      facet + gap2,
      facet + gap2 + chip,
      facet + gap2 + chip + far1,
      facet + gap2 + chip + gap1,
    ]
    const fromChip = evaluationOf('chip to fibre').power?.locations ?? []
    expect(fromChip.map(({ powerUw }) => powerUw)).toEqual(powers(back))
    expect(fromChip.map(({ elementId }) => elementId).slice(0, 3)).toEqual(['gap-2', 'gap-2', 'gap-2'])
    const both = evaluationOf('both').power?.locations ?? []
    expect(both.slice(6).map(({ powerUw, label }) => [powerUw, label])).toEqual(
      fromChip.map(({ powerUw, label }) => [expect.closeTo(powerUw, 6), `${label}, from the chip`]),
    )
    // Diameters at the fibre: the chip's own mode after the gap.
    expect(fromChip.every(({ mfdXUm, mfdYUm }) => mfdXUm > 2 && mfdYUm > 2)).toBe(true)
  })
})

test('the tightest location is the one nearest to its own limit', () => {
  const at = (irradiance: number, limit: number | null) =>
    ({ irradiance, limit: limit === null ? null : { what: 'coating', irradiance: limit } }) as PowerLocation
  const all = [at(9, null), at(2, 10), at(3, 6), at(5, 20)]
  expect(tightestLocation(all)).toBe(all[2])
  expect(tightestLocation(all.slice(0, 1))).toBeNull()
  expect(tightestLocation([])).toBeNull()
})

describe('irradiance against the limits that the engineer sets', () => {
  const status = (project: Project, id: string) =>
    checkRequirements(project, evaluateCandidate(project, id)).find((verdict) => verdict.id === 'irradiance')

  test('says nothing where no limit is set', () => {
    expect(status(withPower(demoProject(), 1), 'high-na-bonded')).toBeUndefined()
  })

  test('is not met where the gap medium withstands less than the irradiance of the smallest spot', () => {
    const project = withPower(demoProject(), 20)
    const adhesive = project.media.find((each) => each.id === 'adhesive')
    if (adhesive !== undefined) adhesive.irradianceLimit = quantityOf(100, 'kW/cm^2')
    const found = status(project, 'high-na-bonded')
    expect(found?.status).toBe('not met')
    expect(found?.reason).toContain('limit 100 kW/cm² for UV-cured adhesive')
    if (adhesive !== undefined) adhesive.irradianceLimit = quantityOf(10, 'MW/cm^2')
    expect(status(project, 'high-na-bonded')?.status).toBe('met')
  })

  test('takes the stricter of the limits of face and filling', () => {
    const project = withPower(demoProject(), 1)
    project.requirements.faceIrradiance = quantityOf(1, 'W/cm^2')
    const adhesive = project.media.find((each) => each.id === 'adhesive')
    if (adhesive !== undefined) adhesive.irradianceLimit = quantityOf(10, 'MW/cm^2')
    expect(status(project, 'high-na-bonded')?.reason).toContain('face or coating')
    expect(status(project, 'high-na-bonded')?.status).toBe('not met')
  })
})
