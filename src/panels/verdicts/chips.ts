// Each verdict in a few words: what is judged, the number, the limit, and the depth tab that shows why.

import type { Evaluation, Verdict } from '../../analysis/index'
import { returnLossText } from '../../analysis/verdicts/lightVerdicts'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import type { DepthTab } from '../../store/view'
import { lossText } from '../../ui/text/numbers'

export interface Chip {
  readonly name: string
  /** Empty where there is no number, or none that still holds. */
  readonly value: string
  readonly limit: string
  readonly tab: DepthTab
}

const BASIS_NAMES = { nominal: 'Nominal', 'root sum square': 'RSS', 'worst corner': 'Worst case' } as const
const BASIS_LOSSES = {
  nominal: (evaluation: Evaluation) => evaluation.nominalDb,
  'root sum square': (evaluation: Evaluation) => evaluation.rootSumSquare.lossDb,
  'worst corner': (evaluation: Evaluation) => evaluation.worstCorner.lossDb,
} as const

/** The loss at the percentile that the requirements name, where a run that still holds knows it. */
function percentileText({ requirements }: Project, run: YieldResult | null): string {
  const share = requirements.lossPercentile / 100
  const found = run?.percentiles.find((each) => Math.abs(each.share - share) < 1e-9)
  return found === undefined ? '' : lossText(found.lossDb)
}

const minus = (value: number) => String(value).replace('-', '−')

/** The verdict's chip; `run` is a yield run that still holds. */
export function chipOf(
  verdict: Verdict,
  project: Project,
  evaluation: Evaluation,
  run: YieldResult | null,
): Chip {
  const { requirements } = project
  const { lossBasis, lossPercentile, channels, pitch } = requirements
  const lossLimit = `≤ ${coreValue(requirements.lossLimit, 'loss')} dB`
  const basis = lossBasis === 'percentile' ? `P${lossPercentile}` : BASIS_NAMES[lossBasis]
  switch (verdict.id) {
    case 'loss': {
      const value =
        lossBasis === 'percentile'
          ? percentileText(project, run)
          : lossText(BASIS_LOSSES[lossBasis](evaluation))
      return { name: basis, value, limit: lossLimit, tab: 'yield' }
    }
    case 'all-channels':
      return { name: `All ${channels} channels`, value: '', limit: lossLimit, tab: 'array' }
    case 'band':
      return {
        name: 'Band',
        value: evaluation.band === null ? '' : lossText(evaluation.band.worstDb),
        limit: lossLimit,
        tab: 'spectrum',
      }
    case 'return-loss': {
      const least = Math.min(
        evaluation.returnLossDb ?? Number.MAX_VALUE,
        evaluation.band?.leastReturnLossDb ?? Number.MAX_VALUE,
      )
      return {
        name: 'Return loss',
        value: returnLossText(least).replace(' dB', ''),
        limit: `≥ ${requirements.returnLoss === undefined ? 0 : coreValue(requirements.returnLoss, 'returnLoss')} dB`,
        tab: 'reflections',
      }
    }
    case 'temperature': {
      const { temperature } = evaluation
      const at = {
        nominal: temperature?.worstDb,
        'root sum square': temperature?.rootSumSquareDb,
        'worst corner': temperature?.worstCornerDb,
        percentile: undefined,
      }[lossBasis]
      const value =
        lossBasis === 'percentile' && temperature !== null
          ? percentileText(project, run)
          : at === undefined
            ? ''
            : lossText(at)
      return {
        name: `${minus(requirements.temperatureMin.value)}…${minus(requirements.temperatureMax.value)} °C`,
        value,
        limit: lossLimit,
        tab: 'temperature',
      }
    }
    case 'pitch':
      return {
        name: `${channels} × ${Number(coreValue(pitch, 'pitch').toPrecision(6))} µm`,
        value: '',
        limit: '',
        tab: 'array',
      }
    case 'extinction':
      return { name: 'PER', value: '', limit: '', tab: 'polarisation' }
    case 'pdl':
      return { name: 'PDL', value: '', limit: '', tab: 'polarisation' }
    case 'polarisation':
      return { name: 'PM', value: '', limit: '', tab: 'polarisation' }
    case 'irradiance':
      return { name: 'Irradiance', value: '', limit: '', tab: 'power' }
    default:
      return { name: verdict.label, value: '', limit: '', tab: 'tolerance' }
  }
}
