import { describe, expect, test } from 'vitest'
import { demoProject, parseProject, projectText, readProject } from '../../../src/model/index'
import { designOf, keepRevision, restoredProject } from '../../../src/model/project/revisions'
import { LIMITS } from '../../../src/model/words/limits'

const NAME = { name: 'Before the tape-out', date: '2026-11-25', remark: 'as ordered' }

describe('a kept revision', () => {
  test('survives the file and brings the design back as it was, readings and revisions left alone', () => {
    const project = demoProject()
    const before = structuredClone(designOf(project))
    expect(keepRevision(project, designOf(project), NAME)).toBeNull()
    project.facets[0]!.mfdX.value = 4
    project.candidates.pop()
    const read = parseProject(JSON.parse(projectText(project)))
    const id = read.revisions![0]!.id
    const back = restoredProject(read, id)!
    expect(designOf(back)).toEqual(before)
    expect(back.revisions).toEqual(read.revisions)
    expect(back.measurements).toBe(read.measurements)
    expect(restoredProject(read, 'nope')).toBeNull()
  })

  test('is refused under a name that is taken, and beyond the limit', () => {
    const project = demoProject()
    expect(keepRevision(project, designOf(project), NAME)).toBeNull()
    expect(keepRevision(project, designOf(project), NAME)).toBe(
      'a revision named "Before the tape-out" already exists',
    )
    for (let i = 1; i < LIMITS.revisions; i++) {
      keepRevision(project, designOf(project), { ...NAME, name: `R${i}` })
    }
    expect(keepRevision(project, designOf(project), { ...NAME, name: 'one too many' })).toBe(
      'the project has 50 revisions; at most 50 are kept',
    )
  })

  test('with an id that points nowhere is refused with its path', () => {
    const project = demoProject()
    keepRevision(project, designOf(project), NAME)
    const file = JSON.parse(projectText(project)) as typeof project
    file.revisions![0]!.design.facets = []
    const result = readProject(file)
    expect(result.ok).toBe(false)
    expect(result.ok ? [] : result.issues.map(({ message }) => message)).toContain(
      'revisions[0].design.candidates[0].chain[2].facetId is "facet-nitride", which is not among facets; known: none',
    )
  })
})

test('a file of before there were reviews and revisions opens and is written back unchanged', () => {
  const text = projectText(demoProject())
  expect(text).not.toContain('"review"')
  expect(text).not.toContain('"revisions"')
  expect(JSON.parse(projectText(parseProject(JSON.parse(text))))).toEqual(JSON.parse(text))
})
