// Eight candidates of all families compared anew after a change that touches every one of them: within 50 ms on a machine that does the
// fixed loop of timing.ts in 25 ms, which is 2 loops on any.

import '../support/fitsHere'
import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { tryEvaluate } from '../../src/analysis/index'
import { insertStub } from '../../src/model/designs/chainEdits'
import { quantityOf } from '../../src/model/quantity/quantity'
import { familiesProject, relayElement } from '../analysis/support/families'
import { fixedLoopMs, printSpread, printVerdict, processorMs, spreadOf } from './timing'

const RUNS = 40
const LIMIT_LOOPS = 2

const focused = relayElement({ frontGap: quantityOf(991.567, 'um'), backGap: quantityOf(301.321, 'um') })
const base = familiesProject(focused)
// The eighth is a second relay, the dearest family: a stub spliced on before it.
const eight = base.candidates.flatMap((candidate) => {
  if (candidate.id !== 'relay') return [candidate]
  const behindStub = { ...structuredClone(candidate), id: 'relay-behind-stub' }
  insertStub(behindStub.chain, 0, 'fibre-high-na')
  return [candidate, behindStub]
})

/** A new facet mode each time, so that nothing is remembered from the previous run. */
function changed(run: number) {
  const facets = base.facets.map((facet) => ({
    ...facet,
    mfdX: quantityOf(3.3 + run / 1000, 'um', 'data sheet', 0.2),
  }))
  return { ...base, facets, candidates: eight }
}

const compare = (run: number) => processorMs(() => compareCandidates(changed(run), tryEvaluate))

console.log(`  ${eight.length} candidates, cold: ${compare(0).toFixed(0)} ms`)
// Loop and comparison in turns, so that both see the same machine.
const runs = Array.from({ length: RUNS }, (_, run) => ({ loopMs: fixedLoopMs(), ms: compare(run + 1) }))
printSpread('comparison', spreadOf(runs.map(({ ms }) => ms)), 'ms', 1)
printSpread('fixed loop', spreadOf(runs.map(({ loopMs }) => loopMs)), 'ms', 1)
const ratio = spreadOf(runs.map(({ ms, loopMs }) => ms / loopMs))
printSpread('comparison', ratio, 'loops', 2)
printVerdict(`a comparison takes under ${LIMIT_LOOPS} fixed loops`, ratio.median < LIMIT_LOOPS)
