// Few enough points to draw, without losing peaks: each run of points is drawn as its lowest and its highest one.

import type { PixelMap } from './imageFit'

const DRAWN_POINTS = 1500
const DRAWN_PIXELS = 200

/** Places of the points to draw, ascending; all of them where there are few. `values` decides what is kept. */
export function drawnPlaces(values: ArrayLike<number>, most = DRAWN_POINTS): Int32Array {
  const n = values.length
  if (n <= most) return Int32Array.from({ length: n }, (_, i) => i)
  const runs = Math.floor(most / 2)
  const places: number[] = []
  for (let run = 0; run < runs; run++) {
    const from = Math.floor((run * n) / runs)
    const to = Math.floor(((run + 1) * n) / runs)
    let low = from
    let high = from
    for (let i = from + 1; i < to; i++) {
      if ((values[i] ?? 0) < (values[low] ?? 0)) low = i
      if ((values[i] ?? 0) > (values[high] ?? 0)) high = i
    }
    places.push(Math.min(low, high), ...(low === high ? [] : [Math.max(low, high)]))
  }
  return Int32Array.from(places)
}

/** The values at the given places. */
export function pickedValues(values: ArrayLike<number>, places: Int32Array): Float64Array {
  return Float64Array.from(places, (place) => values[place] ?? 0)
}

/** Blocks of `block` x `block` pixels as their means; pixels at the far edges that fill no block are left out. */
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

/** An image of at most 200 x 200 blocks to draw. */
export function drawnImage(
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
