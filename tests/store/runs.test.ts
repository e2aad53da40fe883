import { describe, expect, test } from 'vitest'
import { usualSequence } from '../../src/analysis/assembly/usualSequence'
import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Project } from '../../src/model/schema/project'
import { inputsOf } from '../../src/store/runs'
import { agedProject } from '../support/agedProject'
import { askLoss } from '../support/askLoss'

const ID = 'high-na-bonded'
const changed = (recipe: (project: Project) => void) => {
  const project = demoProject()
  recipe(project)
  return inputsOf(project, ID)
}
const before = inputsOf(demoProject(), ID)

describe('the inputs of a run', () => {
  test('change with a requirement, a part, a tolerance, a mount', () => {
    const changes: readonly ((project: Project) => void)[] = [
      (project) => {
        askLoss(project, { limitDb: 1.5 })
      },
      (project) => {
        const [facet] = project.facets
        if (facet !== undefined) facet.mfdX = quantityOf(3.5, 'um')
      },
      (project) => {
        const gap = project.candidates[1]?.chain[3]
        if (gap?.kind === 'gap') gap.offsetX = quantityOf(0, 'um', 'estimate', 0.1)
      },
      (project) => {
        const candidate = project.candidates[1]
        if (candidate !== undefined) candidate.mount = undefined
      },
    ]
    for (const change of changes) expect(changed(change)).not.toBe(before)
  })

  test('do not change with a name, a remark or another candidate', () => {
    const same = changed((project) => {
      project.name = 'Other'
      const [other, own] = project.candidates
      if (own !== undefined) own.name = 'Renamed'
      if (other !== undefined) other.chain = []
    })
    expect(same).toBe(before)
  })

  test('change with the readings of the stress test that the design takes its drift from, and with no other readings', () => {
    const aged = (driftDb: number, id = ID) => inputsOf(agedProject(id, driftDb), ID)
    expect(aged(0.1)).not.toBe(aged(0.2))
    expect(aged(0.1)).toBe(aged(0.1))
    expect(aged(0.1, 'cleaved-dry')).toBe(aged(0.2, 'cleaved-dry'))
  })

  test.each(['yield', 'array', 'shareOut', 'assembly'] as const)(
    'of %s contain the sequence where it is run through',
    (kind) => {
      const planned = demoProject()
      const design = planned.candidates.find(({ id }) => id === ID)
      if (design === undefined) throw new Error('no design')
      design.assembly = structuredClone(usualSequence(planned, design))
      expect(inputsOf(planned, ID, kind) !== inputsOf(demoProject(), ID, kind)).toBe(kind === 'assembly')
    },
  )
})
