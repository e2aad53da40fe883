// Numbers as they are read on screen and paper: fixed decimals, a true minus, nothing that is not a number.

const MINUS = '\u2212'

export const withMinus = (text: string): string => text.replaceAll('-', MINUS)

/** Fixed decimals; what rounds to nothing has no sign. */
export function fixedText(value: number, digits: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'no limit' : 'not known'
  return withMinus(Number(value.toFixed(digits)) === 0 ? (0).toFixed(digits) : value.toFixed(digits))
}

/** As many digits as the number needs, `most` at most. */
export function plainText(value: number, most = 7): string {
  return withMinus(String(Number(value.toPrecision(most))))
}

/** A loss in a sentence: `1.18 dB`, `more than 64 dB`. */
export function dbText(lossDb: number, digits = 2): string {
  return Number.isFinite(lossDb) ? `${fixedText(lossDb, digits)} dB` : 'more than 64 dB'
}
