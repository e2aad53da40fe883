// Numbers with a given rounding, and a true minus.

const MINUS = '\u2212'
const MOST_DECIMALS = 5

export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals)
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text
}

export function significant(value: number, digits: number): string {
  if (!Number.isFinite(value)) return '∞'
  return String(Number(value.toPrecision(digits))).replace('-', MINUS)
}

/** `3.199 ± 0.014`: as many decimals as two digits of the uncertainty have (JCGM 100, 7.2.6). */
export function withUncertainty(value: number, plusMinus: number | null): string {
  if (plusMinus === null) return significant(value, 5)
  const decimals =
    plusMinus > 0
      ? Math.min(MOST_DECIMALS, Math.max(0, 1 - Math.floor(Math.log10(plusMinus))))
      : MOST_DECIMALS
  return `${fixed(value, decimals)} ± ${plusMinus.toFixed(decimals)}`
}
