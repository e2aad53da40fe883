import { describe, expect, test } from 'vitest'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { designChanges } from '../../../src/analysis/revisions/changes'
import { changeEffects, EFFECT_SAMPLES } from '../../../src/analysis/revisions/effects'
import { demoProject } from '../../../src/model/index'
import { designOf } from '../../../src/model/project/revisions'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'

const ID = 'high-na-bonded'

function changed(): Project {
  const project = demoProject()
  project.facets[0]!.mfdX = quantityOf(3.9, 'um', 'measured', 0.1)
  const gap = project.candidates[1]!.chain.find((element) => element.kind === 'gap')
  if (gap?.kind === 'gap') {
    gap.gap.value = 5
    gap.roll.value = 2
  }
  return project
}

const applied = (before: Project, after: Project) =>
  designChanges(designOf(before), designOf(after)).reduce(
    (design, change) => change.apply(design),
    designOf(before),
  )

describe('changes between two designs', () => {
  test('are named one by one in words, with both values', () => {
    const changes = designChanges(designOf(demoProject()), designOf(changed()))
    expect(changes.map(({ label, before, after }) => [label, before, after])).toEqual([
      [
        'Silicon-nitride facet: MFD x',
        '3.4 µm, ± 0.2 µm uniform, estimate',
        '3.9 µm, ± 0.1 µm uniform, measured',
      ],
      ['High-NA stub, bonded: gap: gap', '3 µm, ± 1 µm uniform, estimate', '5 µm, ± 1 µm uniform, estimate'],
      ['High-NA stub, bonded: gap: roll', '0°, ± 0.03° uniform, estimate', '2°, ± 0.03° uniform, estimate'],
    ])
  })

  test('applied one after the other make the later design, whatever comes, goes or moves', () => {
    const before = demoProject()
    const after = changed()
    after.candidates.splice(0, 1)
    after.candidates[0]!.chain.splice(1, 2)
    after.candidates[0]!.mount = undefined
    after.media.push({ ...after.media[0]!, id: 'new', name: 'New medium' })
    after.requirements.channels = 4
    after.requirements.costCeiling = 30
    const made = applied(before, after)
    expect(JSON.parse(JSON.stringify(made))).toEqual(JSON.parse(JSON.stringify(designOf(after))))
    expect(designChanges(designOf(after), designOf(after))).toEqual([])
  })

  test('of how the sheet looks are no changes of the design', () => {
    const after = demoProject()
    after.review = { paper: 'Letter' }
    expect(designChanges(designOf(demoProject()), designOf(after))).toEqual([])
  })
})

describe('the effects of changes', () => {
  test('are the core’s losses and yields of the earlier project with one change alone, and of the later one', () => {
    const before = demoProject()
    const after = changed()
    const found = changeEffects(before, after, ID)
    expect(found.before.lossDb).toBe(evaluateCandidate(before, ID).nominalDb)
    expect(found.after.lossDb).toBe(evaluateCandidate(after, ID).nominalDb)
    const options = { samples: EFFECT_SAMPLES, seed: after.seed, rankingPoints: null }
    expect(found.before.yield).toBe(runYield(before, ID, options).yield)
    expect(found.after.yield).toBe(runYield(after, ID, options).yield)
    const gapAlone = demoProject()
    const gap = gapAlone.candidates[1]!.chain.find((element) => element.kind === 'gap')
    if (gap?.kind === 'gap') gap.gap.value = 5
    expect(found.effects[1]?.alone.lossDb).toBe(evaluateCandidate(gapAlone, ID).nominalDb)
    expect(found.effects[1]?.alone.yield).toBe(runYield(gapAlone, ID, options).yield)
  })

  test('say that a change cannot be computed alone, and do not invent a number', () => {
    const before = demoProject()
    const after = demoProject()
    after.media.push({ ...after.media[0]!, id: 'argon', name: 'Argon' })
    const gap = after.candidates[1]!.chain.find((element) => element.kind === 'gap')
    if (gap?.kind === 'gap') gap.mediumId = 'argon'
    const found = changeEffects(before, after, ID)
    const alone = found.effects.map((each) => [each.change.label, each.alone.lossDb === null])
    expect(alone).toContainEqual(['High-NA stub, bonded: gap: medium id', true])
    expect(found.after.lossDb).not.toBeNull()
  })
})
