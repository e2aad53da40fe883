// What of a file the project keeps. Nearly always all of it; where that would swell the project, a scan is kept as
// averages of neighbouring points and an image as the part around its beam. What was done is said, and every result
// is computed from what is kept, so that it can be computed again.

import { packNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import type { BenchImage } from '../images/image'
import { secondMomentWidths } from '../nearField/secondMomentWidths'
import type { ScanColumn } from '../reading/scan'
import { blockMeans } from './thinned'

export const KEPT_LIMITS = { rows: 100_000, pixels: 2_000_000 } as const

/** Half side of the kept square in major widths: the aperture of ISO 11146 needs 1.5, the background some more. */
const KEPT_HALF_SIDE = 2.5

export interface KeptColumns {
  readonly columns: readonly ScanColumn[]
  /** What was done to the readings; null where they are kept as they are. */
  readonly remark: string | null
}

/**
 * Rows of a scan along one coordinate: all, or means of equally many neighbours in the order of `coordinate`.
 * InputError for a raster too large to keep, whose neighbours are not in a row.
 */
export function keptRows(columns: readonly ScanColumn[], coordinate: number, isRaster: boolean): KeptColumns {
  const rows = columns[0]?.values.length ?? 0
  if (rows <= KEPT_LIMITS.rows) return { columns, remark: null }
  if (isRaster) {
    throw new InputError('the raster', `${rows} points long`, `at most ${KEPT_LIMITS.rows} points`)
  }
  const along = columns[coordinate]?.values ?? new Float64Array(0)
  const order = Int32Array.from(along, (_, i) => i).sort((a, b) => (along[a] ?? 0) - (along[b] ?? 0))
  const run = Math.ceil(rows / KEPT_LIMITS.rows)
  const count = Math.ceil(rows / run)
  const averaged = columns.map((column) => {
    const values = new Float64Array(count)
    for (let k = 0; k < count; k++) {
      const to = Math.min(rows, (k + 1) * run)
      for (let i = k * run; i < to; i++) values[k] = (values[k] ?? 0) + (column.values[order[i] ?? 0] ?? 0)
      values[k] = (values[k] ?? 0) / (to - k * run)
    }
    return { ...column, values }
  })
  return { columns: averaged, remark: `${rows} rows kept as ${count} means of up to ${run} neighbours.` }
}

export interface KeptImage {
  readonly width: number
  readonly height: number
  readonly pixels: Float64Array
  readonly binning: number
  readonly remark: string | null
}

/** The image as it is, or a square around its beam, averaged in blocks where even that is too large. */
export function keptImage(image: BenchImage): KeptImage {
  const { width, height, pixels } = image
  if (pixels.length <= KEPT_LIMITS.pixels) return { width, height, pixels, binning: 1, remark: null }
  const beam = secondMomentWidths({ pixels, width, height, pixelUm: 1, fullScale: image.fullScale })
  const half = KEPT_HALF_SIDE * beam.majorUm
  const left = Math.max(0, Math.floor(beam.centroidXUm - half))
  const top = Math.max(0, Math.floor(beam.centroidYUm - half))
  const across = Math.min(width, Math.ceil(beam.centroidXUm + half)) - left
  const down = Math.min(height, Math.ceil(beam.centroidYUm + half)) - top
  const part = new Float64Array(across * down)
  for (let row = 0; row < down; row++) {
    const from = (top + row) * width + left
    part.set(pixels.subarray(from, from + across), row * across)
  }
  const cut = `${across} x ${down} of ${width} x ${height} pixels kept, around the beam`
  if (part.length <= KEPT_LIMITS.pixels) {
    return { width: across, height: down, pixels: part, binning: 1, remark: `${cut}.` }
  }
  // Means are fractions of counts and take twice the room.
  const binning = Math.ceil(Math.sqrt((2 * part.length) / KEPT_LIMITS.pixels))
  const blocks = blockMeans(part, across, down, binning)
  return {
    width: blocks.width,
    height: blocks.height,
    pixels: Float64Array.from(blocks.values, Math.fround),
    binning,
    remark: `${cut}, averaged ${binning} x ${binning}.`,
  }
}

/** Readings packed for the project file. */
export function packedColumn(column: ScanColumn) {
  return {
    label: column.label,
    role: column.role,
    coreUnit: column.coreUnit,
    values: packNumbers(column.values),
  }
}
