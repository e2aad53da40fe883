// Coupling between two solved modes where a guide changes its cross-section: the overlap of the scalar fields that couple
// as their E and H do (couplingField.ts), on the grid of the second mode.

import { cellSizes } from '../grid'
import { interpolated } from '../interpolate'
import type { SolvedMode } from '../solveMode'
import { couplingField } from './couplingField'

type Solved = Pick<SolvedMode, 'axes' | 'field' | 'magnetic'>

/**
 * Amplitude overlap, 0 to 1, of a mode with that of another cross-section at the same position and wavelength. Beyond the border of its own
 * grid the first is treated as zero; `onto` should be the wider of the two.
 */
export function modeOverlap(mode: Solved, onto: Solved): number {
  const first = interpolated(couplingField(mode).field, mode.axes, onto.axes)
  const second = couplingField(onto).field
  const [hx, hy] = [cellSizes(onto.axes.x), cellSizes(onto.axes.y)]
  const [x, y] = [onto.axes.x.centres, onto.axes.y.centres]
  const { x: rangeX, y: rangeY } = mode.axes
  const nx = x.length
  let both = 0
  let ofFirst = 0
  let ofSecond = 0
  for (let iy = 0; iy < y.length; iy++) {
    const height = hy[iy] as number
    const isInY = (y[iy] as number) >= rangeY.ends[0] && (y[iy] as number) <= rangeY.ends[1]
    for (let ix = 0; ix < nx; ix++) {
      const area = height * (hx[ix] as number)
      const b = second[iy * nx + ix] as number
      ofSecond += b * b * area
      const at = x[ix] as number
      if (!isInY || at < rangeX.ends[0] || at > rangeX.ends[1]) continue
      const a = first[iy * nx + ix] as number
      both += a * b * area
      ofFirst += a * a * area
    }
  }
  return Math.min(1, Math.abs(both) / Math.sqrt(ofFirst * ofSecond))
}
