// What a yield run takes for granted, in words for the screen and the review sheet.

import { RULES } from '../../model/quantity/quantityRules'
import type { PoseAxis } from '../../model/words/candidate'
import { drawnRange } from '../results/drawnRange'
import type { Variable } from '../results/evaluation'
import { temperatureWords } from '../temperature/rises'
import { deviationOf } from '../tolerance/deviation'
import type { Assembly } from './assembly'

const AXIS_NAMES: Readonly<Record<PoseAxis, string>> = {
  offsetX: 'offset x',
  offsetY: 'offset y',
  gap: 'gap',
  tiltX: 'tilt x',
  tiltY: 'tilt y',
  roll: 'roll',
}

/** A limit is worth a sentence when this share of the draws would cross it. */
const WORTH_SAYING = 1e-4

/** Quantities of which some draws stop at a limit of what they can be. */
function stoppedAtLimits(variables: readonly Variable[]): readonly string[] {
  return variables.flatMap((variable) => {
    const { spread, nominal, rule, label } = variable
    if (spread.halfWidth === 0) return []
    const deviation = deviationOf(spread)
    const { minCore, maxCore } = RULES[rule]
    const low = nominal + deviation(WORTH_SAYING) < minCore
    const high = nominal + deviation(1 - WORTH_SAYING) > maxCore
    const [least, most] = drawnRange(variable)
    const limit = low ? least : most
    return low || high ? [`Samples of ${label} beyond ${limit} are set to that limit.`] : []
  })
}

export function assumptionsOf(assembly: Assembly): readonly string[] {
  const { compiled, temperaturesC } = assembly
  const aligned = compiled.candidate.chain.flatMap((element) =>
    element.kind === 'gap' || element.kind === 'relay' ? (element.aligned ?? []) : [],
  )
  return [
    'One channel, aligned by itself; every toleranced quantity is sampled independently, and a part used twice is sampled once.',
    'Normal tolerances: the half width is two standard deviations unless the number says otherwise.',
    aligned.length === 0
      ? 'No active alignment: every position is sampled about its entered value.'
      : `Actively aligned on power: ${aligned.map((axis) => AXIS_NAMES[axis]).join(', ')}; their tolerance is the residual misalignment.`,
    temperaturesC.length === 0
      ? 'No mount defined: temperature causes no displacement.'
      : `Each assembly passes only if it passes at ${temperatureWords(temperaturesC)}.`,
    'Intervals: Wilson for the yield, order statistics for percentiles, both at 95 %, as if samples were independent; Sobol points scatter less.',
    ...stoppedAtLimits(compiled.variables),
  ]
}
