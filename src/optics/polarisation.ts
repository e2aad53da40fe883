// Extinction ratio left when the axes of two polarisation-maintaining guides are turned against each other.
//   ER = -10 log10(tan^2 angle)
// Source: projection of a linear state on turned axes; no journal source found. Other crosstalk comes on top.

import { requireInRange } from '../numerics/inputError'

/** Extinction ratio in dB for an angle above 0, up to pi/4 (0 dB). An angle of 0 gives Infinity. */
export function extinctionRatioDb(angleRad: number): number {
  requireInRange('angleRad', angleRad, 0, Math.PI / 4)
  return 0 - 20 * Math.log10(Math.tan(angleRad))
}

/** The angle that leaves an extinction ratio of 0 to 100 dB. */
export function angleForExtinctionRad(extinctionDb: number): number {
  requireInRange('extinctionDb', extinctionDb, 0, 100)
  return Math.atan(10 ** (-extinctionDb / 20))
}
