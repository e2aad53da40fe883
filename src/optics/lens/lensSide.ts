// A guide with its lens, as both sides of a relay have one: seen from the guide, light runs into the parallel beam.

import type { RayMatrix } from '../beam/abcd'
import type { LensMode } from './collimatedField'
import type { LensShape } from './lensShape'

export interface LensSide {
  readonly mode: LensMode
  /** Null for a lens known by its matrix only, which then has no aberration. */
  readonly lens: LensShape | null
  readonly matrix: RayMatrix
  readonly thicknessUm: number
  readonly mediumIndex: number
}
