// How the six axes are named and counted on screen.

import type { MisalignmentAxis } from '../../optics/index'

export interface AxisText {
  readonly name: string
  readonly unit: string
  /** Screen value of one core unit. */
  readonly perCore: number
  /** The least value that the axis can have, core unit. */
  readonly least?: number
}

const DEG_PER_RAD = 180 / Math.PI

export const AXIS_TEXT: Readonly<Record<MisalignmentAxis, AxisText>> = {
  offsetXUm: { name: 'Offset x', unit: 'µm', perCore: 1 },
  offsetYUm: { name: 'Offset y', unit: 'µm', perCore: 1 },
  gapUm: { name: 'Gap', unit: 'µm', perCore: 1, least: 0 },
  tiltXRad: { name: 'Tilt x', unit: '°', perCore: DEG_PER_RAD },
  tiltYRad: { name: 'Tilt y', unit: '°', perCore: DEG_PER_RAD },
  rollRad: { name: 'Roll', unit: '°', perCore: DEG_PER_RAD },
}
