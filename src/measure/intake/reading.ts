// What is shown of a file before it is imported, and what would be kept of it.

import type { CompactNumbers } from '../../numerics/compactNumbers'
import type { PixelMap } from '../nearField/imageFit'
import type { LotTable } from '../reading/readLot'
import type {
  ColumnRole,
  CoreUnit,
  Doubt,
  Finding,
  RefusedLine,
  ScanKind,
  ScanMetadata,
} from '../reading/scan'

export interface ColumnReport {
  readonly label: string
  readonly role: ColumnRole
  /** As the file wrote it; null where it wrote none. */
  readonly unit: string | null
  readonly coreUnit: CoreUnit
  /** In core units. */
  readonly low: number
  readonly high: number
}

export interface KeptColumn {
  readonly label: string
  readonly role: ColumnRole
  readonly coreUnit: CoreUnit
  readonly values: CompactNumbers
}

/** Few enough points to draw, in core units. A raster has places in two directions. */
export interface Preview {
  readonly label: string
  readonly x: Float64Array
  readonly y: Float64Array
  readonly power: Float64Array | null
}

interface TextReading {
  readonly decimalMark: '.' | ','
  readonly rowsRead: number
  /** The first few thousand, and how many there are. */
  readonly refusedLines: readonly RefusedLine[]
  readonly refusedCount: number
  readonly doubts: readonly Doubt[]
  readonly findings: readonly Finding[]
  readonly notes: readonly string[]
}

export interface TableReading extends TextReading {
  readonly kind: 'table'
  readonly scanKind: ScanKind
  readonly delimiter: string
  readonly metadata: ScanMetadata
  readonly columns: readonly ColumnReport[]
  readonly previews: readonly Preview[]
  readonly kept: readonly KeptColumn[]
}

/** One column: repeated readings of one quantity. */
export interface ListReading extends TextReading {
  readonly kind: 'list'
  readonly quantity: ListQuantity
  readonly values: CompactNumbers
  readonly preview: Preview
}

export interface ImageReading {
  readonly kind: 'image'
  readonly format: string
  readonly width: number
  readonly height: number
  readonly bitDepth: number
  readonly saturatedCount: number
  readonly pixelUm: number | null
  readonly notes: readonly string[]
  readonly findings: readonly Finding[]
  /** Micrometres where the pitch is known, else pixels. */
  readonly view: PixelMap
  readonly kept: {
    readonly width: number
    readonly height: number
    readonly binning: number
    /** Null for images of floating-point numbers, which have none. */
    readonly fullScale: number | null
    readonly pixels: CompactNumbers
  }
}

/** A table of measured assemblies. */
export interface LotReading extends LotTable {
  readonly kind: 'lot'
  readonly refusedCount: number
  readonly preview: Preview
}

export type Reading = TableReading | ListReading | LotReading | ImageReading

export const LIST_QUANTITIES = ['loss in dB', 'mode-field diameter in µm'] as const
export type ListQuantity = (typeof LIST_QUANTITIES)[number]
