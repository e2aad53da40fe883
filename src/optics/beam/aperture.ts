// What a circular aperture lets through of a Gaussian beam.
//   round, centred: T = 1 - exp(-2 a^2 / w^2)
//   elliptical or off centre: the radial integral of the angle-averaged intensity, a Bessel I0
// The clipped field coupled back into the unclipped mode gives T^2: T for the power lost, T for the overlap lost.
// Source: A. E. Siegman, Lasers (1986), ch. 17. 1/e^2 intensity radii, micrometres. Neglects edge diffraction:
// trust the coupled value for T above about 0.9.

import { besselI0Scaled } from '../../numerics/bessel'
import { requireInRange, requirePositive } from '../../numerics/inputError'
import { integrate, panelRule } from '../../numerics/quadrature'

const POINTS = 48

/** Power through a centred aperture, 0..1. Radii above 0, else InputError. */
export function apertureTransmission(aperture: {
  readonly apertureRadiusUm: number
  readonly beamRadiusUm: number
}): number {
  requirePositive('apertureRadiusUm', aperture.apertureRadiusUm)
  requirePositive('beamRadiusUm', aperture.beamRadiusUm)
  return 0 - Math.expm1(-2 * (aperture.apertureRadiusUm / aperture.beamRadiusUm) ** 2)
}

/** Power through a centred aperture for a beam of two radii, 0..1, to 1e-10. */
export function ellipticalApertureTransmission(aperture: {
  readonly apertureRadiusUm: number
  readonly beamRadiusXUm: number
  readonly beamRadiusYUm: number
}): number {
  const a = requirePositive('apertureRadiusUm', aperture.apertureRadiusUm)
  const wx = requirePositive('beamRadiusXUm', aperture.beamRadiusXUm)
  const wy = requirePositive('beamRadiusYUm', aperture.beamRadiusYUm)
  const mean = 1 / wx ** 2 + 1 / wy ** 2
  const difference = Math.abs(1 / wx ** 2 - 1 / wy ** 2)
  const reach = Math.min(a, 5 * Math.max(wx, wy))
  return radialPower(reach, Math.min(wx, wy), (r) => {
    const bessel = besselI0Scaled(r * r * difference)
    return ((4 * r) / (wx * wy)) * Math.exp(r * r * (difference - mean)) * bessel
  })
}

/** Power of a round beam through an aperture whose centre is `offsetUm` off the beam's axis, 0..1, to 1e-10. */
export function offsetApertureTransmission(aperture: {
  readonly apertureRadiusUm: number
  readonly beamRadiusUm: number
  readonly offsetUm: number
}): number {
  const a = requirePositive('apertureRadiusUm', aperture.apertureRadiusUm)
  const w = requirePositive('beamRadiusUm', aperture.beamRadiusUm)
  const d = Math.abs(requireInRange('offsetUm', aperture.offsetUm, -1e6, 1e6))
  const reach = Math.min(a, d + 5 * w)
  return radialPower(reach, w, (r) => {
    const bessel = besselI0Scaled((4 * r * d) / (w * w))
    return ((4 * r) / (w * w)) * Math.exp((-2 * (r - d) ** 2) / (w * w)) * bessel
  })
}

/** Straight lines through the beam's centre, at equal angles: twice as many directions. */
const LINES = 24
const COSINES = Float64Array.from({ length: LINES }, (_, i) => Math.cos((Math.PI * (i + 0.5)) / LINES))
const SINES = Float64Array.from({ length: LINES }, (_, i) => Math.sin((Math.PI * (i + 0.5)) / LINES))

/**
 * Power of an elliptical beam through a round aperture that its centre is off by (offsetX, offsetY), 0..1, without
 * checks or allocation. In coordinates scaled by the two radii the power outside is the mean of exp(-2 s^2) over the
 * directions, s being where a ray from the beam's centre meets the edge; the integrand is periodic, so that few
 * directions do: good to 1e-6 for radii up to 2 to 1 with the centre well inside the aperture, to 1e-2 elsewhere.
 */
export function shiftedApertureTransmission(
  apertureRadiusUm: number,
  beamRadiusXUm: number,
  beamRadiusYUm: number,
  offsetXUm: number,
  offsetYUm: number,
): number {
  const c = offsetXUm * offsetXUm + offsetYUm * offsetYUm - apertureRadiusUm * apertureRadiusUm
  let sum = 0
  for (let i = 0; i < LINES; i++) {
    const x = beamRadiusXUm * (COSINES[i] as number)
    const y = beamRadiusYUm * (SINES[i] as number)
    const a = x * x + y * y
    const b = Math.abs(offsetXUm * x + offsetYUm * y)
    const square = b * b - a * c
    if (square <= 0) continue
    const root = Math.sqrt(square)
    const far = (root + b) / a
    const near = (root - b) / a
    // From inside, both halves of a line meet the edge once; from outside, one half meets it twice.
    sum +=
      c < 0
        ? 2 - Math.exp(-2 * near * near) - Math.exp(-2 * far * far)
        : Math.exp(-2 * near * near) - Math.exp(-2 * far * far)
  }
  return Math.min(1, sum / (2 * LINES))
}

/** Power left after a clipped beam is coupled back into its own mode: the square of the transmission 0..1. */
export function coupledTruncation(transmission: number): number {
  return requireInRange('transmission', transmission, 0, 1) ** 2
}

function radialPower(reachUm: number, scaleUm: number, density: (r: number) => number): number {
  const panels = Math.min(Math.max(1, Math.ceil(reachUm / (2 * scaleUm))), 200)
  const breaks = Array.from({ length: panels + 1 }, (_, i) => (reachUm * i) / panels)
  return Math.min(integrate(density, panelRule(breaks, POINTS)), 1)
}
