// The three biggest risks of a design: the tolerance that matters most, the first caution, the largest estimate; where one of
// these is missing, the next of the others follows. The order within each kind is that of the core.

import { worthNarrowing } from '../../analysis/array/arrayRanking'
import { gainIsTold, gainName } from '../../analysis/results/percentileGain'
import type { RankedTolerance } from '../../analysis/yield/yieldResult'
import { withUnitLabel } from '../../model/quantity/units'
import { fixedText, plainText } from '../../numerics/numberText'
import type { SheetCandidate } from '../candidates'

type RiskKind = 'tolerance' | 'caution' | 'estimate'

export interface Risk {
  readonly kind: RiskKind
  readonly text: string
}

const MOST_RISKS = 3

const points = (share: number) => `${fixedText(100 * share, 1)} percentage points`

function halvingText(tolerance: RankedTolerance): string {
  if (tolerance.yieldGainHalved >= 0.001)
    return `halving it raises the yield by ${points(tolerance.yieldGainHalved)}`
  return gainIsTold(tolerance)
    ? `halving it lowers ${gainName([tolerance])} by ${fixedText(tolerance.percentileGainHalvedDb, 2)} dB`
    : `halving it has no distinguishable effect on ${gainName([tolerance])} at this run length`
}

/** By the simulated ranking; without a run by the excess losses of the single tolerances. */
function tolerances({ yield: run, array, evaluation }: SheetCandidate): readonly string[] {
  const ofArray = (array === null || array.aims[0]?.channels.length === 1 ? [] : array.ranking.tolerances)
    .filter(worthNarrowing)
    .slice(0, 1)
    .map(
      ({ label, plusMinus, unit, yieldGainHalved }) =>
        `${label}, ± ${withUnitLabel(plainText(plusMinus, 3), unit)}: halving it raises the all-channel yield by ${points(yieldGainHalved)}.`,
    )
  if (run !== null) {
    const ranked = run.ranking
      .filter(({ total }) => total >= 0.05)
      .map(
        (each) =>
          `${each.label}, ± ${withUnitLabel(plainText(each.plusMinus, 3), each.unit)}: ${fixedText(100 * each.total, 0)} % of the variance; ${halvingText(each)}.`,
      )
    return [...ofArray, ...ranked]
  }
  return evaluation.rootSumSquare.contributions
    .filter(({ addedDb }) => addedDb >= 0.01)
    .toSorted((a, b) => b.addedDb - a.addedDb)
    .map(({ label, addedDb }) => `${label}: ${fixedText(addedDb, 2)} dB alone at its worse limit.`)
}

function cautions({ evaluation, verdicts }: SheetCandidate): readonly string[] {
  return [
    ...verdicts
      .filter(({ status, needs, wish }) => status === 'not known' && needs === undefined && wish !== true)
      .map(({ label, reason }) => `${label} is not evaluated: ${reason}.`),
    ...evaluation.validity.filter(({ caution }) => caution === true).map(({ message }) => message),
  ]
}

function estimates({ lines }: SheetCandidate): readonly string[] {
  return lines
    .filter(({ provenance, lossDb }) => provenance === 'estimate' && lossDb >= 0.01)
    .toSorted((a, b) => b.lossDb - a.lossDb)
    .map(({ label, lossDb }) => `${label}: ${fixedText(lossDb, 2)} dB is an estimate; confirm it.`)
}

/** Three at most, one of each kind before a second of any. */
export function risks(candidate: SheetCandidate): readonly Risk[] {
  const kinds: readonly (readonly [RiskKind, readonly string[]])[] = [
    ['tolerance', tolerances(candidate)],
    ['caution', cautions(candidate)],
    ['estimate', estimates(candidate)],
  ]
  const most = Math.max(...kinds.map(([, texts]) => texts.length))
  const inTurn = Array.from({ length: most }, (_, turn) =>
    kinds.flatMap(([kind, texts]) => {
      const text = texts[turn]
      return text === undefined ? [] : [{ kind, text: text.charAt(0).toUpperCase() + text.slice(1) }]
    }),
  )
  return inTurn.flat().slice(0, MOST_RISKS)
}
