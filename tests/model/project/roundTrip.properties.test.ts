// What a project file holds is what was in the project, for everything that a project can be.

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { demoProject, parseProject, projectText, readProject } from '../../../src/model'
import { projectCheck } from '../../../src/model/project/projectCheck'
import { projects } from '../../support/arbitraryProject'

test('any project that the schemas allow reads back as it was, and the check of edits finds nothing in it', () => {
  const check = projectCheck()
  fc.assert(
    fc.property(projects, (project) => {
      expect(parseProject(JSON.parse(projectText(project)))).toEqual(project)
      expect(check(project)).toEqual([])
    }),
    { numRuns: 40 },
  )
})

describe('the check of what an edit has changed', () => {
  const check = projectCheck()

  const damages: Readonly<Record<string, (project: ReturnType<typeof demoProject>) => void>> = {
    'a name without letters': (project) => {
      project.name = ''
    },
    'a value that is no number': (project) => {
      project.facets[0]!.mfdX.value = Number.NaN
    },
    'a value beyond its rule': (project) => {
      project.requirements.wavelength.value = 1e9
    },
    'a reference to nothing': (project) => {
      project.fibres = []
    },
    'an id twice': (project) => {
      project.facets.push(project.facets[0]!)
    },
    'too many candidates': (project) => {
      project.candidates = Array.from({ length: 101 }, (_, at) => ({
        ...project.candidates[0]!,
        id: `candidate-${at}`,
      }))
    },
    'a list that is none': (project) => {
      Object.assign(project, { media: 7 })
    },
    'a key of the prototype': (project) => {
      Object.defineProperty(project.facets[0], 'constructor', { value: 1, enumerable: true })
    },
    'a revision whose design points to nothing': (project) => {
      const {
        format: _,
        version: __,
        measurements: ___,
        revisions: ____,
        ...design
      } = structuredClone(project)
      project.revisions = [{ id: 'r', name: 'R', date: '2026-03-14', design: { ...design, fibres: [] } }]
    },
    'more text than is read': (project) => {
      const note = 'µ'.repeat(4000)
      for (const facet of project.facets) facet.mfdX.note = note
      project.candidates[0]!.userLines = Array.from({ length: 200 }, (_, at) => ({
        id: `line-${at}`,
        label: 'Line',
        kind: 'user line' as const,
        loss: { value: 0, unit: 'dB' as const, provenance: 'estimate' as const, note },
      }))
      project.candidates = Array.from({ length: 35 }, (_, at) => ({
        ...project.candidates[0]!,
        id: `candidate-${at}`,
      }))
    },
  }

  test.each(Object.entries(damages))('says of %s what the reader says', (_, damage) => {
    const project = demoProject()
    damage(project)
    const text = projectText(project)
    const issues = check(project)
    expect(issues.length).toBeGreaterThan(0)
    const read = readProject(JSON.parse(text))
    if (!read.ok) expect(issues).toEqual(read.issues)
  })

  test('looks again at an entry that has changed, and at nothing else', () => {
    const before = demoProject()
    expect(check(before)).toEqual([])
    let looks = 0
    const watched = new Proxy(before.facets[0]!, {
      get: (facet, key) => {
        looks += 1
        return Reflect.get(facet, key)
      },
      ownKeys: (facet) => {
        looks += 1
        return Reflect.ownKeys(facet)
      },
    })
    const project = { ...before, facets: [watched, ...before.facets.slice(1)] }
    expect(check(project)).toEqual([])
    const first = looks
    expect(first).toBeGreaterThan(0)
    expect(check({ ...project, name: 'Renamed' })).toEqual([])
    // Its id is requested: ids are compared over the whole project.
    expect(looks - first).toBeLessThan(10)
    expect(check({ ...project, name: '' })[0]?.message).toContain('name')
  })
})
