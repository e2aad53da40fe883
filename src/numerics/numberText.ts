// Numbers as people read them, on screen, on paper and in messages: the one place that rounds them into text.
// All have a true minus and no "-0.00"; a number that is not finite is put into words.

const MINUS = '\u2212'
const NO_BREAK = '\u00a0'

/** The text with its hyphens as minus signs. */
export const withMinus = (text: string): string => text.replaceAll('-', MINUS)

const notFinite = (value: number): string => (value > 0 ? 'no limit' : 'not known')

/** Fixed decimals: `1.20`, `−0.02`; what rounds to nothing has no sign. */
export function fixedText(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return notFinite(value)
  const text = Math.abs(value).toFixed(decimals)
  return value < 0 && Number(text) !== 0 ? MINUS + text : text
}

/** As many significant digits as the number needs, at most `most`: `1550`, `9.2`. */
export function plainText(value: number, most = 7): string {
  return Number.isFinite(value) ? withMinus(String(rounded(value, most))) : notFinite(value)
}

/** Exactly so many significant digits, trailing zeros kept, without an exponent where they fit: `76.2`, `3.00`, `1230`. */
export function significantText(value: number, digits: number): string {
  if (!Number.isFinite(value)) return notFinite(value)
  const text = value.toPrecision(digits)
  return withMinus(text.includes('e+') ? String(Number(text)) : text)
}

/** With its sign: `+0.12`, `−0.02`; `0.00` where it rounds to nothing. */
export function signedText(value: number, decimals: number): string {
  const text = fixedText(value, decimals)
  return value > 0 && Number(text) !== 0 ? `+${text}` : text
}

/** A power of ten with so many decimals, or with as many as it needs: `2.1e−6`. */
export function exponentText(value: number, decimals?: number): string {
  return Number.isFinite(value)
    ? withMinus(value.toExponential(decimals).replace('e+', 'e'))
    : notFinite(value)
}

/** A share of 1 in per cent: `95 %`. */
export function percentText(share: number, decimals = 0): string {
  return `${fixedText(100 * share, decimals)} %`
}

/** The size of a file or a text: `1.2 MB`. */
export const megabytesText = (bytes: number): string => `${fixedText(bytes / 1e6, 1)} MB`

const NARROW_SPACE = '\u202f'

/** A number in decimal notation with its whole part in groups of three, by a narrow space: `−12 500.25`. */
export const grouped = (text: string): string =>
  text.replace(/^([^\d]*)(\d{4,})(?=\.|$)/, (_, before: string, whole: string) => {
    const first = whole.length % 3 || 3
    return before + [whole.slice(0, first), ...(whole.slice(first).match(/\d{3}/g) ?? [])].join(NARROW_SPACE)
  })

/** Whole numbers in groups of three, by a narrow space: `1 000 000`. */
export function countText(count: number): string {
  return count.toLocaleString('en').replaceAll(',', NARROW_SPACE)
}

const BEFORE_UNIT = /(?<=\d) (?=(?:%|°C|dB|µm|mm|nm|s|min|h|K|mW|W|kB|MB)(?![\p{L}\d]))/gu

/** The sentence with its numbers held to their units, to their ± and to each other where they are a pair, so that no line ends between them. */
export const unbroken = (sentence: string): string =>
  sentence
    .replace(BEFORE_UNIT, NO_BREAK)
    .replace(/(?<![,;:]) ±/g, `${NO_BREAK}±`)
    .replace(/± ?(?=\d)/g, `±${NO_BREAK}`)
    .replace(/(?<=\d) ([×/]) (?=[+−\d])/g, `${NO_BREAK}$1${NO_BREAK}`)

const MOST_DECIMALS = 5

/** `3.199 ± 0.014`: as many decimals as two digits of the uncertainty have (JCGM 100, 7.2.6). */
export function withUncertainty(value: number, plusMinus: number | null): string {
  if (plusMinus === null) return plainText(value, 5)
  const wanted = plusMinus > 0 ? 1 - Math.floor(Math.log10(plusMinus)) : MOST_DECIMALS
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, wanted))
  return `${fixedText(value, decimals)} ± ${fixedText(plusMinus, decimals)}`
}

/** The number that has so many significant digits: what is written back into a field. */
export const rounded = (value: number, digits: number): number => Number(value.toPrecision(digits))

/** The number that has so many decimals. */
export const roundedTo = (value: number, decimals: number): number => Number(value.toFixed(decimals))

/** A wavelength in nm, without the last digits that the change of unit leaves: 1.55 gives 1550. */
export const nmOf = (wavelengthUm: number): number => rounded(1000 * wavelengthUm, 7)
