// Losses as people read them.

import { fixedText, significantText } from '../../numerics/numberText'
import { NO_LIGHT_DB } from '../../optics/index'

/** Loss with two decimals: `1.18`, `−0.02`; `> 200` where no light arrives. */
export function lossText(lossDb: number): string {
  return lossDb < NO_LIGHT_DB ? fixedText(lossDb, 2) : `> ${NO_LIGHT_DB}`
}

/** The same with its unit, as in a sentence: `1.18 dB`. */
export const lossDbText = (lossDb: number): string => `${lossText(lossDb)} dB`

/** Linear power share for a loss: `76.2 %`; `under 0.01 %` where next to nothing is left. */
export function throughputText(lossDb: number): string {
  return lossDb < 40 ? `${significantText(100 * 10 ** (-lossDb / 10), 3)} %` : 'under 0.01 %'
}
