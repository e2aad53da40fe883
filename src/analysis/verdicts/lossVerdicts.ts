// Verdicts on the loss limits: by the figure that each criterion names, for one channel or for all channels together, and over
// the temperature range.

import { asksAllChannels, percentileName, requirementLabel } from '../../model/project/statedRequirements'
import { lossText } from '../../model/quantity/lossText'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import type { LossCriterion } from '../../model/schema/requirements'
import { countText, fixedText, plainText, roundedTo, withMinus } from '../../numerics/numberText'
import type { AimResult, ArrayResult } from '../array/runArray'
import type { Evaluation } from '../results/evaluation'
import { metIf, type NeededRun, type Verdict, type VerdictStatus, verdict } from '../results/verdict'
import type { Percentile, YieldResult } from '../yield/yieldResult'

/** Why a figure is provisional. */
const WAITS = 'provisional, while the real fields and lens aberration are being computed'

interface Runs {
  /** Runs of the values as they are now; null where there is none. */
  readonly one: YieldResult | null
  readonly all: ArrayResult | null
}

/** Two decimals, or as many more as it takes to distinguish the value from the limit. */
function besides(lossDb: number, limitDb: number): string {
  const digits = [2, 3, 4, 6].find((each) => lossDb === limitDb || roundedTo(lossDb, each) !== limitDb) ?? 9
  return fixedText(lossDb, digits)
}

const limitOf = ({ limit }: LossCriterion): number => coreValue(limit, 'loss')

const limitText = (limitDb: number): string => `≤ ${limitDb} dB`

const atShare = (percentiles: readonly Percentile[], { percentile }: LossCriterion) =>
  percentiles.find((each) => Math.abs(each.share - percentile / 100) < 1e-9)

const aimOf = (run: ArrayResult | null): AimResult | undefined =>
  run?.aims.find((each) => each.aim === run.aim) ?? run?.aims[0]

const RUN_NAMES: Readonly<Record<NeededRun, string>> = { yield: 'a yield run', array: 'an array run' }

interface Found {
  readonly found: Percentile | undefined
  readonly needs: NeededRun
  readonly counted: string
}

/** The percentile that a criterion names, from the run that answers it. */
function foundPercentile({ requirements }: Project, criterion: LossCriterion, runs: Runs): Found {
  if (asksAllChannels(criterion, requirements)) {
    const found = atShare(aimOf(runs.all)?.worstChannelPercentiles ?? [], criterion)
    return { found, needs: 'array', counted: `${countText(runs.all?.samples ?? 0)} assemblies` }
  }
  const found = runs.one === null ? undefined : atShare(runs.one.percentiles, criterion)
  return { found, needs: 'yield', counted: `${countText(runs.one?.samples ?? 0)} samples` }
}

function percentileVerdict(
  project: Project,
  criterion: LossCriterion,
  evaluation: Evaluation,
  runs: Runs,
): Verdict {
  const label = requirementLabel(project.requirements, criterion.id)
  const { found, needs, counted } = foundPercentile(project, criterion, runs)
  if (found === undefined) {
    return {
      ...verdict(criterion.id, label, 'not known', `needs ${RUN_NAMES[needs]} with the current values`),
      limit: limitText(limitOf(criterion)),
      needs,
    }
  }
  const limitDb = limitOf(criterion)
  const { lossDb, lowDb, highDb } = found
  const met = lossDb <= limitDb
  const rssDb = evaluation.rootSumSquare.lossDb
  const differs = !met && rssDb <= limitDb && !evaluation.awaitsFit
  const reason = `${lossText(lossDb)} dB (${lossText(lowDb)} to ${lossText(highDb)} dB at 95 % confidence, ${counted}); limit ${limitDb} dB`
  const rss = differs ? `; RSS of ${besides(rssDb, limitDb)} dB passes, but RSS is not a percentile` : ''
  return {
    ...verdict(criterion.id, label, metIf(met), reason + rss),
    value: lossText(lossDb),
    limit: limitText(limitDb),
  }
}

/** What a yield run says against an RSS that passes: empty where it agrees or there is none. */
function percentileAgainstRss(limitDb: number, { one }: Runs): string {
  const worst = one?.percentiles.at(-1)
  if (worst === undefined || worst.lossDb <= limitDb) return ''
  return `${percentileName(100 * worst.share)} is ${lossText(worst.lossDb)} dB`
}

function figureOf(
  { nominalDb, rootSumSquare, worstCorner }: Evaluation,
  basis: LossCriterion['basis'],
): number {
  switch (basis) {
    case 'RSS':
      return rootSumSquare.lossDb
    case 'worst case':
      return worstCorner.lossDb
    default:
      return nominalDb
  }
}

