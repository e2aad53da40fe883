// The exact fundamental mode of a step-index core as a profile: field and slope from the Bessel functions at nodes.
//   E = J0(U r/a) / J0(U) in the core, K0(W r/a) / K0(W) outside;  slopes by J0' = -J1, K0' = -K1
// and its plane waves from the far field in closed form, with int E^2 = pi a^2 (J1^2/J0^2 (U) + K1^2/K0^2 (W)).
// Sources: lp01Field.ts and stepIndexMode.ts.

import { besselJ0, besselJ1, besselK0Scaled, besselK1Scaled } from '../../numerics/bessel'
import { lp01FarField } from '../fibre/lp01Field'
import { normalisedFrequency, type StepIndexFibre, solveLp01 } from '../fibre/stepIndexMode'
import type { ModeProfile } from './modeProfile'
import { type HankelTransform, radialPlane } from './radialPlane'
import { radialProfile } from './radialProfile'

/** Nodes a core radius: cubic pieces between them are good to 1e-10 of the peak. */
const NODES_A_RADIUS = 96
/** The table reaches to where the tail has fallen by this factor from the edge of the core. */
const TAIL = Math.log(1e8)
const LEAST_RADII = 3

/** The mode of a fibre, cylinder about the axis. Throws InputError for impossible fibres and V outside V_RANGE. */
export function stepIndexProfile(fibre: StepIndexFibre): ModeProfile {
  const { U, W } = solveLp01(normalisedFrequency(fibre))
  const { coreRadiusUm } = fibre
  const count = Math.ceil(NODES_A_RADIUS * Math.max(LEAST_RADII, 1 + TAIL / W))
  const radii = Float64Array.from({ length: count + 1 }, (_, i) => i / NODES_A_RADIUS)
  const inCore = (r: number) => r < 1
  const [j0, k0] = [besselJ0(U), besselK0Scaled(W)]
  const outside = (bessel: (x: number) => number, r: number) => (bessel(W * r) / k0) * Math.exp(-W * (r - 1))
  const profile = radialProfile({
    radiiUm: radii.map((r) => r * coreRadiusUm),
    field: radii.map((r) => (inCore(r) ? besselJ0(U * r) / j0 : outside(besselK0Scaled, r))),
    slopePerUm: radii.map(
      (r) => (inCore(r) ? (-U * besselJ1(U * r)) / j0 : -W * outside(besselK1Scaled, r)) / coreRadiusUm,
    ),
    decayPerUm: W / coreRadiusUm,
  })
  const [core, cladding] = [besselJ1(U) / j0, besselK1Scaled(W) / k0]
  // int E r dr in units of the core radius: both halves of the far field's formula at 0.
  const onAxisUm2 = 2 * Math.PI * coreRadiusUm ** 2 * (core / U + cladding / W)
  const powerUm2 = Math.PI * coreRadiusUm ** 2 * (core * core + cladding * cladding)
  const transform: HankelTransform = (qPerUm, out) => {
    out.re = onAxisUm2 * lp01FarField({ U, W }, qPerUm * coreRadiusUm)
    out.im = 0
  }
  return { ...profile, plane: radialPlane(transform, profile.reachXUm, powerUm2) }
}
