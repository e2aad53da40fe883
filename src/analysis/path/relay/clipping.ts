// What an aperture lets through of a beam that may be elliptical and off centre.

import { shiftedApertureTransmission } from '../../../optics/index'
import type { ApertureBeam } from './relayOptics'

/** Apertures wider than the beam by this many radii take less than 2e-9. */
const UNCLIPPED_RADII = 3.2

/** Power through an aperture of the given diameter, 0..1. */
export function throughAperture(diameterUm: number, beam: ApertureBeam): number {
  const { radiusXUm, radiusYUm, offXUm, offYUm } = beam
  const reach = UNCLIPPED_RADII * Math.max(radiusXUm, radiusYUm) + Math.abs(offXUm) + Math.abs(offYUm)
  if (diameterUm / 2 > reach) return 1
  return shiftedApertureTransmission(diameterUm / 2, radiusXUm, radiusYUm, offXUm, offYUm)
}
