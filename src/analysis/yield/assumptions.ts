// The assumptions of a yield run, as sentences for the screen and the review sheet.

import { alignedMembers, MEMBER_NAMES } from '../../model/designs/alignOrder'
import { jointNames } from '../../model/designs/jointNames'
import { setAxes } from '../../model/designs/stationTolerances'
import { RULES } from '../../model/quantity/quantityRules'
import { plainText, roundedTo } from '../../numerics/numberText'
import { movedModels } from '../path/movedModels'
import type { Variable } from '../results/evaluation'
import { sampledRange } from '../results/sampledRange'
import { temperatureWords } from '../temperature/rises'
import { deviationOf } from '../tolerance/deviation'
import type { Assembly } from './assembly'

/** A limit is worth a sentence when this share of the samples would cross it. */
const WORTH_SAYING = 1e-4

/** Quantities of which some samples are clamped at a physical limit. */
function stoppedAtLimits(variables: readonly Variable[]): readonly string[] {
  return variables.flatMap((variable) => {
    const { spread, nominal, rule, label } = variable
    if (spread.halfWidth === 0) return []
    const deviation = deviationOf(spread)
    const { minCore, maxCore } = RULES[rule]
    const low = nominal + deviation(WORTH_SAYING) < minCore
    const high = nominal + deviation(1 - WORTH_SAYING) > maxCore
    const [least, most] = sampledRange(variable)
    const limit = low ? least : most
    return low || high ? [`Samples of ${label} beyond ${limit} are set to that limit.`] : []
  })
}

export function assumptionsOf(assembly: Assembly): readonly string[] {
  const { compiled, temperaturesC } = assembly
  const { chain } = compiled.candidate
  const names = jointNames(chain)
  const aligned = chain.flatMap((element) => {
    const labels = setAxes(element).flatMap(({ setting, label }) => (setting === 'active' ? [label] : []))
    const tag = names.get(element.id)?.tag ?? ''
    return labels.length === 0 ? [] : [`${labels.join(', ')}${tag === '' ? '' : ` (${tag})`}`]
  })
  const orders = chain.flatMap((element) => {
    const members = element.kind === 'relay' ? alignedMembers(element) : []
    return members.length < 2 ? [] : [members.map((member) => MEMBER_NAMES[member]).join(', then ')]
  })
  return [
    'Single channel, positioned individually; every toleranced quantity is sampled independently, and a part used twice is sampled once.',
    'Normally distributed tolerances: ± is two standard deviations unless entered otherwise.',
    aligned.length === 0
      ? 'No active alignment: every position is sampled about its entered value.'
      : `Actively aligned on power: ${aligned.join('; ')}. Their tolerance is the residual misalignment.`,
    ...orders.map((order) => `Relay aligned in the order ${order}, one at a time, with the others fixed.`),
    temperaturesC.length === 0
      ? 'No mount defined: temperature causes no displacement.'
      : `Each assembly passes only if it passes at ${temperatureWords(temperaturesC)}.`,
    'Intervals: Wilson for the yield, order statistics for percentiles, both at 95 %, as if samples were independent; Sobol points scatter less.',
    ...compiled.joins.flatMap(({ contact }) =>
      contact === undefined || contact.gapUm <= 0
        ? []
        : [
            `A sampled gap below ${plainText(roundedTo(contact.gapUm, 1))} µm is computed at that gap: ${contact.body} and ${contact.obstacle} touch there in the nominal pose.`,
          ],
    ),
    ...movedModels(compiled),
    ...stoppedAtLimits(compiled.variables),
  ]
}
