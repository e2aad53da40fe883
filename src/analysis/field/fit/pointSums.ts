// Real less Gaussian loss of a joint at a few sets of coordinates, each summed over plane waves on grids of its own: what a worst case
// is read from, which a fit only finds.

import { InputError } from '../../../numerics/inputError'
import type { Steps } from '../../../numerics/steps'
import { fieldEfficiency, fieldPairOf, jointEfficiency, jointLossDb, lossDb } from '../../../optics/index'
import { gaussianAt, scaledSpec } from './jointAxes'
import type { PointSums } from './knownFits'

/** Grids are doubled until two agree to this share of the light that the Gaussians pass: 0.004 dB. */
const SHARE = 1e-3
/** Least efficiency that this share is taken of. */
const LEAST = 1e-3
/** A loss beyond this is meaningless: the rounding of the fields begins to show. */
const DARKEST_DB = 60

/** Steps of the sums, dB, in the order of the points; NaN where no grid holds the joint or hardly any light passes. */
export function* pointSums({ spec, nominal, points }: PointSums): Steps<readonly number[]> {
  const sums: number[] = []
  for (const at of points) {
    yield sums.length / points.length
    const moved = gaussianAt(nominal, at)
    try {
      const pair = { ...fieldPairOf(scaledSpec(spec, at)), wavelengthUm: moved.wavelengthUm }
      const wanted = SHARE * Math.max(LEAST, jointEfficiency(moved))
      const fieldDb = lossDb(fieldEfficiency(pair, moved, wanted).efficiency)
      sums.push(fieldDb < DARKEST_DB ? fieldDb - jointLossDb(moved) : Number.NaN)
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      sums.push(Number.NaN)
    }
  }
  return sums
}
