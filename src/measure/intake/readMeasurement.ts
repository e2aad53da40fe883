// A measurement file of any known kind, recognised by its content and not by its name.

import { READING_LIMITS } from '../../model/words/limits'
import { packNumbers, unpackNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { megabytesText } from '../../numerics/numberText'
import { readImage } from '../images/readImage'
import { type LineScan, lineScans } from '../reading/lineScans'
import { readingsList } from '../reading/readingsList'
import { type LotTable, readLot } from '../reading/readLot'
import { readScan } from '../reading/readScan'
import type { Finding, Scan, ScanAnswers, ScanColumn } from '../reading/scan'
import { decodeText, looksBinary } from '../reading/textLines'
import { KEPT_LIMITS, keptImage, keptRows, packedColumn } from './keptReadings'
import { imageToPlot, pickedValues, plottedIndices, rasterToPlot } from './plotData'
import type {
  ColumnReport,
  ImageReading,
  ListQuantity,
  ListReading,
  LotReading,
  Preview,
  Reading,
  TableReading,
} from './reading'
import { LIST_QUANTITIES } from './reading'

const LISTED_REFUSALS = 5000

type ReportProgress = (share: number) => void

/**
 * Reads a text table, a column of repeated readings, or an image. `answers` as in readScan; 'quantity' says what a single
 * column is. InputError names files that are too large, workbooks, and images that cannot be decoded; everything
 * else that is wrong with a file is among the reading's findings.
 */
export function readMeasurement(
  bytes: Uint8Array,
  fileName: string,
  answers: ScanAnswers = {},
  report?: ReportProgress,
): Reading {
  if (bytes.length > READING_LIMITS.fileBytes) {
    throw new InputError(
      fileName,
      megabytesText(bytes.length),
      `at most ${READING_LIMITS.fileBytes / 1e6} MB`,
    )
  }
  if (bytes.length === 0) throw new InputError(fileName, 'empty', 'a measurement file')
  if (isImage(bytes)) return imageReading(bytes, fileName)
  if (startsWith(bytes, 0x50, 0x4b, 3, 4)) {
    throw new InputError(
      fileName,
      'a workbook or an archive',
      'text or an image: copy its cells and paste them',
    )
  }
  const text = decodeText(bytes)
  const lot = looksBinary(text) ? null : readLot(text, answers)
  if (lot !== null) return lotReading(lot)
  const scan = readScan(text, answers, report)
  return scan.findings.some((finding) => finding.code === 'one-column')
    ? listReading(text, answers)
    : tableReading(scan)
}

const startsWith = (bytes: Uint8Array, ...codes: number[]) => codes.every((code, i) => bytes[i] === code)

function isImage(bytes: Uint8Array): boolean {
  const blank = bytes[2] === 0x0a || bytes[2] === 0x0d || bytes[2] === 0x20 || bytes[2] === 0x09
  const graymap = blank && (startsWith(bytes, 0x50, 0x32) || startsWith(bytes, 0x50, 0x35))
  return (
    graymap ||
    startsWith(bytes, 0x89, 0x50, 0x4e, 0x47) ||
    startsWith(bytes, 0x49, 0x49, 0x2a, 0) ||
    startsWith(bytes, 0x4d, 0x4d, 0, 0x2a) ||
    startsWith(bytes, 0x49, 0x49, 0x2b, 0) ||
    startsWith(bytes, 0x4d, 0x4d, 0, 0x2b) ||
    startsWith(bytes, 0xff, 0xd8)
  )
}

function tableReading(scan: Scan): TableReading {
  const wanted = scan.columns.filter((column) => column.role !== 'other')
  const coordinate = wanted.findIndex((column) => column.role !== 'power' && column.role !== 'loss')
  const findings: Finding[] = [...scan.findings]
  let kept: TableReading['kept'] = []
  const notes = [...scan.metadata.notes]
  const lines = scan.kind === 'offset' ? linesOf(wanted) : []
  const usable = scan.kind !== 'unknown' && !findings.some((finding) => finding.severity === 'error')
  if (usable) {
    try {
      if (wanted.length > READING_LIMITS.columns) {
        throw new InputError(
          'the table',
          `${wanted.length} columns of readings`,
          `at most ${READING_LIMITS.columns}`,
        )
      }
      const rows = keptRows(wanted, Math.max(0, coordinate), scan.kind === 'raster' || lines.length > 0)
      kept = rows.columns.map(packedColumn)
      if (rows.remark !== null) {
        findings.push({ code: 'thinned', severity: 'remark', message: rows.remark })
        notes.push(rows.remark)
      }
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      findings.push({ code: 'too-large', severity: 'error', message: error.message })
    }
  }
  return {
    kind: 'table',
    scanKind: scan.kind,
    delimiter: scan.delimiter,
    decimalMark: scan.decimalMark,
    rowsRead: scan.rowsRead,
    metadata: scan.metadata,
    columns: scan.columns.map(columnReport),
    refusedLines: scan.refusedLines.slice(0, LISTED_REFUSALS),
    refusedCount: scan.refusedLines.length,
    doubts: scan.doubts,
    findings,
    notes,
    previews:
      scan.kind === 'raster'
        ? rasterPreview(wanted)
        : lines.length > 0
          ? linePreviews(wanted, lines)
          : scanPreviews(wanted, coordinate),
    kept,
  }
}

function lotReading(lot: LotTable): LotReading {
  const losses = unpackNumbers(lot.kept.lossDb)
  const indices = plottedIndices(losses)
  return {
    ...lot,
    kind: 'lot',
    refusedLines: lot.refusedLines.slice(0, LISTED_REFUSALS),
    refusedCount: lot.refusedLines.length,
    preview: {
      label: 'Loss',
      x: Float64Array.from(indices, (index) => index + 1),
      y: pickedValues(losses, indices),
      power: null,
    },
  }
}

function columnReport({ label, role, unit, coreUnit, values }: ScanColumn): ColumnReport {
  let low = Infinity
  let high = -Infinity
  for (const value of values) {
    if (value < low) low = value
    if (value > high) high = value
  }
  return { label, role, unit, coreUnit, low, high }
}

function scanPreviews(columns: readonly ScanColumn[], coordinate: number): readonly Preview[] {
  const along = columns[coordinate]?.values
  if (along === undefined) return []
  return columns
    .filter((column) => column.role === 'power' || column.role === 'loss')
    .map((column) => {
      const indices = plottedIndices(column.values)
      return {
        label: column.label,
        x: pickedValues(along, indices),
        y: pickedValues(column.values, indices),
        power: null,
      }
    })
}

/** The line scans of a table with two positions; empty for one position. */
function linesOf(columns: readonly ScanColumn[]): readonly LineScan[] {
  const [x, y] = columns.filter((column) => column.role === 'position')
  return x === undefined || y === undefined ? [] : (lineScans(x.values, y.values) ?? [])
}

function linePreviews(columns: readonly ScanColumn[], lines: readonly LineScan[]): readonly Preview[] {
  const [x, y] = columns.filter((column) => column.role === 'position')
  return columns
    .filter((column) => column.role === 'power')
    .flatMap((column) =>
      lines.map(({ axis, rows }) => {
        const along = (axis === 'x' ? x : y)?.values ?? new Float64Array(0)
        const power = Float64Array.from(rows, (row) => column.values[row] as number)
        const indices = plottedIndices(power)
        return {
          label: `${column.label || 'power'} along ${axis}`,
          x: pickedValues(
            Float64Array.from(rows, (row) => along[row] as number),
            indices,
          ),
          y: pickedValues(power, indices),
          power: null,
        }
      }),
    )
}

function rasterPreview(columns: readonly ScanColumn[]): readonly Preview[] {
  const [x, y] = columns.filter((column) => column.role === 'position')
  const power = columns.find((column) => column.role === 'power')
  if (x === undefined || y === undefined || power === undefined) return []
  const plotted = rasterToPlot(x.values, y.values, power.values)
  return [{ label: power.label, x: plotted.x, y: plotted.y, power: plotted.values }]
}

function listReading(text: string, answers: ScanAnswers): ListReading {
  const list = readingsList(text, answers['decimal-mark'])
  const named = list.notes.join(' ')
  const likely: ListQuantity = /mfd|diameter|\bum\b|µm|μm/i.test(named)
    ? 'mode-field diameter in µm'
    : 'loss in dB'
  const assumed = LIST_QUANTITIES.find((quantity) => quantity === answers.quantity) ?? likely
  const findings: Finding[] = []
  const most = READING_LIMITS.most[assumed === 'loss in dB' ? 'dB' : 'um']
  const beyond = list.values.find((value) => !(Math.abs(value) <= most))
  if (beyond !== undefined) {
    findings.push({
      code: 'too-large',
      severity: 'error',
      message: `A reading is ${beyond}; must be −${most} to ${most}.`,
    })
  } else if (list.values.length < 2) {
    findings.push({ code: 'one-point', severity: 'error', message: 'There is one reading only.' })
  } else if (list.values.length > KEPT_LIMITS.rows) {
    findings.push({
      code: 'too-large',
      severity: 'error',
      message: `There are ${list.values.length} readings in one column; at most ${KEPT_LIMITS.rows} repeated readings are accepted. A scan needs a coordinate for each power.`,
    })
  } else {
    findings.push({
      code: 'one-column',
      severity: 'remark',
      message:
        'There is one column of numbers only: a scan needs a coordinate for each power. It is read as repeated readings of one quantity.',
    })
  }
  const indices = plottedIndices(list.values)
  return {
    kind: 'list',
    quantity: assumed,
    decimalMark: list.decimalMark,
    rowsRead: list.values.length,
    refusedLines: list.refusedLines.slice(0, LISTED_REFUSALS),
    refusedCount: list.refusedLines.length,
    doubts: [
      {
        id: 'quantity',
        question: 'One column of numbers: which quantity do these repeated readings give?',
        assumed,
        alternatives: LIST_QUANTITIES.filter((quantity) => quantity !== assumed),
      },
    ],
    findings,
    notes: list.notes,
    values: packNumbers(list.values.slice(0, KEPT_LIMITS.rows)),
    preview: {
      label: assumed,
      x: Float64Array.from(indices, (index) => index + 1),
      y: pickedValues(list.values, indices),
      power: null,
    },
  }
}

function imageReading(bytes: Uint8Array, fileName: string): ImageReading {
  const image = readImage(bytes, fileName)
  const kept = keptImage(image)
  const findings: Finding[] = []
  const first = image.pixels[0]
  const { fewestPixels } = READING_LIMITS
  if (Math.min(image.width, image.height) < fewestPixels) {
    findings.push({
      code: 'too-small',
      severity: 'error',
      message: `The image is ${image.width} × ${image.height} pixels; at least ${fewestPixels} × ${fewestPixels} are needed.`,
    })
  } else if (image.pixels.every((value) => value === first)) {
    findings.push({
      code: 'all-same',
      severity: 'error',
      message: `Every pixel has ${first} counts: no beam found in this image.`,
    })
  } else if (image.saturatedCount > 0) {
    findings.push({
      code: 'flat-top',
      severity: 'remark',
      message: `Saturated pixels: ${image.saturatedCount}.`,
    })
  }
  if (kept.remark !== null) findings.push({ code: 'thinned', severity: 'remark', message: kept.remark })
  return {
    kind: 'image',
    format: image.format.toUpperCase(),
    width: image.width,
    height: image.height,
    bitDepth: image.bitDepth,
    saturatedCount: image.saturatedCount,
    pixelUm: image.pixelUm ?? null,
    notes: kept.remark === null ? image.notes : [...image.notes, kept.remark],
    findings,
    view: imageToPlot(image.pixels, image.width, image.height, image.pixelUm ?? 1),
    kept: {
      width: kept.width,
      height: kept.height,
      binning: kept.binning,
      fullScale: Number.isFinite(image.fullScale) ? image.fullScale : null,
      pixels: packNumbers(kept.pixels),
    },
  }
}
