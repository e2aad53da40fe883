// A table of measured assemblies: one row per channel, or one row per assembly with a column per channel.

import type { LotRows } from '../../model/schema/measurement'
import { type ExposureUnit, LIFETIME_LIMITS } from '../../model/words/lifetime'
import { READING_LIMITS } from '../../model/words/limits'
import { LOT_LABELS, type LotLabel } from '../../model/words/measurement'
import { type CompactNumbers, packNumbers } from '../../numerics/compactNumbers'
import { splitLine } from './dialect'
import { exposureScale } from './exposureColumn'
import { isLotHeading, type LotColumn, lotColumns } from './lotColumns'
import { dateOrder, dayOf } from './lotDates'
import { type DecimalMark, parseNumber, whyNotNumber } from './numberText'
import type { Doubt, Finding, RefusedLine, ScanAnswers } from './scan'
import { commentText, type NumberedLine, numberedLines } from './textLines'

const DELIMITERS = ['\t', ';', ',', '|'] as const
/** A heading comes this early in a file, or not at all. */
const HEADING_WITHIN = 40
const SHOWN_TEXT = 120
const LOT_KIND = 'lot'

/** The lot and how it was read. */
export interface LotTable {
  readonly delimiter: string
  readonly decimalMark: DecimalMark
  readonly columns: readonly LotColumn[]
  readonly rowsRead: number
  readonly refusedLines: readonly RefusedLine[]
  readonly doubts: readonly Doubt[]
  readonly findings: readonly Finding[]
  readonly notes: readonly string[]
  readonly counts: {
    readonly losses: number
    readonly assemblies: number
    readonly channels: number
  }
  readonly kept: LotRows
  /** Of a stress test: hours or cycles after which each loss was measured. */
  readonly stress: { readonly exposure: CompactNumbers; readonly exposureUnit: ExposureUnit } | null
}

interface Table {
  readonly delimiter: string
  readonly headings: readonly string[]
  readonly notes: readonly string[]
  readonly lines: readonly NumberedLine[]
}

/**
 * The lot in a text, or null where its headings are not those of one. With the answer `kind: 'lot'` any table with a
 * heading is read as one, and the user is asked for the role of each unknown column.
 */
