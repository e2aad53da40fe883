// Eight candidates of all families compared anew after a change that touches every one of them: within 50 ms.

import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { tryEvaluate } from '../../src/analysis/index'
import { insertStub } from '../../src/model/designs/chainEdits'
import { quantityOf } from '../../src/model/quantity/quantity'
import { familiesProject, relayElement } from '../analysis/support/families'
import { printSpread, printVerdict, spreadOf, timeMs } from './timing'

const RUNS = 40
const LIMIT_MS = 50

const focused = relayElement({ frontGap: quantityOf(991.567, 'um'), backGap: quantityOf(301.321, 'um') })
const base = familiesProject(focused)
// The eighth is a second relay, the dearest family: a stub spliced on before it.
const eight = base.candidates.flatMap((candidate) => {
  if (candidate.id !== 'relay') return [candidate]
  const behindStub = { ...structuredClone(candidate), id: 'relay-behind-stub' }
  insertStub(behindStub.chain, 0, 'fibre-high-na')
  return [candidate, behindStub]
})

/** A new facet mode each time, so that nothing is remembered from the run before. */
function changed(run: number) {
  const facets = base.facets.map((facet) => ({
    ...facet,
    mfdX: quantityOf(3.3 + run / 1000, 'um', 'data sheet', 0.2),
  }))
  return { ...base, facets, candidates: eight }
}

const compare = (run: number) => timeMs(() => compareCandidates(changed(run), tryEvaluate))

console.log(`  ${eight.length} candidates, cold: ${compare(0).toFixed(0)} ms`)
const spread = spreadOf(Array.from({ length: RUNS }, (_, run) => compare(run + 1)))
printSpread('comparison', spread, 'ms', 1)
printVerdict(`a comparison takes under ${LIMIT_MS} ms`, spread.median < LIMIT_MS)
