import { describe, expect, test } from 'vitest'
import { sequenceIssues } from '../../src/analysis/path/vector/sequence'
import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { ChainElement } from '../../src/model/schema/candidate'
import { pathEdits } from '../../src/ui/path/pathEdits'

const project = demoProject()
const design = project.candidates.find(({ id }) => id === 'high-na-bonded')
if (design === undefined) throw new Error('no design')
const { chain } = design
const positionOf = (kind: ChainElement['kind']) => chain.findIndex((each) => each.kind === kind)
const editAt = (kind: ChainElement['kind'], id: string) =>
  pathEdits(project, design, positionOf(kind)).find((each) => each.id === id)

describe('edits of a path', () => {
  test('that are offered leave a path that can be built', () => {
    for (const at of chain.keys()) {
      for (const { edit } of pathEdits(project, design, at)) {
        if (edit === null) continue
        const tried = structuredClone(chain) as ChainElement[]
        edit(tried)
        expect(sequenceIssues(tried, project, [])).toEqual([])
      }
    }
  })

  test('that cannot be made say why', () => {
    expect(editAt('fibre', 'remove')).toMatchObject({ edit: null, why: 'A path starts with a fibre.' })
    expect(editAt('facet', 'remove')).toMatchObject({ edit: null, why: 'A path ends at a chip facet.' })
    expect(editAt('stub', 'on')).toMatchObject({ edit: null, why: 'No stub or SSC chip after it.' })
    for (const at of chain.keys()) {
      for (const { edit, why } of pathEdits(project, design, at)) expect(edit === null).toBe(why !== '')
    }
  })

  test('swap stubs and remove them with their splice', () => {
    const stub = chain[positionOf('stub')] as ChainElement
    const two = structuredClone(chain) as ChainElement[]
    const splice = two[positionOf('splice')] as ChainElement
    two.splice(positionOf('stub') + 1, 0, { ...splice, id: 'splice-2' }, {
      ...stub,
      id: 'stub-2',
    } as ChainElement)
    const on = pathEdits(project, { chain: two }, positionOf('stub')).find(({ id }) => id === 'on')
    on?.edit?.(two)
    expect(two.filter(({ kind }) => kind === 'stub').map(({ id }) => id)).toEqual(['stub-2', stub.id])
    const shorter = structuredClone(chain) as ChainElement[]
    editAt('stub', 'remove')?.edit?.(shorter)
    expect(shorter.map(({ kind }) => kind)).toEqual(['fibre', 'gap', 'facet'])
  })
})

describe('a relay for a row of channels', () => {
  const row = (channels: number, pitchUm: number) => ({
    ...project,
    requirements: { ...project.requirements, channels, pitch: quantityOf(pitchUm, 'um') },
    lenses: [],
  })
  const relay = (of: typeof project) =>
    pathEdits(of, design, positionOf('gap')).find(({ id }) => id === 'relay')

  test('is offered with lens arrays of its pitch, never with single lenses that do not fit it', () => {
    const offered = relay(row(8, 250))
    expect(offered?.edit).not.toBeNull()
    expect(offered?.lenses.length).toBeGreaterThan(1)
    for (const { pitch, clearAperture } of offered?.lenses ?? []) {
      expect(pitch?.value).toBe(250)
      expect(clearAperture.value).toBeLessThan(250)
    }
    expect(relay(row(8, 400))?.lenses.map(({ pitch }) => pitch?.value)).toEqual([400, 400, 400])
    // Where the pitch is wide enough for a mounted lens each, single lenses are used.
    expect(relay(row(8, 2000))?.lenses.every(({ pitch }) => pitch === undefined)).toBe(true)
  })

  test('says why where no array is that fine, and one channel takes what is in Parts', () => {
    expect(relay(row(8, 50))).toMatchObject({ edit: null, why: expect.stringContaining('50 µm') })
    expect(relay(row(1, 250))).toMatchObject({ edit: null, why: 'Needs a lens and a gas in Parts.' })
  })
})
