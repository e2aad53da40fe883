// A table of refractive indices over a cross-section becomes the map of a core: columns x, y and index, or a grid with x along the
// first row and y down the first column. What the file leaves open is asked as for a scan.

import type { IndexMapEntry } from '../../model/schema/coreTables'
import { SECTION_LIMITS } from '../../model/words/crossSection'
import { packNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { fixedText, significantText } from '../../numerics/numberText'
import { median } from '../../numerics/statistics'
import { splitLabel } from '../reading/columnLabel'
import { unfoldedGrid } from '../reading/gridTable'
import { dialectDoubts } from '../reading/readScan'
import type { Doubt, ScanAnswers } from '../reading/scan'
import { readTable, type TextTable } from '../reading/tableText'
import { keptFileName, keptNotes } from './keptText'
import { type RasterColumn, rasterOf } from './raster'

/** A map with the questions that the file leaves open; it is read again with the answers. */
export interface IndexMapReading {
  readonly map: IndexMapEntry
  readonly doubts: readonly Doubt[]
}

const LENGTHS = ['um', 'nm', 'mm'] as const
/** Indices of optical materials. */
const LEAST_INDEX = 1
const GREATEST_INDEX = 6
/** A grid wider than this in nm, or narrower in um, is in the other unit. */
const WIDEST_UM = 1000
/** Steps along the border that are above this share of the peak leave the core cut off. */
const CUT_SHARE = 0.02

interface Columns {
  readonly x: RasterColumn
  readonly y: RasterColumn
  readonly index: Float64Array
}

/** By their headings; without any, in the order x, y, index, which `notes` hears. */
function columnsOf(table: TextTable, notes: string[]): Columns {
  const labels = table.headings.map((heading) => splitLabel(heading))
  const at = (pattern: RegExp) => labels.findIndex(({ label }) => pattern.test(label.trim()))
  const named = [at(/^x/i), at(/^y/i), at(/index|^n\b|^n_|refractive|^power$/i)]
  const bare = table.columns.length === 3 && labels.every(({ label }) => label === '')
  if (bare) notes.push('The columns have no headings; taken as x, y and index.')
  const found = bare ? [0, 1, 2] : named
  const [x, y, index] = found.map((column) => table.columns[column])
  if (x === undefined || y === undefined || index === undefined) {
    const seen = table.headings.filter((heading) => heading !== '').join(', ') || 'none'
    throw new InputError('heading row', seen, 'x, y and index')
  }
  const unitOf = (column: number | undefined) =>
    labels[column ?? -1]?.unit ?? (table.units[column ?? -1]?.trim() || null)
  return { x: { values: x, unit: unitOf(found[0]) }, y: { values: y, unit: unitOf(found[1]) }, index }
}

/** The unit of positions that the file gives none for, asked. */
function askedUnit({ x, y }: Columns, answers: ScanAnswers, doubts: Doubt[]): string | null {
  if (x.unit !== null || y.unit !== null) return x.unit ?? y.unit
  const extent = (values: Float64Array) =>
    values.reduce((a, b) => Math.max(a, b), -Infinity) - values.reduce((a, b) => Math.min(a, b), Infinity)
  const widest = Math.max(extent(x.values), extent(y.values))
  const assumed =
    LENGTHS.find((unit) => unit === answers['unit:positions']) ?? (widest > WIDEST_UM ? 'nm' : 'um')
  doubts.push({
    id: 'unit:positions',
    question: `Positions have no unit; they span ${significantText(widest, 4)}. What is their unit?`,
    assumed,
    alternatives: LENGTHS.filter((unit) => unit !== assumed),
  })
  return assumed
}

function requireIndices(index: Float64Array, { x, y }: Columns): void {
  index.forEach((value, row) => {
    if (value >= LEAST_INDEX && value <= GREATEST_INDEX) return
    throw new InputError(
      `index of row ${row + 1} at (${x.values[row]}, ${y.values[row]})`,
      value,
      `${LEAST_INDEX} to ${GREATEST_INDEX}`,
    )
  })
}

function borderOf(values: Float64Array, nx: number, ny: number): Float64Array {
  return values.filter((_, at) => {
    const [i, j] = [at % nx, Math.floor(at / nx)]
    return i === 0 || j === 0 || i === nx - 1 || j === ny - 1
  })
}

/**
 * Reads an index map from any delimited text. Throws InputError that names the column, the row or the place that is wrong, the value
 * and what is allowed.
 */
export function readIndexMap(text: string, fileName: string, answers: ScanAnswers = {}): IndexMapReading {
  const doubts: Doubt[] = []
  const written = readTable(text, {
    ...(answers.delimiter !== undefined && { delimiter: answers.delimiter }),
    ...(answers['decimal-mark'] !== undefined && { decimalMark: answers['decimal-mark'] }),
  })
  if (written.rowsRead === 0) throw new InputError('number of rows with x, y and index', 0, '1 or more')
  const [refused] = written.refusedLines
  dialectDoubts(text, written, doubts)
  const asked: Doubt[] = []
  const table = unfoldedGrid(text, written, answers, asked)
  doubts.push(
    ...asked.map((doubt) => ({
      ...doubt,
      question:
        'The table is a grid of indices, with positions along the first row and down the first column. Which axis runs along the first row?',
      alternatives: doubt.alternatives.filter((each) => each !== 'signals'),
    })),
  )
  if (refused !== undefined && table === written)
    throw new InputError(`line ${refused.line}`, refused.text, `a row of numbers (${refused.reason})`)
  const notes: string[] = []
  const columns = columnsOf(table, notes)
  requireIndices(columns.index, columns)
  const unit = askedUnit(columns, answers, doubts)
  const grid = rasterOf(
    { ...columns.x, unit: columns.x.unit ?? unit },
    { ...columns.y, unit: columns.y.unit ?? unit },
    table.rowsRead,
    notes,
  )
  const { nx, ny } = grid
  const { mapPoints } = SECTION_LIMITS
  if (Math.max(nx, ny) > mapPoints)
    throw new InputError(
      'number of points along one side of the map',
      Math.max(nx, ny),
      `at most ${mapPoints}`,
    )
  const indices = new Float64Array(nx * ny)
  for (const [row, at] of grid.indices.entries()) indices[at] = columns.index[row] as number
  const border = borderOf(indices, nx, ny)
  const background = median(border)
  const steps = indices.map((value) => Math.fround(value - background))
  const peak = steps.reduce((most, step) => Math.max(most, step), 0)
  if (!(peak > 0)) {
    throw new InputError(
      'highest index of the map',
      fixedText(background + peak, 5),
      `above ${fixedText(background, 5)}, the median along its border`,
    )
  }
  const cut = border.filter((value) => value - background > CUT_SHARE * peak).length
  if (cut > 0) {
    notes.push(
      `${cut} of ${border.length} border points are above the surrounding index by more than ${100 * CUT_SHARE} % of the peak step: the map may cut off the core.`,
    )
  }
  const { dxUm, dyUm, x0Um, y0Um } = grid
  return {
    map: {
      fileName: keptFileName(fileName),
      notes: keptNotes([
        ...written.notes,
        ...notes,
        `${nx} × ${ny} points, spacing ${significantText(dxUm, 3)} × ${significantText(dyUm, 3)} µm; surrounding index ${fixedText(background, 5)}, largest step ${fixedText(peak, 5)}.`,
      ]),
      nx,
      ny,
      dxUm,
      dyUm,
      x0Um,
      y0Um,
      background,
      steps: packNumbers(steps),
    },
    doubts,
  }
}
