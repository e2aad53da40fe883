// Position of the fibre, and the position after a move along z and across it; micrometres.

import { roundedTo } from '../../numerics/numberText'

export interface FibreMove {
  readonly gapUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
}

/** Moves land on multiples of this, so that the numbers they leave are ones that a user would type. */
const SNAP_UM = 0.01
const snapped = (um: number) => roundedTo(Math.round(um / SNAP_UM) * SNAP_UM, 4)

/** Only what a move touches is snapped: an entered value on the other axis stays as entered. The gap stops at contact. */
export function moved(from: FibreMove, axis: 'x' | 'y', zUm: number, vUm: number): FibreMove {
  const across = (um: number) => (vUm === 0 ? um : snapped(um + vUm))
  return {
    gapUm: zUm === 0 ? from.gapUm : Math.max(0, snapped(from.gapUm - zUm)),
    offsetXUm: axis === 'x' ? across(from.offsetXUm) : from.offsetXUm,
    offsetYUm: axis === 'y' ? across(from.offsetYUm) : from.offsetYUm,
  }
}
