// The losses and yields of one design that a decision rests on. A figure without its run is null, and named all the same.

import { askedShares, leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import type { SheetCandidate } from '../candidates'
import { throughputCell } from '../document/cells'
import { provisionalLabel } from '../provisional'

export interface LossFigure {
  readonly id: string
  readonly label: string
  /** Null where a run is missing or no mount is defined. */
  readonly lossDb: number | null
  /** 95 % interval of a simulated percentile; null where there is none. */
  readonly intervalDb: readonly [number, number] | null
  readonly basis: string
}

export interface YieldFigure {
  readonly id: 'yield' | 'array-yield'
  readonly label: string
  /** Share within the limit, 0 to 1, with its interval; null where the run is missing. */
  readonly share: number | null
  readonly interval: readonly [number, number] | null
  readonly limitDb: number
  /** Share that the requirements ask for, 0 to 1; null where they ask for none. */
  readonly askedShare: number | null
}

const P99 = 0.99

/** The percentiles of one channel that are requested, and P99. */
function percentiles(project: Project, { yield: run }: SheetCandidate): readonly LossFigure[] {
  const shares = [...new Set([...askedShares(project.requirements), P99])].sort((a, b) => a - b)
  return shares.map((share) => {
    const found = run?.percentiles.find((each) => Math.abs(each.share - share) < 1e-9)
    const name = percentileName(100 * share)
    return {
      id: `percentile-${share}`,
      label: `${name}, one channel`,
      lossDb: found?.lossDb ?? null,
      intervalDb: found === undefined ? null : [found.lowDb, found.highDb],
      basis: found === undefined ? 'yield run missing' : `${run?.samples ?? 0} simulated assemblies`,
    }
  })
}

/** Nominal, RSS, percentiles, worst case, and the worst temperature where a mount is defined. */
export function lossFigures(project: Project, candidate: SheetCandidate): readonly LossFigure[] {
  const { nominalDb, rootSumSquare, worstCorner, temperature } = candidate.evaluation
  const moving = (label: string) => provisionalLabel(label, candidate.evaluation)
  const figure = (id: string, label: string, lossDb: number, basis: string): LossFigure => ({
    id,
    label,
    lossDb,
    intervalDb: null,
    basis,
  })
  return [
    figure('nominal', 'Nominal', nominalDb, `${throughputCell(nominalDb).text} % transmitted`),
    figure('rss', moving('RSS'), rootSumSquare.lossDb, 'independent tolerances'),
    ...percentiles(project, candidate),
    figure('worst', moving('Worst case'), worstCorner.lossDb, 'tolerances at their limits'),
    ...(temperature === null
      ? []
      : [
          figure(
            'temperature',
            moving('Nominal, worst temperature'),
            temperature.worstDb,
            `at ${fixedText(temperature.worstC, 0)} °C`,
          ),
        ]),
  ]
}

const askedOf = (project: Project, channels: 'one' | 'all'): number | null => {
  const asked = project.requirements.losses.find(
    (each) => each.basis === 'percentile' && (each.channels === 'all') === (channels === 'all'),
  )
  return asked === undefined ? null : asked.percentile / 100
}

/** One channel, and all channels of an array, against the leading limit. */
export function yieldFigures(
  project: Project,
  { yield: run, array }: SheetCandidate,
): readonly YieldFigure[] {
  const limitDb = coreValue(leadingLoss(project.requirements).limit, 'loss')
  const { channels } = project.requirements
  const aim = array?.aims.find((each) => each.aim === array.aim) ?? array?.aims[0]
  const one: YieldFigure = {
    id: 'yield',
    label: 'Yield, one channel',
    share: run?.yield ?? null,
    interval: run === null ? null : [run.yieldInterval.low, run.yieldInterval.high],
    limitDb,
    askedShare: askedOf(project, 'one'),
  }
  if (channels === 1) return [one]
  return [
    one,
    {
      id: 'array-yield',
      label: `Yield, all ${channels} channels`,
      share: aim?.allChannelsYield ?? null,
      interval: aim === undefined ? null : [aim.allChannelsInterval.low, aim.allChannelsInterval.high],
      limitDb,
      askedShare: askedOf(project, 'all'),
    },
  ]
}
