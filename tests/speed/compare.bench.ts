// Eight candidates of all families compared anew after a change that touches every one of them. What the page does before it shows the
// comparison takes at most 50 ms on a machine that does the fixed loop of timing.ts in 25 ms, which is 2 loops on any. What workers
// then add, the sums over real fields of tips and relays, is printed beside it.

import '../support/fitsHere'
import { compareCandidates } from '../../src/analysis/compare/compareCandidates'
import { fitElsewhere } from '../../src/analysis/field/fit/knownFits'
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

/** As on the page, where sums over fields are requests to workers. */
function compareOnPage(run: number): number {
  const end = fitElsewhere(() => undefined)
  const ms = compare(run)
  end()
  return ms
}

console.log(`  ${eight.length} candidates, cold: ${compareOnPage(0).toFixed(0)} ms`)
// Loop and comparisons in turns, so that all see the same machine.
const runs = Array.from({ length: RUNS }, (_, run) => ({
  loopMs: fixedLoopMs(),
  pageMs: compareOnPage(run + 1),
  wholeMs: compare(run + 1),
}))
const page = spreadOf(runs.map(({ pageMs, loopMs }) => pageMs / loopMs))
const whole = spreadOf(runs.map(({ pageMs, wholeMs, loopMs }) => (pageMs + wholeMs) / loopMs))
printSpread('fixed loop', spreadOf(runs.map(({ loopMs }) => loopMs)), 'ms', 1)
printSpread('comparison on the page', spreadOf(runs.map(({ pageMs }) => pageMs)), 'ms', 1)
printSpread('comparison on the page', page, 'loops', 2)
printSpread('with the sums over fields', whole, 'loops', 2)
printVerdict(`a comparison on the page takes under ${LIMIT_LOOPS} fixed loops`, page.median < LIMIT_LOOPS)
