// What an aperture lets through of a beam that may be elliptical and off centre.

import { ellipticalApertureTransmission, offsetApertureTransmission } from '../../optics/index'
import type { ApertureBeam } from './relayOptics'

/** Apertures wider than the beam by this many radii take less than 1e-13. */
const UNCLIPPED_RADII = 4

/**
 * Power through an aperture, 0..1. An elliptical beam off centre is taken as elliptical for its size and as round of
 * the same area for what the shift adds.
 */
export function throughAperture(diameterUm: number, beam: ApertureBeam): number {
  const apertureRadiusUm = diameterUm / 2
  const { radiusXUm, radiusYUm, offCentreUm } = beam
  if (apertureRadiusUm > UNCLIPPED_RADII * Math.max(radiusXUm, radiusYUm) + offCentreUm) return 1
  const beamRadiusUm = Math.sqrt(radiusXUm * radiusYUm)
  const round = { apertureRadiusUm, beamRadiusUm }
  const centred = ellipticalApertureTransmission({
    apertureRadiusUm,
    beamRadiusXUm: radiusXUm,
    beamRadiusYUm: radiusYUm,
  })
  if (offCentreUm === 0) return centred
  const shifted = offsetApertureTransmission({ ...round, offsetUm: offCentreUm })
  return Math.min(1, (centred * shifted) / offsetApertureTransmission({ ...round, offsetUm: 0 }))
}
