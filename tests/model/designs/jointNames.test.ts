import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { chipJoint, jointNames, jointWords, ofJoint } from '../../../src/model/designs/jointNames'
import { demoProject } from '../../../src/model/project/demoProject'
import { familiesProject } from '../../analysis/support/families'

const project = familiesProject()
const chainOf = (id: string) => project.candidates.find((each) => each.id === id)?.chain ?? []

describe('names of joints', () => {
  test('number the joints only where there are several, and always say what they join', () => {
    expect([...jointNames(chainOf('taper')).values()]).toMatchObject([
      { tag: 'joint 1', between: 'fibre to SSC chip' },
      { tag: 'joint 2', between: 'SSC chip to facet' },
    ])
    expect([...jointNames(chainOf('relay')).values()]).toMatchObject([{ tag: '', between: 'fibre to facet' }])
    // A splice is no free-space joint.
    expect([...jointNames(chainOf('high-na-bonded')).values()]).toMatchObject([
      { tag: '', between: 'stub to facet' },
    ])
  })

  test('leave the label of a single joint as it is', () => {
    const [single] = jointNames(chainOf('relay')).values()
    expect(ofJoint('Gap', single)).toBe('Gap')
    expect(ofJoint('Gap', undefined)).toBe('Gap')
  })

  test('name a joint in a table by what it joins, and a splice by its kind', () => {
    const idOf = (id: string, kind: string) => chainOf(id).find((each) => each.kind === kind)?.id ?? ''
    expect(jointWords(chainOf('relay'), idOf('relay', 'relay'))).toBe('fibre to facet')
    expect(jointWords(chainOf('taper'), idOf('taper', 'gap'))).toBe('joint 1, fibre to SSC chip')
    expect(jointWords(chainOf('high-na-bonded'), idOf('high-na-bonded', 'splice'))).toBe('splice')
  })
})

describe('a path with two gaps', () => {
  test('has no two lines of its budget and no two toleranced quantities of one name', () => {
    const lines = evaluateCandidate(project, 'taper').lines.map(({ label }) => label)
    expect(new Set(lines).size).toBe(lines.length)
    const compiled = compileCandidate(project, 'taper')
    if (!compiled.ok) throw new Error('not computed')
    const labels = compiled.value.variables.map(({ label }) => label)
    expect(new Set(labels).size).toBe(labels.length)
  })
})

test('the joint that a mount moves is the one at the chip, named by its number where the path has several', () => {
  const saidOf = (id: string) => {
    const joint = chipJoint(demoProject().candidates.find((each) => each.id === id)?.chain ?? [])
    return ofJoint(`end face of the ${joint?.near}`, joint)
  }
  expect(saidOf('ssc-chip')).toBe('end face of the SSC chip, joint 2')
  expect(saidOf('cleaved-dry')).toBe('end face of the fibre')
  expect(saidOf('relay')).toBe('end face of the fibre')
})
