// The totals below a budget, each with what it assumes.

import type { Evaluation } from '../../analysis/results/evaluation'
import { aboveWorstCase } from '../../analysis/yield/aboveWorstCase'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { percentileName } from '../../model/project/statedRequirements'
import { lossText, throughputText } from '../../model/quantity/lossText'
import { fixedText, nmOf, plainText, roundedTo } from '../../numerics/numberText'

/** Differences below this are not worth a line. */
export const LEAST_SHOWN_DB = 0.005

export interface Total {
  readonly label: string
  readonly lossDb: number
  readonly note: string
  /** True for the totals that a design is judged by; the others answer one question each. */
  readonly main: boolean
  /** True where it waits for a fit and may still change. */
  readonly provisional?: boolean
}

const WAITS = 'provisional: real fields and lens aberration are being computed'

/** What a yield run that still holds says of the same path. */
function percentileTotals(run: YieldResult | null, limitDb: number): readonly Total[] {
  if (run === null) return []
  return run.percentiles
    .filter(({ share }) => share >= 0.9)
    .map(({ share, lossDb }, at) => ({
      label: percentileName(100 * share),
      lossDb,
      note: [
        ...(at === 0 ? [`yield ${fixedText(100 * run.yield, 1)} % at ${limitDb} dB`] : ['one channel']),
        ...(run.temperaturesC.length > 0 ? ['over temperature'] : []),
      ].join(', '),
      main: true,
    }))
}

function largestText({ contributions }: Evaluation['rootSumSquare']): string {
  const [largest] = contributions
  return largest === undefined || largest.addedDb < LEAST_SHOWN_DB
    ? 'no tolerance adds loss'
    : `largest ${lossText(largest.addedDb)} dB: ${largest.label}`
}

const minus = (text: string) => text.replaceAll('-', '−')

/** Totals of one question each, where their answer differs from the nominal loss. */
function furtherTotals(evaluation: Evaluation): readonly Total[] {
  const { nominalDb, ripples, band, polarisation, temperature, awaitsFit } = evaluation
  const maximumDb = ripples.reduce((sum, each) => sum + each.crestGainDb, 0)
  const minimumDb = ripples.reduce((sum, each) => sum + each.troughLossDb, 0)
  const totals: Total[] = []
  if (minimumDb >= LEAST_SHOWN_DB) {
    totals.push({
      label: 'Nominal, worst ripple',
      lossDb: nominalDb + minimumDb,
      note: `ripple −${lossText(maximumDb)} to +${lossText(minimumDb)} dB`,
      main: false,
    })
  }
  if (polarisation.dependentLossDb >= LEAST_SHOWN_DB) {
    totals.push({
      label: 'Nominal, worst polarisation',
      lossDb: Math.max(polarisation.teDb, polarisation.tmDb),
      note: `TE ${lossText(polarisation.teDb)}, TM ${lossText(polarisation.tmDb)}`,
      main: false,
    })
  }
  if (band !== null && band.worstDb - nominalDb >= LEAST_SHOWN_DB) {
    totals.push({
      label: 'Nominal, worst wavelength',
      lossDb: band.worstDb,
      note: `at ${nmOf(band.worstUm)} nm`,
      main: false,
    })
  }
  if (temperature !== null) {
    totals.push({
      label: 'Nominal, worst temperature',
      lossDb: temperature.worstDb,
      note: minus(
        `${plainText(roundedTo(temperature.worstC, 1))} °C; RSS ${lossText(temperature.rootSumSquareDb)}, worst ${lossText(temperature.worstCornerDb)}`,
      ),
      main: false,
      provisional: awaitsFit,
    })
  }
  return totals
}

/** Nominal, RSS, percentiles of a run that still holds, worst case; then what answers one question each. */
export function totalsOf(evaluation: Evaluation, run: YieldResult | null, limitDb: number): readonly Total[] {
  const { nominalDb, rootSumSquare, worstCorner, awaitsFit } = evaluation
  const above = aboveWorstCase(evaluation, run)
  return [
    { label: 'Nominal', lossDb: nominalDb, note: `${throughputText(nominalDb)} transmitted`, main: true },
    {
      label: 'RSS',
      lossDb: rootSumSquare.lossDb,
      note: awaitsFit ? WAITS : largestText(rootSumSquare),
      main: true,
      provisional: awaitsFit,
    },
    ...percentileTotals(run, limitDb),
    {
      label: 'Worst case',
      lossDb: worstCorner.lossDb,
      note: awaitsFit
        ? WAITS
        : `${worstCorner.exhaustive ? 'all tolerances at limits' : 'at limits, not exhaustive'}${above === null ? '' : `; ${above}`}`,
      main: true,
      provisional: awaitsFit,
    },
    ...furtherTotals(evaluation),
  ]
}
