// How much of a mode, solved without its substrate, lies where the substrate is.

import type { GridAxes } from './interpolate'

/** Share of the leading component's power below the substrate's surface, y = 0; from 0 to 1. */
export function substrateShare({
  axes: { x, y },
  field,
}: {
  readonly axes: GridAxes
  readonly field: Float64Array
}): number {
  const nx = x.centres.length
  let [below, all] = [0, 0]
  for (let iy = 0, i = 0; iy < y.centres.length; iy++) {
    const heightUm = (y.faces[iy + 1] ?? 0) - (y.faces[iy] ?? 0)
    const isBelow = (y.centres[iy] ?? 0) < 0
    for (let ix = 0; ix < nx; ix++, i++) {
      const power = (field[i] ?? 0) ** 2 * heightUm * ((x.faces[ix + 1] ?? 0) - (x.faces[ix] ?? 0))
      all += power
      if (isBelow) below += power
    }
  }
  return below / all
}
