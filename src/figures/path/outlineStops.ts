// A path known only by the size of its mode at a few places, as a stop of the Path strip: for a family before it is drafted.

import type { PathStop, StripStation } from './pathStops'

interface OutlinePoint {
  /** Place along the path, 0 to 1. */
  readonly at: number
  readonly mfdUm: number
}

const STEPS = 12

/** From point to point the mode changes smoothly. */
export function outlineStops(points: readonly OutlinePoint[]): readonly PathStop[] {
  const stations = points.flatMap((point, i): readonly StripStation[] => {
    const before = points[i - 1]
    const from = before ?? point
    return Array.from({ length: before === undefined ? 1 : STEPS }, (_, step) => {
      const along = before === undefined ? 1 : (step + 1) / STEPS
      const part = (1 - Math.cos(Math.PI * along)) / 2
      const radiusUm = (from.mfdUm + (point.mfdUm - from.mfdUm) * part) / 2
      return { at: from.at + (point.at - from.at) * along, radiusXUm: radiusUm, radiusYUm: radiusUm }
    })
  })
  return [
    {
      id: 'outline',
      kind: 'fibre',
      name: '',
      detail: '',
      shorter: [],
      lossDb: 0,
      share: 1,
      stations,
      ground: 'glass',
      faces: [0, 0],
      lenses: [],
      device: null,
      isTip: false,
      channels: 1,
    },
  ]
}
