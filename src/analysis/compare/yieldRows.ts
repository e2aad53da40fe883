// Results of yield and array runs for a candidate, with their number of samples and seed.

import { leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import { lossText } from '../../model/quantity/lossText'
import type { Project } from '../../model/schema/project'
import { countText, fixedText, signedText } from '../../numerics/numberText'
import { hasArrayRun } from '../array/arrayDefaults'
import type { AimResult } from '../array/runArray'
import {
  gainIsTold,
  gainsDiffer,
  NOT_TOLD,
  percentileChangeText,
  rankedGainDb,
} from '../results/percentileGain'
import { WORST_SINGLE_CHANNEL } from '../results/worstChannel'
import type { Percentile } from '../yield/yieldResult'
import type { ComparisonCell } from './comparison'
import type { RowSpec, Subject } from './comparisonRows'

const NO_RUN: ComparisonCell = { value: null, text: 'not evaluated', reason: 'needs a yield run' }
const NO_ARRAY: ComparisonCell = { value: null, text: 'not evaluated', reason: 'needs an array run' }
const ARRAY_TAB_ONLY: ComparisonCell = {
  ...NO_ARRAY,
  reason: 'needs an array run on the Array tab: a row behind lenses',
}
const noArray = ({ project, candidate }: Subject) =>
  hasArrayRun(project, candidate) ? NO_ARRAY : ARRAY_TAB_ONLY
export const SINGLE_CHANNEL: ComparisonCell = { value: null, text: 'one channel' }

const percent = (share: number) => fixedText(100 * share, 1)
const range = (low: number, high: number) => `${percent(low)} to ${percent(high)}`

function lossAt(percentile: number): RowSpec['read'] {
  return ({ run }) => {
    const share = percentile / 100
    const found: Percentile | undefined = run?.percentiles.find((each) => Math.abs(each.share - share) < 1e-9)
    return found === undefined
      ? NO_RUN
      : {
          value: found.lossDb,
          text: lossText(found.lossDb),
          reason: `${lossText(found.lowDb)} to ${lossText(found.highDb)}`,
        }
  }
}

function oneChannel({ run }: Subject): ComparisonCell {
  if (run === null) return NO_RUN
  const { yieldInterval, samples, seed, method } = run
  const points = method === 'sobol' ? 'Sobol' : 'pseudo-random'
  return {
    value: 100 * run.yield,
    text: percent(run.yield),
    reason: `${range(yieldInterval.low, yieldInterval.high)}; ${countText(samples)} ${points} samples, seed ${seed}`,
  }
}

function aimOf({ array }: Subject): AimResult | undefined {
  return array?.aims.find((each) => each.aim === array.aim) ?? array?.aims[0]
}

function allChannels(subject: Subject): ComparisonCell {
  if (subject.project.requirements.channels < 2) return SINGLE_CHANNEL
  const found = aimOf(subject)
  const { array } = subject
  if (array === null || found === undefined) return noArray(subject)
  const { low, high } = found.allChannelsInterval
  return {
    value: 100 * found.allChannelsYield,
    text: percent(found.allChannelsYield),
    reason: `${range(low, high)}; ${countText(array.samples)} arrays, seed ${array.seed}`,
  }
}

function worstChannel(subject: Subject): ComparisonCell {
  if (subject.project.requirements.channels < 2) return SINGLE_CHANNEL
  const found = aimOf(subject)
  return found === undefined
    ? noArray(subject)
    : { value: 100 * found.worstChannelYield, text: percent(found.worstChannelYield) }
}

function tightenFirst({ run, project }: Subject): ComparisonCell {
  if (run === null) return NO_RUN
  // Where halving does not raise the yield, because no assembly passes or all do, the percentile still ranks the tolerances.
  const [first, ...others] = run.ranking.toSorted(
    (a, b) => b.yieldGainHalved - a.yieldGainHalved || rankedGainDb(b) - rankedGainDb(a),
  )
  if (first === undefined) return { value: null, text: 'no tolerance' }
  const points = 100 * first.yieldGainHalved
  const gain = `${signedText(points, 1)} percentage points of yield`
  const at = percentileName(leadingLoss(project.requirements).percentile)
  const change = percentileChangeText(first)
  const reason = `halved: ${gain}, ${at} ${gainIsTold(first) ? `${change} dB` : NOT_TOLD}`
  if (points > 0) return { value: null, text: first.label, reason }
  if (!gainIsTold(first)) return { value: null, text: NOT_TOLD, reason: 'needs a longer yield run' }
  const equals = others.filter((each) => gainIsTold(each) && !gainsDiffer(first, each))
  return {
    value: null,
    text: [first, ...equals].map(({ label }) => label).join(' or '),
    reason: equals.length === 0 ? reason : `${reason}; not distinguishable from each other`,
  }
}

const row = (
  id: string,
  label: string,
  unit: string,
  better: RowSpec['better'],
  read: RowSpec['read'],
): RowSpec => ({ id, group: 'Yield', label, unit, digits: unit === 'dB' ? 2 : 1, better, read })

/** The median, P99, and the percentile that is required where it is neither; per cent, ascending. */
const percentiles = ({ requirements }: Project): readonly number[] =>
  [...new Set([50, 99, leadingLoss(requirements).percentile])].toSorted((a, b) => a - b)

export const yieldRows = (project: Project): readonly RowSpec[] => [
  row('yield', 'Yield, one channel', '%', 'higher', oneChannel),
  ...percentiles(project).map((percentile) =>
    row(`p${percentile}`, `${percentileName(percentile)}, one channel`, 'dB', 'lower', lossAt(percentile)),
  ),
  row('tighten', 'Tolerance most worth halving', '', null, tightenFirst),
  row('all-channels', 'Yield, all channels', '%', 'higher', allChannels),
  row('worst-channel', WORST_SINGLE_CHANNEL, '%', 'higher', worstChannel),
]
