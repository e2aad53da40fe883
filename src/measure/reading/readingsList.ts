// One column of numbers: repeated readings of one quantity.

import { type DecimalMark, parseNumber, whyNotNumber } from './numberText'
import type { RefusedLine } from './scan'
import { commentText, numberedLines } from './textLines'

interface ReadingsList {
  readonly values: Float64Array
  readonly decimalMark: DecimalMark
  readonly notes: readonly string[]
  readonly refusedLines: readonly RefusedLine[]
}

const MARKS: readonly DecimalMark[] = ['.', ',']

/** Reads each line as one number, with the decimal mark that reads more of them; other lines are refused, with their line numbers. */
export function readingsList(text: string, mark?: string): ReadingsList {
  const lists = MARKS.filter((each) => mark === undefined || each === mark).map((each) => read(text, each))
  return lists.reduce((best, list) => (list.values.length > best.values.length ? list : best))
}

function read(text: string, decimalMark: DecimalMark): ReadingsList {
  const values: number[] = []
  const notes: string[] = []
  const refusedLines: RefusedLine[] = []
  for (const line of numberedLines(text)) {
    const trimmed = line.text.trim()
    const comment = commentText(line.text)
    if (trimmed === '') continue
    if (comment !== null) {
      notes.push(comment)
      continue
    }
    const value = parseNumber(trimmed, decimalMark)
    if (Number.isNaN(value) && values.length === 0 && !/\d/.test(trimmed)) notes.push(trimmed)
    else if (Number.isNaN(value)) {
      refusedLines.push({ line: line.number, text: trimmed.slice(0, 120), reason: whyNotNumber(trimmed) })
    } else values.push(value)
  }
  return { values: Float64Array.from(values), decimalMark, notes, refusedLines }
}
