// The part of a file that the project keeps: nearly always all of it; where that would make the project too large, a scan is kept as
// averages of neighbouring points and an image as the part around its beam. What was done is said, and every result
// is computed from what is kept, so that it can be computed again.

import { READING_LIMITS } from '../../model/words/limits'
import { packNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import type { BenchImage } from '../images/image'
import { secondMomentWidths } from '../nearField/secondMomentWidths'
import type { ScanColumn } from '../reading/scan'
import { blockMeans } from './plotData'

export const KEPT_LIMITS = { rows: 100_000, pixels: 2_000_000 } as const

/** Half side of the kept square in major widths: the aperture of ISO 11146 needs 1.5, the background some more. */
const KEPT_HALF_SIDE = 2.5

interface KeptColumns {
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
    throw new InputError('the raster', `${rows} points`, `at most ${KEPT_LIMITS.rows} points`)
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

interface KeptImage {
  readonly width: number
  readonly height: number
  readonly pixels: Float64Array
  readonly binning: number
  readonly remark: string | null
}

/**
 * The image as it is, or a square around its beam, averaged in blocks where even that is too large. Counts that are not
 * whole are kept to seven digits. InputError for counts that are not numbers or larger than such a number can be.
 */
export function keptImage(image: BenchImage): KeptImage {
  const { width, height, pixels } = image
  const sides = Math.max(width, height)
  if (pixels.length <= KEPT_LIMITS.pixels && sides <= READING_LIMITS.mostPixels) {
    return rounded({ width, height, pixels, binning: 1, remark: null })
  }
  const beam = secondMomentWidths({ pixels, width, height, pixelUm: 1, fullScale: image.fullScale })
  const half = Math.max(KEPT_HALF_SIDE * beam.majorUm, READING_LIMITS.fewestPixels)
  const across = keptSpan(beam.centroidXUm, half, width)
  const down = keptSpan(beam.centroidYUm, half, height)
  const part = new Float64Array(across.count * down.count)
  for (let row = 0; row < down.count; row++) {
    const from = (down.from + row) * width + across.from
    part.set(pixels.subarray(from, from + across.count), row * across.count)
  }
  const cut = `${across.count} × ${down.count} of ${width} × ${height} pixels kept, around the beam`
  const longest = Math.max(across.count, down.count)
  if (part.length <= KEPT_LIMITS.pixels && longest <= READING_LIMITS.mostPixels) {
    return rounded({ width: across.count, height: down.count, pixels: part, binning: 1, remark: `${cut}.` })
  }
  // Means are fractions of counts and take twice the space.
  const bySize = Math.sqrt((2 * part.length) / KEPT_LIMITS.pixels)
  const binning = Math.ceil(Math.max(bySize, longest / READING_LIMITS.mostPixels))
  const blocks = blockMeans(part, across.count, down.count, binning)
  const remark = `${cut}, averaged ${binning} × ${binning}.`
  return rounded({ width: blocks.width, height: blocks.height, pixels: blocks.values, binning, remark })
}

/** Pixels within `half` of the beam's centre along one side of the image. */
function keptSpan(
  centre: number,
  half: number,
  side: number,
): { readonly from: number; readonly count: number } {
  const from = Math.max(0, Math.floor(centre - half))
  return { from, count: Math.min(side, Math.ceil(centre + half)) - from }
}

/** Fractions of counts as numbers of 32 bits, which take half the space. */
function rounded(image: KeptImage): KeptImage {
  let exact = true
  for (const value of image.pixels) {
    if (!(Math.abs(value) <= READING_LIMITS.mostCounts)) {
      throw new InputError('a pixel of the image', value, `at most ${READING_LIMITS.mostCounts} counts`)
    }
    if (Math.fround(value) !== value) exact = false
  }
  return exact ? image : { ...image, pixels: image.pixels.map(Math.fround) }
}

/** Readings packed for the project file. InputError for one that no instrument gives. */
export function packedColumn(column: ScanColumn) {
  const most = column.coreUnit === 'none' ? Number.MAX_VALUE : READING_LIMITS.most[column.coreUnit]
  const at = column.values.findIndex((value) => !(Math.abs(value) <= most))
  if (at >= 0) {
    const name = `${column.label || column.role} of row ${at + 1}, in ${column.coreUnit},`
    throw new InputError(name, column.values[at], `−${most} to ${most}`)
  }
  return {
    label: column.label,
    role: column.role,
    coreUnit: column.coreUnit,
    values: packNumbers(column.values),
  }
}
