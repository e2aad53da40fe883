import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { settledCandidate } from '../../../src/analysis/tolerance/bestSettings'
import { CATALOGUE } from '../../../src/model/catalogue/catalogue'
import { CANDIDATE_TEMPLATES } from '../../../src/model/designs/candidateTemplates'
import {
  gapToRelay,
  insertStub,
  insertTaperChip,
  relayToGap,
  removeGuide,
} from '../../../src/model/designs/chainEdits'
import { parseProject } from '../../../src/model/index'
import { addParts } from '../../../src/model/parts/addParts'
import { emptyProject } from '../../../src/model/project/emptyProject'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { familiesProject } from '../../analysis/support/families'

const chainOf = (id: string) => {
  const chain = structuredClone(familiesProject().candidates.find((each) => each.id === id)?.chain)
  if (chain === undefined) throw new Error(`no ${id}`)
  return chain
}
const kinds = (chain: ReturnType<typeof chainOf>) => chain.map(({ kind }) => kind)

describe('changes of a chain keep guides and joins in turn', () => {
  test('a stub goes in behind a fibre, takes its lensed tip over, and comes out again', () => {
    const chain = chainOf('ground-tip')
    insertStub(chain, 0, 'fibre-high-na')
    expect(kinds(chain)).toEqual(['fibre', 'splice', 'stub', 'gap', 'facet'])
    expect(chain[0]).toMatchObject({ tipId: undefined })
    expect(chain[2]).toMatchObject({ tipId: 'tip-ground' })
    removeGuide(chain, 2)
    expect(kinds(chain)).toEqual(['fibre', 'gap', 'facet'])
  })

  test('two taper chips in a row have ids of their own', () => {
    const chain = chainOf('taper')
    insertTaperChip(chain, 2, 'taper', 'adhesive')
    expect(kinds(chain)).toEqual(['fibre', 'gap', 'taper chip', 'gap', 'taper chip', 'gap', 'facet'])
    expect(new Set(chain.map(({ id }) => id)).size).toBe(chain.length)
  })

  test('lenses go into a gap and out of it, and the pose stays', () => {
    const chain = chainOf('cleaved-dry')
    if (chain[1]?.kind === 'gap') chain[1].offsetX = quantityOf(0.7, 'um')
    gapToRelay(chain, 1, 'air', 'lens-1', 'lens-2')
    expect(chain[1]).toMatchObject({ kind: 'relay', id: 'gap', offsetX: { value: 0.7 } })
    relayToGap(chain, 1)
    expect(chain[1]).toMatchObject({ kind: 'gap', id: 'gap', offsetX: { value: 0.7 } })
  })

  test('what does not fit is left alone: fibre and facet stay, a gap has no lenses to take out', () => {
    const chain = chainOf('cleaved-dry')
    removeGuide(chain, 0)
    removeGuide(chain, 2)
    relayToGap(chain, 1)
    expect(kinds(chain)).toEqual(['fibre', 'gap', 'facet'])
  })
})

describe('a template', () => {
  const full = () => {
    const project = emptyProject()
    addParts(project, CATALOGUE)
    return project
  }

  test.each(CANDIDATE_TEMPLATES)('$id makes a candidate that can be computed and saved', (template) => {
    const project = full()
    expect(template.missing(project)).toEqual([])
    const candidate = settledCandidate(project, template.make(project, 'new'))
    project.candidates.push(candidate)
    const compiled = compileCandidate(parseProject(project), 'new')
    expect(compiled.ok ? [] : compiled.issues).toEqual([])
  })

  test('says every part that an empty project lacks', () => {
    const missing = Object.fromEntries(
      CANDIDATE_TEMPLATES.map((template) => [template.id, template.missing(emptyProject())]),
    )
    expect(missing.butt).toEqual(['a fibre', 'a facet'])
    expect(missing.relay).toEqual(['a fibre', 'a facet', 'a lens'])
    expect(missing['taper-chip']).toEqual(['a fibre', 'a facet', 'a taper chip'])
  })

  test('of an on-chip taper takes the facet that widens the mode most: about 5 to 6 um', () => {
    const project = full()
    const onChip = CANDIDATE_TEMPLATES.find((each) => each.id === 'on-chip')
    const facet = onChip?.make(project, 'new').chain.at(-1)
    const entry = project.facets.find((each) => facet?.kind === 'facet' && each.id === facet.facetId)
    expect(entry).toMatchObject({
      mfdX: { value: 5.5 },
      mfdY: { value: 5 },
      substrateLeakage: { value: 0.5 },
    })
    for (const each of project.facets) each.tipWidth = undefined
    expect(onChip?.missing(project)).toEqual(['the tip width of a taper on a facet'])
  })

  test('of a lensed fibre starts at its working distance, and counts the drift of its holder', () => {
    const project = full()
    const tip = CANDIDATE_TEMPLATES.find((each) => each.id === 'tip')
    if (tip === undefined) throw new Error('no template')
    const gap = settledCandidate(project, tip.make(project, 'new')).chain[1]
    expect(gap).toMatchObject({ gap: { value: 5 }, bondShift: { x: { tolerance: { plusMinus: 0.2 } } } })
  })
})
