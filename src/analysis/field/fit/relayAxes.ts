// The coordinates of a relay's difference, and the data of the relay that it needs.

import type { LensSide } from '../../../optics/index'

/** Offset and tilt of the image at the far face, displacement of both guides against their lenses, end distances. */
export const RELAY_AXES = [
  'offsetXUm',
  'offsetYUm',
  'tiltXRad',
  'tiltYRad',
  'nearXUm',
  'nearYUm',
  'farXUm',
  'farYUm',
  'frontUm',
  'backUm',
] as const

/** Both sides of a relay at its nominal distances, and what lies between the lenses. Plain data. */
export interface RelaySides {
  readonly near: LensSide
  readonly far: LensSide
  /** Of the waist before the near face; the far guide has its waist at its face. */
  readonly nearWaistUm: number
  /** Between the lenses, as diffraction sees it. */
  readonly stretchUm: number
}

/** A relay for whoever moves it further than a fit reaches. */
export interface RelayFields {
  readonly sides: RelaySides
  /** Its coordinates at the nominal values. */
  readonly at: readonly number[]
  /** Displacement of the far guide that gives as much coma as a slope of 1. */
  readonly tilt2Um: number
  /** Real less paraxial loss at the nominal values, dB. */
  readonly nominalDb: number
}
