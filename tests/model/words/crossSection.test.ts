import { describe, expect, test } from 'vitest'
import { demoProject, ProjectError, parseProject, projectText } from '../../../src/model/index'
import { newCrossSection } from '../../../src/model/parts/newCrossSection'

function demoWith(change: (section: ReturnType<typeof newCrossSection>) => void) {
  const project = demoProject()
  const section = newCrossSection(0.4, 0.2)
  change(section)
  project.facets[0]!.crossSection = section
  return JSON.parse(projectText(project)) as unknown
}

describe('the cross-section of a facet in a project file', () => {
  test('is read back as it was written, with fields of a newer program', () => {
    const json = demoWith((section) => Object.assign(section.cores[0]!, { roughness: 3 }))
    expect(JSON.parse(projectText(parseProject(json)))).toEqual(json)
  })

  test('may be missing: a file without it stays as it is', () => {
    const project = demoProject()
    for (const facet of project.facets) delete facet.crossSection
    const json = JSON.parse(projectText(project))
    expect(JSON.parse(projectText(parseProject(json)))).toEqual(json)
    expect(parseProject(json).facets[0]!.crossSection).toBeUndefined()
  })

  test('with several faults names every one by its path', () => {
    const json = demoWith((section) => {
      section.cores[0]!.width.value = -1
      section.cores[0]!.sidewall.value = 10
      section.layers[1]!.thickness.value = 0
      Object.assign(section, { polarisation: 'TEM' })
    })
    let issues: readonly string[] = []
    try {
      parseProject(json)
    } catch (error) {
      if (error instanceof ProjectError) issues = error.issues.map(({ path }) => path.join('.'))
    }
    expect(issues).toEqual(
      expect.arrayContaining([
        'facets.0.crossSection.cores.0.width.value',
        'facets.0.crossSection.cores.0.sidewall.value',
        'facets.0.crossSection.layers.1.thickness.value',
        'facets.0.crossSection.polarisation',
      ]),
    )
    expect(issues).toHaveLength(4)
  })

  test('needs a core', () => {
    expect(() => parseProject(demoWith((section) => section.cores.splice(0)))).toThrow(/cores/)
  })
})