function lossVerdict(
  project: Project,
  criterion: LossCriterion,
  evaluation: Evaluation,
  runs: Runs,
): Verdict {
  const { basis, id } = criterion
  if (basis === 'percentile') return percentileVerdict(project, criterion, evaluation, runs)
  const limitDb = limitOf(criterion)
  const lossDb = figureOf(evaluation, basis)
  if (evaluation.awaitsFit && basis !== 'nominal') {
    const reason = `${besides(lossDb, limitDb)} dB, ${WAITS}; limit ${limitDb} dB`
    return {
      ...verdict(id, requirementLabel(project.requirements, id), 'not known', reason),
      value: besides(lossDb, limitDb),
      limit: limitText(limitDb),
      provisional: true,
    }
  }
  const differs = basis === 'RSS' && lossDb <= limitDb ? percentileAgainstRss(limitDb, runs) : ''
  const said = differs === '' ? '' : `, but ${differs}, above the limit: RSS is not a percentile`
  return {
    ...verdict(
      id,
      requirementLabel(project.requirements, id),
      metIf(lossDb <= limitDb),
      `${besides(lossDb, limitDb)} dB; limit ${limitDb} dB${said}`,
    ),
    value: besides(lossDb, limitDb),
    limit: limitText(limitDb),
    ...(differs !== '' && { caveat: differs }),
  }
}

/** One verdict for every loss criterion, in their order. */
export function lossVerdicts(project: Project, evaluation: Evaluation, runs: Runs): readonly Verdict[] {
  return project.requirements.losses.map((criterion) => lossVerdict(project, criterion, evaluation, runs))
}

interface Answer {
  readonly status: VerdictStatus
  readonly text: string
  /** The figure, with its limit. */
  readonly figure?: { readonly lossDb: number; readonly limitDb: number }
  readonly needs?: NeededRun
  readonly provisional?: boolean
}

/** One criterion at the worst temperature. Runs look at every assembly at its own worst temperature already. */
function overTemperature(
  project: Project,
  criterion: LossCriterion,
  temperature: NonNullable<Evaluation['temperature']>,
  awaitsFit: boolean,
  runs: Runs,
): Answer {
  const limitDb = limitOf(criterion)
  const provisional = awaitsFit && criterion.basis !== 'percentile'
  const answer = (lossDb: number, words: string): Answer => ({
    status: provisional ? 'not known' : metIf(lossDb <= limitDb),
    text: `${words}${provisional ? `, ${WAITS}` : ''}; limit ${limitDb} dB`,
    figure: { lossDb, limitDb },
    provisional,
  })
  const { worstC, worstDb, rootSumSquareDb, worstCornerDb } = temperature
  switch (criterion.basis) {
    case 'nominal':
      return answer(
        worstDb,
        `nominal ${besides(worstDb, limitDb)} dB at ${plainText(roundedTo(worstC, 1))} °C`,
      )
    case 'RSS':
      return answer(rootSumSquareDb, `RSS ${besides(rootSumSquareDb, limitDb)} dB at the worst temperature`)
    case 'worst case':
      return answer(
        worstCornerDb,
        `worst case ${besides(worstCornerDb, limitDb)} dB at the worst temperature`,
      )
    case 'percentile': {
      const { found, needs } = foundPercentile(project, criterion, runs)
      const name = percentileName(criterion.percentile)
      if (found === undefined) {
        return {
          status: 'not known',
          text: `${name} needs ${RUN_NAMES[needs]} with the current values`,
          needs,
        }
      }
      const scope = needs === 'array' ? ', all channels' : ''
      return answer(
        found.lossDb,
        `${name}${scope} ${lossText(found.lossDb)} dB, each assembly at its worst temperature`,
      )
    }
  }
}

const WORST_FIRST: readonly VerdictStatus[] = ['not met', 'not known', 'met']

/** Every loss criterion again, at the worst temperature of the range. */
export function temperatureVerdict(
  project: Project,
  { temperature, awaitsFit }: Evaluation,
  runs: Runs,
): Verdict {
  const label = requirementLabel(project.requirements, 'temperature')
  if (temperature === null) return verdict('temperature', label, 'not known', 'no mount defined')
  const { losses, wishes = [] } = project.requirements
  const deciding = losses.filter(({ id }) => !wishes.includes(id))
  const asked = deciding.length > 0 ? deciding : losses
  const answers = asked.map((criterion) => overTemperature(project, criterion, temperature, awaitsFit, runs))
  const status = WORST_FIRST.find((each) => answers.some((answer) => answer.status === each)) ?? 'not known'
  const needs = answers.find((answer) => answer.needs !== undefined)?.needs
  const decisive = answers.find((answer) => answer.status === status)
  return {
    ...verdict('temperature', label, status, withMinus(answers.map(({ text }) => text).join('; '))),
    ...(decisive?.figure !== undefined && {
      value: lossText(decisive.figure.lossDb),
      limit: limitText(decisive.figure.limitDb),
    }),
    ...(decisive?.provisional === true && { provisional: true }),
    ...(status === 'not known' && needs !== undefined && { needs }),
  }
}