export function readLot(text: string, answers: ScanAnswers): LotTable | null {
  if (answers.kind !== undefined && answers.kind !== LOT_KIND) return null
  const table = tableOf(text, answers)
  if (table === null) return null
  const doubts: Doubt[] = []
  const findings: Finding[] = []
  const columns = lotColumns(table.headings, answers, doubts)
  const rows = table.lines.map((line) => ({
    line,
    cells: splitLine(line.text, table.delimiter),
  }))
  const columnOf = (role: LotColumn['role']) => columns.findIndex((column) => column.role === role)
  const lossColumns = columns.flatMap(({ role }, c) => (role === 'loss' ? [c] : []))
  const decimalMark = markOf(
    rows.map(({ cells }) => cells),
    lossColumns,
    table.delimiter,
    answers,
  )
  const dateColumn = columnOf('date')
  const monthFirst = dateOrder(
    rows.map(({ cells }) => cells[dateColumn] ?? ''),
    answers,
    doubts,
  )
  const returnColumn = columnOf('return loss')
  const exposureAt = columnOf('exposure')
  const scale = exposureAt < 0 ? null : exposureScale(table.headings[exposureAt] ?? '', answers, doubts)
  const refusedLines: RefusedLine[] = []
  const lossDb: number[] = []
  const returnLossDb: number[] = []
  const day: number[] = []
  const exposure: number[] = []
  const words: Record<LotLabel, string[]> = {
    assembly: [],
    channel: [],
    batch: [],
    station: [],
  }
  for (const { line, cells } of rows) {
    const at = returnColumn < 0 ? 0 : parseNumber(cells[returnColumn] ?? '', decimalMark)
    const when = dateColumn < 0 ? 0 : dayOf(cells[dateColumn] ?? '', monthFirst)
    const after = scale === null ? 0 : scale.factor * parseNumber(cells[exposureAt] ?? '', decimalMark)
    const found = lossColumns.map((c) => parseNumber(cells[c] ?? '', decimalMark))
    const reason = refusal()
    if (reason !== null) {
      refusedLines.push({
        line: line.number,
        text: line.text.slice(0, SHOWN_TEXT),
        reason,
      })
      continue
    }
    found.forEach((loss, i) => {
      if (Number.isNaN(loss)) return // a channel that was not measured
      lossDb.push(loss)
      returnLossDb.push(at)
      day.push(when)
      exposure.push(after)
      for (const role of LOT_LABELS) {
        const column = columns[lossColumns[i] ?? -1]
        const own = role === 'channel' ? (column?.channel ?? null) : null
        words[role].push(own ?? (cells[columnOf(role)] ?? '').slice(0, READING_LIMITS.labelCharacters))
      }
    })

    function refusal(): string | null {
      if (cells.length > columns.length)
        return `has ${cells.length} fields where the table has ${columns.length}`
      if (scale === null && (cells[columnOf('assembly')] ?? '') === '') return 'has no assembly name'
      if (!(after >= 0)) return `exposure ${whyNotExposure(cells[exposureAt] ?? '', after)}`
      if (found.every((loss) => Number.isNaN(loss)))
        return `loss ${whyNotNumber(cells[lossColumns[0] ?? -1] ?? '')}`
      if (Number.isNaN(at)) return `return loss ${whyNotNumber(cells[returnColumn] ?? '')}`
      return Number.isNaN(when) ? `date holds "${cells[dateColumn] ?? ''}", not a date` : null
    }
  }
  const negative = lossDb.filter((loss) => loss < 0).length
  const isTransmission = signOf(negative > 0.6 * lossDb.length, lossDb.length, answers, doubts)
  const losses = Float64Array.from(lossDb, (loss) => (isTransmission ? -loss : loss))
  const labels = LOT_LABELS.flatMap((role) => {
    if (words[role].every((word) => word === '')) return []
    const names = [...new Set(words[role])]
    const indices = new Map(names.map((name, i) => [name, i]))
    return [
      {
        role,
        names,
        values: packNumbers(Float64Array.from(words[role], (w) => indices.get(w) ?? 0)),
      },
    ]
  })
  check()
  return {
    delimiter: table.delimiter,
    decimalMark,
    columns,
    rowsRead: rows.length - refusedLines.length,
    refusedLines,
    doubts,
    findings,
    notes: table.notes,
    counts: {
      losses: losses.length,
      assemblies: new Set(words.assembly).size,
      channels: Math.max(1, new Set(words.channel).size),
    },
    kept: {
      labels,
      lossDb: packNumbers(losses),
      ...(returnColumn < 0 ? {} : { returnLossDb: packNumbers(Float64Array.from(returnLossDb)) }),
      ...(dateColumn < 0 ? {} : { day: packNumbers(Float64Array.from(day)) }),
    },
    stress:
      scale === null
        ? null
        : { exposure: packNumbers(Float64Array.from(exposure)), exposureUnit: scale.unit },
  }

  function check(): void {
    const error = (code: Finding['code'], message: string) =>
      findings.push({ code, severity: 'error', message })
    const remark = (code: Finding['code'], message: string) =>
      findings.push({ code, severity: 'remark', message })
    if (columnOf('assembly') < 0 && scale === null) error('no-roles', 'No column names the assembly.')
    if (lossColumns.length === 0) error('no-roles', 'No column is a loss.')
    else if (losses.length < 2) error('one-point', 'There are fewer than two losses.')
    if (losses.length > READING_LIMITS.lotRows)
      error('too-large', `There are ${losses.length} losses; at most ${READING_LIMITS.lotRows} are kept.`)
    const beyond = losses.find((loss) => !(Math.abs(loss) <= READING_LIMITS.most.dB))
    if (beyond !== undefined)
      error(
        'too-large',
        `A loss is ${beyond} dB; must be −${READING_LIMITS.most.dB} to ${READING_LIMITS.most.dB}.`,
      )
    const pairs = new Set(words.assembly.map((name, i) => `${name}\n${words.channel[i]}`)).size
    if (scale === null && pairs < losses.length && words.channel.some((word) => word !== ''))
      remark(
        'duplicates',
        `Losses that repeat a channel of the same assembly: ${losses.length - pairs}; all are kept.`,
      )
    if (lossColumns.length > 1)
      remark('wide', `${lossColumns.length} loss columns: each is read as one channel of the assembly.`)
    const farthest = exposure.find((each) => each > LIFETIME_LIMITS.exposure[1])
    if (farthest !== undefined)
      error(
        'too-large',
        `An exposure is ${farthest} ${scale?.unit ?? ''}; must be 0 to ${LIFETIME_LIMITS.exposure[1]}.`,
      )
  }
}

