// The colours of a map: bright where little is lost, even over the shown range of losses.

import type { LossMap } from '../analysis/tolerance/toleranceMap'
import { CIVIDIS } from './cividis'
import { SHOWN_ABOVE_LEAST_DB } from './lossMapFigure'

const STEPS = 256
const CHANNELS = 4
const OPAQUE = 255

/** Red, green, blue, alpha of the scale's colours, from no loss above the least to the end of the scale. */
const SCALE = scaleBytes()

function channels(hex: string): readonly number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16))
}

function scaleBytes(): Uint8ClampedArray {
  const bytes = new Uint8ClampedArray(STEPS * CHANNELS).fill(OPAQUE)
  for (let step = 0; step < STEPS; step++) {
    const place = (1 - step / (STEPS - 1)) * (CIVIDIS.length - 1)
    const below = Math.min(CIVIDIS.length - 2, Math.floor(place))
    const from = channels(CIVIDIS[below]?.[1] ?? '')
    const to = channels(CIVIDIS[below + 1]?.[1] ?? '')
    for (const [c, value] of from.entries()) {
      bytes[step * CHANNELS + c] = value + (place - below) * ((to[c] ?? value) - value)
    }
  }
  return bytes
}

/** Rows from the greatest y down, as pictures have them: four bytes a cell. */
export function mapPixels({ x, y, rowsDb, leastDb }: LossMap): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(x.length * y.length * CHANNELS)
  let at = 0
  for (let j = y.length - 1; j >= 0; j--) {
    const row = rowsDb[j]
    for (let i = 0; i < x.length; i++) {
      const share = Math.min(1, Math.max(0, ((row?.[i] ?? leastDb) - leastDb) / SHOWN_ABOVE_LEAST_DB))
      const from = Math.round(share * (STEPS - 1)) * CHANNELS
      for (let c = 0; c < CHANNELS; c++) pixels[at++] = SCALE[from + c] ?? OPAQUE
    }
  }
  return pixels
}
