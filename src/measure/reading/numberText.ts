// Numbers as instruments and spreadsheets write them.

export type DecimalMark = '.' | ','

/** No instrument writes more digits; blanks around the number are included. */
const LONGEST_NUMBER = 400

const PLAIN = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i
const THOUSANDS = { '.': /^[+-]?\d{1,3}(,\d{3})+(\.\d*)?$/, ',': /^[+-]?\d{1,3}(\.\d{3})+(,\d*)?$/ } as const

/**
 * The number in `text`, or NaN if it is not one. `mark` is the decimal mark; the other mark is accepted as a
 * thousands separator only where the text cannot be read otherwise ("1,234.5"). NaN and infinity are not numbers here, nor is
 * what a double-precision number cannot hold ("1e400").
 */
export function parseNumber(text: string, mark: DecimalMark): number {
  const value = text.length > LONGEST_NUMBER ? Number.NaN : parsed(text, mark)
  return Number.isFinite(value) ? value : Number.NaN
}

function parsed(text: string, mark: DecimalMark): number {
  const bare = text.trim().replace('\u2212', '-')
  const pointed = mark === ',' ? bare.replace(',', '.') : bare
  if (PLAIN.test(pointed) && !(mark === ',' && bare.includes('.'))) return Number(pointed)
  if (bare.includes('.') && bare.includes(',') && THOUSANDS[mark].test(bare)) {
    return Number(bare.replaceAll(mark === '.' ? ',' : '.', '').replace(',', '.'))
  }
  // Exponents written with d, as older programs do.
  const fortran = pointed.replace(/d(?=[+-]?\d+$)/i, 'e')
  return fortran !== pointed && PLAIN.test(fortran) ? Number(fortran) : Number.NaN
}

/** Why `text` is not a number, in words. */
export function whyNotNumber(text: string): string {
  const bare = text.trim()
  if (bare === '') return 'is empty'
  if (/^[+-]?(nan|inf(inity)?)$/i.test(bare)) return `is ${bare}`
  if (bare.length <= LONGEST_NUMBER && /e[+-]?\d{3,}$/i.test(bare))
    return `is ${bare}, which is too large for a number`
  return `holds "${bare.slice(0, 40)}", not a number`
}
