// The coordinates of a relay's difference, and the data of the relay that it needs.

import type { LensSide } from '../../../optics/index'

/** Offset and tilt of the image at the far face, place and slope of both guides in the frames of their lenses, end distances. */
export const RELAY_AXES = [
  'offsetXUm',
  'offsetYUm',
  'tiltXRad',
  'tiltYRad',
  'nearXUm',
  'nearYUm',
  'nearSlopeXRad',
  'nearSlopeYRad',
  'farXUm',
  'farYUm',
  'farSlopeXRad',
  'farSlopeYRad',
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
  /** Real less paraxial loss at the nominal values, dB. */
  readonly nominalDb: number
}
