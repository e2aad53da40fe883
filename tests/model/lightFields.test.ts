// Fields that came after the first version: all optional, kept through a round trip, checked with their paths.

import { describe, expect, test } from 'vitest'
import { demoProject } from '../../src/model/index'
import { partsCsv, readPartsCsv } from '../../src/model/parts/partsCsv'
import { readProject } from '../../src/model/project/parseProject'
import { quantityOf } from '../../src/model/quantity/quantity'
import { RULES } from '../../src/model/quantity/quantityRules'
import { readPlainQuantityText } from '../../src/model/quantity/quantityText'
import type { Project } from '../../src/model/schema/project'

/** The demo with every one of the fields stated. */
function stated(): Project {
  const project = demoProject()
  const [candidate] = project.candidates
  const gap = candidate?.chain[1]
  const [facet] = project.facets
  const adhesive = project.media.find((each) => each.id === 'adhesive')
  const films = [
    {
      index: { kind: 'material' as const, material: 'silicon nitride' as const },
      thickness: quantityOf(200, 'nm'),
    },
    {
      index: { kind: 'value' as const, index: quantityOf(1.45, '1') },
      thickness: quantityOf(280, 'nm', 'data sheet', 5),
      extinction: quantityOf(0.001, '1'),
    },
  ]
  if (gap?.kind !== 'gap' || facet === undefined || adhesive === undefined)
    throw new Error('the demo has changed')
  gap.nearCoating = { kind: 'films', films }
  gap.farCoating = { kind: 'reflectance', reflectance: quantityOf(0.5, '%') }
  gap.keyAngle = quantityOf(1, 'deg')
  facet.tm = { mfdX: quantityOf(3, 'um'), mfdY: quantityOf(2.2, 'um'), taperLoss: quantityOf(0.4, 'dB') }
  facet.overWavelength = {
    kind: 'points',
    points: [1600, 1700].map((nm) => ({
      wavelength: quantityOf(nm, 'nm'),
      mfdX: quantityOf(3.4, 'um'),
      mfdY: quantityOf(2.8, 'um'),
    })),
  }
  adhesive.irradianceLimit = quantityOf(10, 'kW/cm^2')
  for (const converter of project.converters)
    if (converter.kind === 'lensed tip' && converter.tip.kind === 'spot')
      converter.tip.radius = quantityOf(12, 'um', 'data sheet', 4)
  project.requirements = {
    ...project.requirements,
    extinctionRatio: quantityOf(20, 'dB'),
    polarisationDependentLoss: quantityOf(0.5, 'dB'),
    powerIn: quantityOf(2, 'mW'),
    faceIrradiance: quantityOf(1, 'MW/cm^2'),
  }
  return project
}

function messages(project: unknown): readonly string[] {
  const result = readProject(project)
  return result.ok ? [] : result.issues.map((issue) => issue.message)
}

describe('a project file with coatings, modes over wavelength, TM, key angles and power', () => {
  test('survives the round trip unchanged', () => {
    const project = stated()
    const result = readProject(JSON.parse(JSON.stringify(project)))
    expect(result.ok).toBe(true)
    if (result.ok) expect(result.value).toEqual(project)
  })

  test('is not needed: the demo as it was has none of the fields', () => {
    expect(messages(JSON.parse(JSON.stringify(demoProject())))).toEqual([])
  })

  test('lists every fault with its path', () => {
    const raw = JSON.parse(JSON.stringify(stated()))
    raw.candidates[0].chain[1].nearCoating.films[0].thickness.value = -3
    raw.candidates[0].chain[1].farCoating.reflectance.value = 120
    raw.facets[0].overWavelength.points[1].wavelength.value = 1600
    raw.facets[0].tm.mfdX.value = 0
    raw.requirements.powerIn.unit = 'dB'
    const found = messages(raw).join('\n')
    expect(found).toContain('nearCoating.films[0].thickness')
    expect(found).toContain('farCoating.reflectance')
    expect(found).toContain('two entries at 1600 nm')
    expect(found).toContain('facets[0].tm.mfdX')
    expect(found).toContain('requirements.powerIn.unit')
  })

  test('refuses a coating without films and a law with one wavelength', () => {
    const raw = JSON.parse(JSON.stringify(stated()))
    raw.candidates[0].chain[1].nearCoating.films = []
    raw.facets[0].overWavelength.points.pop()
    const found = messages(raw).join('\n')
    expect(found).toContain('must have at least 1 entries')
    expect(found).toContain('must have at least 2 entries')
  })
})

describe('parts as a table', () => {
  test('carry lists, such as the wavelengths of a mode, there and back', () => {
    const project = stated()
    const back = readPartsCsv(partsCsv(project))
    expect(back.ok).toBe(true)
    if (back.ok) expect(back.value.facets).toEqual(JSON.parse(JSON.stringify(project.facets)))
  })
})

describe('an irradiance', () => {
  test('is read with a small two or a caret, in any of its units', () => {
    for (const text of ['5 kW/cm²', '5 kW/cm^2']) {
      const read = readPlainQuantityText(text, RULES.irradiance)
      expect(read?.ok && read.value).toEqual({ value: 5, unit: 'kW/cm^2' })
    }
  })

  test('out of range is refused in the unit it was entered in', () => {
    const read = readPlainQuantityText('1e9 MW/cm^2', RULES.irradiance)
    expect(read !== null && !read.ok && read.issues[0]?.message).toContain(
      'irradiance is 1000000000 MW/cm²; must be',
    )
  })
})
