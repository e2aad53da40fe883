// Colour scales of maps, as stops and as the bytes of a picture.

import type { MapSeries, ScaleName } from '../chart'
import { CIVIDIS } from './cividis'

type Stops = readonly (readonly [position: number, colour: string])[]

/** Blue and orange about white, readable without red and green (own choice of steps). */
const SIGNED: Stops = [
  [0, '#0b4f8a'],
  [0.25, '#7fb0d6'],
  [0.5, '#f7f7f5'],
  [0.75, '#eaa65f'],
  [1, '#9a4a06'],
]
/** A closed scale: the ends of a phase are one. Own choice of steps, light about zero. */
const PHASE: Stops = [
  [0, '#2b3a67'],
  [0.25, '#7fa3c7'],
  [0.5, '#f4f1ea'],
  [0.75, '#d59a6a'],
  [1, '#2b3a67'],
]
const LOSS: Stops = CIVIDIS.map(([position], i) => [
  position,
  CIVIDIS[CIVIDIS.length - 1 - i]?.[1] ?? '#000000',
])

export const SCALES: Readonly<Record<ScaleName, Stops>> = {
  loss: LOSS,
  light: CIVIDIS,
  signed: SIGNED,
  phase: PHASE,
}

const STEPS = 256
const CHANNELS = 4
const OPAQUE = 255

const channels = (hex: string) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16))

function scaleBytes(stops: Stops): Uint8ClampedArray {
  const bytes = new Uint8ClampedArray(STEPS * CHANNELS).fill(OPAQUE)
  for (let step = 0; step < STEPS; step++) {
    const position = (step / (STEPS - 1)) * (stops.length - 1)
    const below = Math.min(stops.length - 2, Math.floor(position))
    const from = channels(stops[below]?.[1] ?? '')
    const to = channels(stops[below + 1]?.[1] ?? '')
    for (const [c, value] of from.entries()) {
      bytes[step * CHANNELS + c] = value + (position - below) * ((to[c] ?? value) - value)
    }
  }
  return bytes
}

const BYTES = new Map<ScaleName, Uint8ClampedArray>()

function bytesOf(scale: ScaleName): Uint8ClampedArray {
  const known = BYTES.get(scale)
  if (known !== undefined) return known
  const made = scaleBytes(SCALES[scale])
  BYTES.set(scale, made)
  return made
}

/** Rows from the greatest y down, as pictures have them: four bytes a cell; empty cells are transparent. */
export function mapPixels({
  x,
  y,
  rows,
  scale,
  from,
  to,
}: Omit<MapSeries, 'kind'>): Uint8ClampedArray<ArrayBuffer> {
  const colours = bytesOf(scale)
  const pixels = new Uint8ClampedArray(x.length * y.length * CHANNELS)
  const upwards = (y[0] ?? 0) <= (y[y.length - 1] ?? 0)
  let at = 0
  for (let k = 0; k < y.length; k++) {
    const row = rows[upwards ? y.length - 1 - k : k]
    for (let i = 0; i < x.length; i++) {
      const value = row?.[i] ?? Number.NaN
      if (Number.isNaN(value)) {
        at += CHANNELS
        continue
      }
      const share = Math.min(1, Math.max(0, (value - from) / (to - from || 1)))
      const colour = Math.round(share * (STEPS - 1)) * CHANNELS
      for (let c = 0; c < CHANNELS; c++) pixels[at++] = colours[colour + c] ?? OPAQUE
    }
  }
  return pixels
}
