// A project as large as the rules allow: 500 parts of every kind, 100 designs of 39 elements (a chain has an odd number of them),
// each of which splices 18 stubs of its own together before the gap at the chip.

import { demoProject } from '../../src/model/index'
import { quantityOf } from '../../src/model/quantity/quantity'
import type { Candidate } from '../../src/model/schema/candidate'
import type { Project } from '../../src/model/schema/project'
import { LIMITS } from '../../src/model/words/limits'

const numbers = (count: number) => Array.from({ length: count }, (_, at) => at)

/** So many copies of the entries of a list, each under a name of its own. */
function filled<Entry extends { readonly id: string; readonly name: string }>(
  entries: readonly Entry[],
  most: number,
): Entry[] {
  const more = numbers(most - entries.length).flatMap((at) => {
    const entry = entries[at % entries.length]
    if (entry === undefined) return []
    return [{ ...structuredClone(entry), id: `${entry.id}-${at}`, name: `${entry.name} ${at}` }]
  })
  return [...structuredClone(entries), ...more]
}

export function largestProject(candidates: number = LIMITS.candidates): Project {
  const demo = demoProject()
  const first = demo.candidates.find((each) => each.id === 'cleaved-dry') ?? demo.candidates[0]
  const cleaved = demo.fibres[0]
  if (first === undefined || cleaved === undefined) throw new Error('the demo has no design')
  const cores = numbers(LIMITS.parts).map((at) => ({
    ...structuredClone(cleaved),
    id: `fibre-${at}`,
    name: `Fibre ${at}`,
    mode: {
      kind: 'core' as const,
      coreDiameter: quantityOf(8.2 - (at % 50) / 100, 'um', 'data sheet', 0.2),
      na: quantityOf(0.12 + (at % 10) / 1000, '1', 'data sheet', 0.005),
    },
  }))
  const end = structuredClone(first.chain.slice(-2))
  const designs = numbers(candidates).map((at): Candidate => {
    const stubs = numbers(18).flatMap((position) => [
      {
        kind: 'splice' as const,
        id: `splice-${position}`,
        basis: 'abrupt' as const,
        loss: quantityOf(0.05, 'dB'),
      },
      {
        kind: 'stub' as const,
        id: `stub-${position}`,
        fibreId: `fibre-${(at * 18 + position + 1) % LIMITS.parts}`,
        length: quantityOf(10, 'mm'),
      },
    ])
    const start = { kind: 'fibre' as const, id: 'fibre', fibreId: `fibre-${at % LIMITS.parts}` }
    return {
      ...structuredClone(first),
      id: at === 0 ? first.id : `design-${at}`,
      name: `Design ${at}`,
      chain: [start, ...stubs, ...structuredClone(end)] as Candidate['chain'],
    }
  })
  return {
    ...demo,
    name: 'Largest project',
    fibres: cores,
    facets: filled(demo.facets, LIMITS.parts),
    media: filled(demo.media, LIMITS.parts),
    converters: filled(demo.converters, LIMITS.parts),
    lenses: filled(demo.lenses, LIMITS.parts),
    candidates: designs,
  }
}
