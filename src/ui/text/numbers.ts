// Numbers as they stand on screen and paper: fixed digits, a true minus, never NaN.

import { NO_LIGHT_DB } from '../../optics/index'

const MINUS = '\u2212'

/** Loss with two decimals: `1.18`, `−0.02`; `> 200` where no light arrives. */
export function lossText(lossDb: number): string {
  if (!(lossDb < NO_LIGHT_DB)) return `> ${NO_LIGHT_DB}`
  const text = Math.abs(lossDb) < 0.005 ? '0.00' : Math.abs(lossDb).toFixed(2)
  return lossDb < 0 && text !== '0.00' ? `${MINUS}${text}` : text
}

/** Share as a percentage without decimals. */
export function percentText(share: number): string {
  return `${(share * 100).toFixed(0).replace(/^-0$/, '0').replace('-', MINUS)} %`
}

/** Linear power share for a loss: `76.2 %`; `under 0.01 %` where next to nothing is left. */
export function throughputText(lossDb: number): string {
  if (!(lossDb < 40)) return 'under 0.01 %'
  return `${(10 ** (-lossDb / 10) * 100).toPrecision(3)} %`
}
