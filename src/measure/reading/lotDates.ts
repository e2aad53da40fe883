// Dates of a lot as days since 1970-01-01, so that drift can be evaluated. No clock is read.

import type { Doubt, ScanAnswers } from './scan'

const DATE = /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})(?:[T ]+(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?)?Z?$/
const MS_PER_DAY = 86_400_000
const DATE_ORDERS = { day: 'day first', month: 'month first' } as const

/** Day and month of a date that starts with neither a year nor a number above 12 could be either way round. */
export function dateOrder(cells: readonly string[], answers: ScanAnswers, doubts: Doubt[]): boolean {
  const parts = cells.flatMap((cell) => {
    const match = DATE.exec(cell.trim())
    return match === null || (match[1] ?? '').length === 4 ? [] : [match]
  })
  if (parts.some((match) => Number(match[1]) > 12)) return false
  if (parts.some((match) => Number(match[3]) > 12)) return true
  if (parts.length === 0) return false
  const likely = parts[0]?.[2] === '/' ? DATE_ORDERS.month : DATE_ORDERS.day
  const assumed = Object.values(DATE_ORDERS).find((order) => order === answers['date-order']) ?? likely
  doubts.push({
    id: 'date-order',
    question: `Is "${parts[0]?.[0]}" written with the day or the month first?`,
    assumed,
    alternatives: Object.values(DATE_ORDERS).filter((order) => order !== assumed),
  })
  return assumed === DATE_ORDERS.month
}

/** The day of "2026-03-14", "14.03.2026 12:33", "3/14/2026"; NaN for what is not a date. */
export function dayOf(cell: string, monthFirst: boolean): number {
  const match = DATE.exec(cell.trim())
  if (match === null) return Number.NaN
  const [first, middle, last] = [Number(match[1]), Number(match[3]), Number(match[4])]
  const yearFirst = (match[1] ?? '').length === 4
  const year = yearFirst ? first : last < 100 ? 2000 + last : last
  const month = yearFirst || !monthFirst ? middle : first
  const day = yearFirst ? last : monthFirst ? middle : first
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN
  const seconds = 3600 * Number(match[5] ?? 0) + 60 * Number(match[6] ?? 0) + Number(match[7] ?? 0)
  return Date.UTC(year, month - 1, day) / MS_PER_DAY + seconds / 86_400
}
