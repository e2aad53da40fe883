// Verdicts on the loss limit: by the figure that the requirements name, for one channel, for all channels together, and
// over the temperature range.

import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { NO_LIGHT_DB } from '../../optics/index'
import type { ArrayResult } from '../array/runArray'
import { countText } from '../results/countText'
import type { Evaluation } from '../results/evaluation'
import { type Verdict, verdict, within } from '../results/verdict'
import type { Percentile, YieldResult } from '../yield/yieldResult'

const NEEDS_RUN = 'a percentile needs a yield run of the numbers as they are now'

/** Two decimals, or as many more as it takes to tell the figure from the limit. */
function besides(lossDb: number, limitDb: number): string {
  const digits =
    [2, 3, 4, 6].find((each) => lossDb === limitDb || Number(lossDb.toFixed(each)) !== limitDb) ?? 9
  return lossDb.toFixed(digits)
}

const limitOf = ({ requirements }: Project): number => coreValue(requirements.lossLimit, 'loss')

/** The percentile that the requirements name, from a yield run that still holds. */
function percentileOf({ requirements }: Project, run: YieldResult): Percentile | undefined {
  return run.percentiles.find((each) => Math.abs(each.share - requirements.lossPercentile / 100) < 1e-9)
}

const percentileText = (lossDb: number): string =>
  lossDb < NO_LIGHT_DB ? lossDb.toFixed(2) : `> ${NO_LIGHT_DB}`

function percentileVerdict(label: string, project: Project, run: YieldResult): Verdict {
  const found = percentileOf(project, run)
  if (found === undefined) {
    return verdict('loss', label, 'not known', 'the yield run looked at other percentiles')
  }
  const { lossDb, lowDb, highDb } = found
  return verdict(
    'loss',
    label,
    within(lossDb <= limitOf(project)),
    `${percentileText(lossDb)} dB, ${percentileText(lowDb)} to ${percentileText(highDb)} at 95 % confidence, from ${countText(run.samples)} samples`,
  )
}

export function lossVerdict(project: Project, evaluation: Evaluation, run: YieldResult | null): Verdict {
  const { lossBasis, lossPercentile, channels } = project.requirements
  const limitDb = limitOf(project)
  const one = channels > 1 ? ', one channel' : ''
  const basis = lossBasis === 'percentile' ? `${lossPercentile} % of assemblies${one}` : lossBasis
  const label = `Loss ≤ ${limitDb} dB, ${basis}`
  if (lossBasis === 'percentile') {
    return run === null
      ? verdict('loss', label, 'not known', NEEDS_RUN)
      : percentileVerdict(label, project, run)
  }
  const lossDb = {
    nominal: evaluation.nominalDb,
    'root sum square': evaluation.rootSumSquare.lossDb,
    'worst corner': evaluation.worstCorner.lossDb,
  }[lossBasis]
  return verdict(
    'loss',
    label,
    within(lossDb <= limitDb),
    `${besides(lossDb, limitDb)} dB against ${limitDb} dB`,
  )
}

/** Whether every channel of a block meets the limit often enough; asked only where a percentile is wanted of several. */
export function allChannelsVerdict(project: Project, run: ArrayResult | null): readonly Verdict[] {
  const { lossBasis, lossPercentile, channels } = project.requirements
  if (lossBasis !== 'percentile' || channels < 2) return []
  const label = `All ${channels} channels ≤ ${limitOf(project)} dB, ${lossPercentile} % of blocks`
  const found = run?.aims.find((each) => each.aim === run.aim) ?? run?.aims[0]
  if (run === null || found === undefined) {
    return [verdict('all-channels', label, 'not known', 'needs an array run of the numbers as they are now')]
  }
  const percent = (share: number) => (100 * share).toFixed(1)
  const { low, high } = found.allChannelsInterval
  const reason = `${percent(found.allChannelsYield)} %, ${percent(low)} to ${percent(high)} at 95 % confidence, from ${countText(run.samples)} blocks`
  return [verdict('all-channels', label, within(100 * found.allChannelsYield >= lossPercentile), reason)]
}

const minus = (text: string): string => text.replaceAll('-', '−')

/** The same figure as the loss limit is judged by, at the worst temperature of the range. */
export function temperatureVerdict(
  project: Project,
  { temperature }: Evaluation,
  run: YieldResult | null,
): Verdict {
  const { lossBasis, lossPercentile, temperatureMin, temperatureMax } = project.requirements
  const limitDb = limitOf(project)
  const label = minus(`Loss at ${temperatureMin.value} to ${temperatureMax.value} °C`)
  const answer = (lossDb: number, words: string) =>
    verdict('temperature', label, within(lossDb <= limitDb), minus(`${words} against ${limitDb} dB`))
  if (temperature === null) return verdict('temperature', label, 'not known', 'no mount is described')
  const { worstC, worstDb, rootSumSquareDb, worstCornerDb } = temperature
  switch (lossBasis) {
    case 'nominal':
      return answer(worstDb, `nominal ${besides(worstDb, limitDb)} dB at ${Number(worstC.toFixed(1))} °C`)
    case 'root sum square':
      return answer(
        rootSumSquareDb,
        `root sum square ${besides(rootSumSquareDb, limitDb)} dB at the worst temperature`,
      )
    case 'worst corner':
      return answer(
        worstCornerDb,
        `worst corner ${besides(worstCornerDb, limitDb)} dB at the worst temperature`,
      )
    case 'percentile': {
      const found = run === null ? undefined : percentileOf(project, run)
      return found === undefined
        ? verdict('temperature', label, 'not known', NEEDS_RUN)
        : answer(
            found.lossDb,
            `${lossPercentile} % of assemblies within ${percentileText(found.lossDb)} dB, each at its worst temperature,`,
          )
    }
  }
}
