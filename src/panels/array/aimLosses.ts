// Mean losses of the alignment strategies compared as the table shows them: equal numbers are equally low.

import type { AimResult } from '../../analysis/array/runArray'
import { fixedText, roundedTo } from '../../numerics/numberText'
import { NO_LIGHT_DB } from '../../optics/index'

const shownDb = (lossDb: number): number => roundedTo(Math.min(lossDb, NO_LIGHT_DB), 2)

/** What a mean loss is above the least of all strategies: `+0.01 dB`, or `lowest`. */
export function aboveLeastText(lossDb: number, leastDb: number): string {
  const aboveDb = shownDb(lossDb) - shownDb(leastDb)
  return aboveDb < 0.005 ? 'lowest' : `+${fixedText(aboveDb, 2)} dB`
}

/** Whether another strategy ends with the better worst channel than the one that aims at it. */
export function turnedRound(aims: readonly Pick<AimResult, 'aim' | 'meanWorstDb'>[]): boolean {
  const aimed = aims.find(({ aim }) => aim === 'worst channel')
  return (
    aimed !== undefined && aims.some(({ meanWorstDb }) => shownDb(meanWorstDb) < shownDb(aimed.meanWorstDb))
  )
}
