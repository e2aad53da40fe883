// A guide with its lens, one on each side of a relay, seen in the direction from the guide to the collimated beam.

import type { RayMatrix } from '../beam/abcd'
import type { LensMode } from './collimatedField'
import type { LensShape } from './lensShape'

export interface LensSide {
  readonly mode: LensMode
  /** Null for a lens known only by its matrix, which then has no aberration. */
  readonly lens: LensShape | null
  readonly matrix: RayMatrix
  readonly thicknessUm: number
  readonly mediumIndex: number
}
