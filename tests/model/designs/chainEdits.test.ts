import { describe, expect, test } from 'vitest'
import {
  gapToRelay,
  insertStub,
  insertTaperChip,
  relayToGap,
  removeGuide,
} from '../../../src/model/designs/chainEdits'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { familiesProject } from '../../analysis/support/families'

const chainOf = (id: string) => {
  const chain = structuredClone(familiesProject().candidates.find((each) => each.id === id)?.chain)
  if (chain === undefined) throw new Error(`no ${id}`)
  return chain
}
const kinds = (chain: ReturnType<typeof chainOf>) => chain.map(({ kind }) => kind)

describe('edits of a path keep waveguides and joints alternating', () => {
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

  test('what does not fit is left alone: fibre and facet stay, a gap has no lenses to remove', () => {
    const chain = chainOf('cleaved-dry')
    removeGuide(chain, 0)
    removeGuide(chain, 2)
    relayToGap(chain, 1)
    expect(kinds(chain)).toEqual(['fibre', 'gap', 'facet'])
  })
})
