// Two lenses that relays of tests are made of, as the optics core takes them.

import { ballLens, thickLens } from '../../src/optics/beam/abcd'
import { FLAT_FACE, sphericalFace } from '../../src/optics/lens/lensShape'

const air = { mediumIndex: 1, thicknessUm: 500 } as const

/** A ball of 500 um, n = 1.7462. */
export const BALL = {
  ...air,
  shape: { ...air, index: 1.7462, first: sphericalFace(250), last: sphericalFace(-250) },
  matrix: ballLens({ index: 1.7462, diameterUm: 500 }),
} as const

/** Plano-convex, n = 1.444, radius and thickness 500 um, its flat face first. */
export const PLANO_CONVEX = {
  ...air,
  shape: { ...air, index: 1.444, first: FLAT_FACE, last: sphericalFace(-500) },
  matrix: thickLens({
    ...{ index: 1.444, thicknessUm: 500 },
    ...{ frontRadiusUm: Number.POSITIVE_INFINITY, backRadiusUm: -500 },
  }),
} as const
