// Few enough points to draw, without losing peaks: each run of points is drawn as its lowest and its highest one.

import type { PixelMap } from '../nearField/imageFit'

const DRAWN_POINTS = 1500
const DRAWN_PIXELS = 200
/** Cells a side for rasters of more points than the square of it. */
const DRAWN_CELLS = 100

/** Places of the points to draw, ascending; all of them where there are few. `values` decides what is kept. */
export function plottedIndices(values: ArrayLike<number>, most = DRAWN_POINTS): Int32Array {
  const n = values.length
  if (n <= most) return Int32Array.from({ length: n }, (_, i) => i)
  const runs = Math.floor(most / 2)
  const indices: number[] = []
  for (let run = 0; run < runs; run++) {
    const from = Math.floor((run * n) / runs)
    const to = Math.floor(((run + 1) * n) / runs)
    let low = from
    let high = from
    for (let i = from + 1; i < to; i++) {
      if ((values[i] ?? 0) < (values[low] ?? 0)) low = i
      if ((values[i] ?? 0) > (values[high] ?? 0)) high = i
    }
    indices.push(Math.min(low, high), ...(low === high ? [] : [Math.max(low, high)]))
  }
  return Int32Array.from(indices)
}

/** The values at the given indices. */
export function pickedValues(values: ArrayLike<number>, indices: Int32Array): Float64Array {
  return Float64Array.from(indices, (index) => values[index] ?? 0)
}

/** A raster to draw: its points, or where there are too many the means of those in each of 100 x 100 cells. */
export function rasterToPlot(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  values: ArrayLike<number>,
): { readonly x: Float64Array; readonly y: Float64Array; readonly values: Float64Array } {
  if (values.length <= DRAWN_CELLS ** 2) {
    return { x: Float64Array.from(x), y: Float64Array.from(y), values: Float64Array.from(values) }
  }
  const [across, down] = [cellsOf(x), cellsOf(y)]
  const sums = new Float64Array(DRAWN_CELLS ** 2)
  const counts = new Uint32Array(DRAWN_CELLS ** 2)
  for (let i = 0; i < values.length; i++) {
    const cell = down.cell(y[i] ?? 0) * DRAWN_CELLS + across.cell(x[i] ?? 0)
    sums[cell] = (sums[cell] ?? 0) + (values[i] ?? 0)
    counts[cell] = (counts[cell] ?? 0) + 1
  }
  const filled = Int32Array.from(counts.keys()).filter((cell) => (counts[cell] ?? 0) > 0)
  return {
    x: Float64Array.from(filled, (cell) => across.middle(cell % DRAWN_CELLS)),
    y: Float64Array.from(filled, (cell) => down.middle(Math.floor(cell / DRAWN_CELLS))),
    values: Float64Array.from(filled, (cell) => (sums[cell] ?? 0) / (counts[cell] ?? 1)),
  }
}

function cellsOf(positions: ArrayLike<number>) {
  let low = Infinity
  let high = -Infinity
  for (let i = 0; i < positions.length; i++) {
    low = Math.min(low, positions[i] ?? low)
    high = Math.max(high, positions[i] ?? high)
  }
  const size = (high - low) / DRAWN_CELLS || 1
  return {
    cell: (at: number) => Math.min(DRAWN_CELLS - 1, Math.floor((at - low) / size)),
    middle: (cell: number) => low + (cell + 0.5) * size,
  }
}

/** Blocks of `block` x `block` pixels as their means; pixels at the far edges that fill no block are omitted. */
export function blockMeans(
  pixels: ArrayLike<number>,
  width: number,
  height: number,
  block: number,
): { readonly width: number; readonly height: number; readonly values: Float64Array } {
  const across = Math.floor(width / block)
  const down = Math.floor(height / block)
  const values = new Float64Array(across * down)
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < across; i++) {
      let sum = 0
      for (let v = 0; v < block; v++) {
        const row = (j * block + v) * width + i * block
        for (let u = 0; u < block; u++) sum += pixels[row + u] ?? 0
      }
      values[j * across + i] = sum / (block * block)
    }
  }
  return { width: across, height: down, values }
}

/** The square about a centre, as far as the image goes, as at most 200 x 200 blocks to draw. */
export function imagePartToPlot(
  pixels: ArrayLike<number>,
  width: number,
  height: number,
  pixelUm: number,
  centre: { readonly xUm: number; readonly yUm: number; readonly halfUm: number },
): PixelMap {
  const index = (atUm: number, last: number) => Math.min(last, Math.max(0, Math.round(atUm / pixelUm)))
  const left = index(centre.xUm - centre.halfUm, width - 1)
  const top = index(centre.yUm - centre.halfUm, height - 1)
  const across = index(centre.xUm + centre.halfUm, width - 1) - left + 1
  const down = index(centre.yUm + centre.halfUm, height - 1) - top + 1
  const part = new Float64Array(across * down)
  for (let i = 0; i < part.length; i++) {
    part[i] = pixels[(top + Math.floor(i / across)) * width + left + (i % across)] ?? 0
  }
  const map = imageToPlot(part, across, down, pixelUm)
  return { ...map, xUm: map.xUm + left * pixelUm, yUm: map.yUm + top * pixelUm }
}

/** An image of at most 200 x 200 blocks to draw. */
export function imageToPlot(
  pixels: ArrayLike<number>,
  width: number,
  height: number,
  pixelUm: number,
): PixelMap {
  const block = Math.max(1, Math.ceil(Math.max(width, height) / DRAWN_PIXELS))
  const middleUm = ((block - 1) / 2) * pixelUm
  return {
    ...blockMeans(pixels, width, height, block),
    xUm: middleUm,
    yUm: middleUm,
    stepUm: block * pixelUm,
  }
}