const whyNotExposure = (cell: string, value: number) =>
  value < 0 ? `is ${cell.trim()}, below 0` : whyNotNumber(cell)

function tableOf(text: string, answers: ScanAnswers): Table | null {
  const notes: string[] = []
  const lines: NumberedLine[] = []
  for (const line of numberedLines(text)) {
    const comment = commentText(line.text)
    if (comment !== null) notes.push(comment)
    else if (line.text.trim() !== '') lines.push(line)
  }
  const delimiters = DELIMITERS.filter(
    (each) => answers.delimiter === undefined || each === answers.delimiter,
  )
  for (const delimiter of delimiters) {
    const at = lines
      .slice(0, HEADING_WITHIN)
      .findIndex(({ text: line }) => isLotHeading(splitLine(line, delimiter)))
    if (at >= 0) return found(delimiter, at)
  }
  if (answers.kind !== LOT_KIND) return null
  // The user has asked for a lot: the first line that has as many fields as most lines is the heading.
  const counts = delimiters.map((each) => splitLine(lines[0]?.text ?? '', each).length)
  const most = Math.max(...counts)
  return most < 2 ? null : found(delimiters[counts.indexOf(most)] ?? ',', 0)

  function found(delimiter: string, at: number): Table {
    return {
      delimiter,
      headings: splitLine(lines[at]?.text ?? '', delimiter),
      notes: [...notes, ...lines.slice(0, at).map((line) => line.text)],
      lines: lines.slice(at + 1),
    }
  }
}

/** The decimal mark with which more losses are numbers. */
function markOf(
  rows: readonly (readonly string[])[],
  lossColumns: readonly number[],
  delimiter: string,
  answers: ScanAnswers,
): DecimalMark {
  if (answers['decimal-mark'] === '.' || answers['decimal-mark'] === ',') return answers['decimal-mark']
  const count = (mark: DecimalMark) =>
    rows.reduce(
      (sum, cells) =>
        sum + lossColumns.filter((c) => !Number.isNaN(parseNumber(cells[c] ?? '', mark))).length,
      0,
    )
  return delimiter !== ',' && count(',') > count('.') ? ',' : '.'
}

const SIGNS = {
  loss: 'losses, some negative',
  transmission: 'transmission in dB',
} as const

/** Whether losses are written as transmission, below 0. */
function signOf(mostlyNegative: boolean, count: number, answers: ScanAnswers, doubts: Doubt[]): boolean {
  if (!mostlyNegative || count === 0) return false
  const assumed = answers.sign === SIGNS.loss ? SIGNS.loss : SIGNS.transmission
  doubts.push({
    id: 'sign',
    question: 'Most losses are negative. Losses or transmission?',
    assumed,
    alternatives: Object.values(SIGNS).filter((sign) => sign !== assumed),
  })
  return assumed === SIGNS.transmission
}
