// A yield by real fields on one worker: the fit of the difference within 3 s, and a million samples with it within 1.5 s of
// processor time: a machine that is busy with other things is no slower by it. The fibre is
// the exact mode of a high-NA core, the facet a skewed mode with exponential tails in closed form.

import '../support/fitsHere'
import { tryEvaluate } from '../../src/analysis/index'
import { assemblyOf } from '../../src/analysis/yield/assembly'
import { blocksOf, runBlocks } from '../../src/analysis/yield/runBlocks'
import { fieldProject, skewedMode } from '../analysis/support/fieldDraws'
import { printSpread, printVerdict, processorMs, spreadOf, timeMs } from './timing'

const SAMPLES = 1_000_000
const RUNS = 5
const FIT_SECONDS = 3
const YIELD_SECONDS = 1.5
const FITS = 3

/** Other offsets every time, so that no fit is known. */
const fresh = (run: number) =>
  fieldProject({
    field: skewedMode(),
    powerShare: 1,
    mfdXUm: 2.6 + run / 1e4,
    mfdYUm: 2.4,
    offsetsUm: 1.2,
    inGel: true,
  })

const fits = spreadOf(
  Array.from({ length: FITS }, (_, run) => {
    const { project, id } = fresh(run + 1)
    return timeMs(() => tryEvaluate(project, id)) / 1000
  }),
)
printSpread('fit and evaluation', fits, 's', 2)
printVerdict(`the fit of the difference takes under ${FIT_SECONDS} s`, fits.median < FIT_SECONDS)

const { project, id } = fresh(0)
const result = assemblyOf(project, id)
if (!result.ok) throw new Error('the design cannot be computed')
const options = { samples: SAMPLES, seed: 16537, method: 'sobol' } as const
const run = () => runBlocks(result.value, options, 0, blocksOf(SAMPLES))
const seconds = spreadOf(Array.from({ length: RUNS }, () => processorMs(run) / 1000))
printSpread('a million samples by fields, processor time', seconds, 's', 2)
printVerdict(`a million samples by fields take under ${YIELD_SECONDS} s`, seconds.median < YIELD_SECONDS)
