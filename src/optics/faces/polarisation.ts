// Extinction ratio of two polarisation-maintaining guides whose axes are rotated against each other.
//   ER = -10 log10(tan^2 angle)
// Source: projection of a linear state on rotated axes; no journal source found. Other crosstalk adds to it.

import { requireInRange } from '../../numerics/inputError'
import { atMostNoLight } from '../beam/decibel'

/** Extinction ratio in dB for an angle above 0, up to pi/4 (0 dB); NO_LIGHT_DB for an angle of 0. */
export function extinctionRatioDb(angleRad: number): number {
  requireInRange('angleRad', angleRad, 0, Math.PI / 4)
  return atMostNoLight(0 - 20 * Math.log10(Math.tan(angleRad)))
}

/** The angle that leaves an extinction ratio of 0 to 100 dB. */
export function angleForExtinctionRad(extinctionDb: number): number {
  requireInRange('extinctionDb', extinctionDb, 0, 100)
  return Math.atan(10 ** (-extinctionDb / 20))
}

/**
 * Extinction ratio after several joints whose axes are turned by `anglesRad` (each -pi/4 to pi/4), with the delays
 * between them unknown. Incoherent: the mean over all delays, cos 2t = product of cos 2t_i, which for small angles is the
 * sum of the crosstalk powers. Worst: the turns add on the Poincare sphere, t = sum of |t_i|; 0 dB from pi/4 on.
 */
export function seriesExtinction(anglesRad: readonly number[]): {
  readonly incoherentDb: number
  readonly worstDb: number
} {
  let sum = 0
  let crossed = 0
  for (const angle of anglesRad) {
    requireInRange('angleRad', angle, -Math.PI / 4, Math.PI / 4)
    sum += Math.abs(angle)
    // Power on the wrong axis after the joint, the phase before it unknown: cos 2t is 1 - 2 crossed, without its cancellation.
    const turned = Math.sin(angle) ** 2
    crossed += turned - 2 * crossed * turned
  }
  const incoherent = Math.min(Math.PI / 4, Math.atan(Math.sqrt(crossed / (1 - crossed))))
  return {
    incoherentDb: extinctionRatioDb(incoherent),
    worstDb: extinctionRatioDb(Math.min(sum, Math.PI / 4)),
  }
}
