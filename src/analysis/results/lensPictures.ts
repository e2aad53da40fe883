// The effect of the lenses of a relay on the light, as data for the pictures.

import type { ChiefRay, LensSide, PlacedLens } from '../../optics/index'

/** The lenses of a relay and the light on them, at one state. */
export interface LensesInLight {
  readonly elementId: string
  readonly names: readonly [string, string]
  readonly near: LensSide
  readonly far: LensSide
  /** The axis of the light at lens 1. */
  readonly chief: ChiefRay
  readonly first: PlacedLens
  /** Lens 2 as met from the far guide. */
  readonly second: PlacedLens
  /** Lens 2 as met from the parallel beam. */
  readonly onward: PlacedLens
  readonly stretchUm: number
  readonly backGapUm: number
  readonly receiverRadiusXUm: number
  readonly receiverRadiusYUm: number
}

/** A wavefront in the parallel beam, over places in 1/e^2 radii of the beam. */
export interface WavefrontPicture {
  readonly lens: 1 | 2
  readonly lensName: string
  /** Rows of y from below, on a square grid from -reach to +reach; NaN where no ray arrives. */
  readonly side: number
  readonly reach: number
  /** Path beyond that of a perfect lens at best focus, in wavelengths. */
  readonly errorWaves: Float64Array
  readonly rmsWaves: number
  /** |sum P exp(2 pi i W)|^2 over the power of the mode, 0 to 1. */
  readonly strehl: number
}

export interface SpotPicture {
  readonly xUm: Float64Array
  readonly yUm: Float64Array
  /** Height at which each ray leaves, in 1/e^2 radii of the mode at lens 1. */
  readonly radii: Float64Array
  readonly receiverRadiusXUm: number
  readonly receiverRadiusYUm: number
}

export interface LensPictures {
  readonly elementId: string
  /** Of the lenses whose faces are known. */
  readonly wavefronts: readonly WavefrontPicture[]
  readonly spots: SpotPicture
}
