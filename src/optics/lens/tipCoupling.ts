// Power that the real field of a lensed tip couples into a Gaussian mode, and the best-fit Gaussian of that field.
//   efficiency = |int A G* exp(-i kz z) q dq|^2 / int |G|^2 q dq,  with G averaged over the azimuth
// A centred elliptical mode averages to exp(-q^2 (wx^2 + wy^2) / 8) I0(q^2 (wx^2 - wy^2) / 8); displaced or tilted ones are summed over azimuths. Signs and axes are those of
// GaussianJoint: the tip is the emitter. Source: Parseval's theorem on tipSpectrum.ts. Micrometres, radians.

import { besselI0Scaled } from '../../numerics/bessel'
import { requirePositive } from '../../numerics/inputError'
import { minimiseBrent } from '../../numerics/minimise'
import { type LensedTip, lensedTipFocus } from './lensedTip'
import { gaussianAmplitude, type RadialAmplitude, type TipSpectrum, tipSpectrum } from './tipSpectrum'

/** The receiver's mode and the position of the tip; the receiver's axes are x and y. */
export interface TipPose {
  readonly receiverMfdXUm: number
  readonly receiverMfdYUm: number
  readonly gapUm: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
}

/** Azimuths of the sum over the circle. */
const AZIMUTHS = 32

/** Power coupled, 0 to 1, beyond the reflection of a flat face. Throws InputError for a mode diameter of 0 or below. */
export function tipEfficiency(spectrum: TipSpectrum, pose: TipPose): number {
  return Math.min(1, scalarEfficiency(spectrum, pose))
}

/** Not limited to 1: the scalar field of a weakly curved tip reaches slightly more, and a search for its maximum must see it. */
function scalarEfficiency(spectrum: TipSpectrum, pose: TipPose): number {
  const wx = requirePositive('receiverMfdXUm', pose.receiverMfdXUm) / 2
  const wy = requirePositive('receiverMfdYUm', pose.receiverMfdYUm) / 2
  const { q, weight, kz, re, im, kPerUm } = spectrum
  const { offsetXUm, offsetYUm, gapUm } = pose
  const centred = offsetXUm === 0 && offsetYUm === 0 && pose.tiltXRad === 0 && pose.tiltYRad === 0
  const azimuths = centred ? 1 : AZIMUTHS
  const mean = (wx * wx + wy * wy) / 8
  const difference = Math.abs(wx * wx - wy * wy) / 8
  // The tip turns as a whole: to first order in the tilt, the receiver meets its waves at q + kz sin(tilt).
  const sineX = pose.tiltXRad / Math.hypot(1, pose.tiltXRad)
  const sineY = pose.tiltYRad / Math.hypot(1, pose.tiltYRad)
  const k2 = kPerUm * kPerUm
  let sumRe = 0
  let sumIm = 0
  for (let j = 0; j < q.length; j++) {
    const qj = q[j] as number
    let gRe = 0
    let gIm = 0
    for (let a = 0; a < azimuths; a++) {
      const angle = (2 * Math.PI * (a + 0.5)) / azimuths
      const x = qj * Math.cos(angle) + (kz[j] as number) * sineX
      const y = qj * Math.sin(angle) + (kz[j] as number) * sineY
      if (centred) {
        gRe = Math.exp(-qj * qj * (mean - difference)) * besselI0Scaled(qj * qj * difference)
      } else {
        const size = Math.exp(-(x * x * wx * wx + y * y * wy * wy) / 4)
        // The tilted waves cross the gap: their phase relative to that of the untilted ones is included here.
        const along = Math.sqrt(Math.max(0, k2 - x * x - y * y))
        const turn = x * offsetXUm + y * offsetYUm - (along - (kz[j] as number)) * gapUm
        gRe += size * Math.cos(turn)
        gIm += size * Math.sin(turn)
      }
    }
    const phase = -(kz[j] as number) * gapUm
    const c = Math.cos(phase)
    const s = Math.sin(phase)
    const aRe = (re[j] as number) * c - (im[j] as number) * s
    const aIm = (re[j] as number) * s + (im[j] as number) * c
    sumRe += ((weight[j] as number) * (aRe * gRe - aIm * gIm)) / azimuths
    sumIm += ((weight[j] as number) * (aRe * gIm + aIm * gRe)) / azimuths
  }
  // int |G|^2 over the plane, divided by 2 pi: 1 / (wx wy).
  return (sumRe * sumRe + sumIm * sumIm) * wx * wy
}

/** The Gaussian that the field of a tip overlaps best, and how well. */
export interface TipFit {
  /** 1/e^2 radius of its waist. */
  readonly spotRadiusUm: number
  readonly workingDistanceUm: number
  /** Power in that Gaussian, beyond the reflection of a flat face; 0 to 1. */
  readonly overlap: number
  /** Power that leaves the tip, relative to a flat face. */
  readonly transmission: number
}

const SCAN = 20
/** Waists and distances are searched between these multiples of the paraxial ones. */
const SPOT_RANGE = [0.6, 2] as const
const FURTHEST = 1.4
const FIT_TOLERANCE = 1e-5

function aligned(spectrum: TipSpectrum, waistRadiusUm: number, gapUm: number): number {
  const pose = { gapUm, offsetXUm: 0, offsetYUm: 0, tiltXRad: 0, tiltYRad: 0 }
  const mfd = 2 * waistRadiusUm
  return scalarEfficiency(spectrum, { ...pose, receiverMfdXUm: mfd, receiverMfdYUm: mfd })
}

/** Distance of highest coupling into a round mode, and that coupling, 0 to 1; of several peaks, the highest. */
export function bestTipDistance(
  spectrum: TipSpectrum,
  waistRadiusUm: number,
  longestUm: number,
): { readonly gapUm: number; readonly efficiency: number } {
  const { gapUm, efficiency } = bestAlong(spectrum, waistRadiusUm, longestUm)
  return { gapUm, efficiency: Math.min(1, efficiency) }
}

function bestAlong(
  spectrum: TipSpectrum,
  waistRadiusUm: number,
  longestUm: number,
): { readonly gapUm: number; readonly efficiency: number } {
  let [best, at] = [-1, 0]
  for (let i = 0; i <= SCAN; i++) {
    const efficiency = aligned(spectrum, waistRadiusUm, (longestUm * i) / SCAN)
    if (efficiency > best) [best, at] = [efficiency, i]
  }
  const step = longestUm / SCAN
  const found = minimiseBrent(
    (gapUm) => -aligned(spectrum, waistRadiusUm, gapUm),
    Math.max(0, (at - 1) * step),
    (at + 1) * step,
    { tolerance: FIT_TOLERANCE },
  )
  return { gapUm: found.x, efficiency: -found.value }
}

/** Fits the Gaussian. Throws InputError as tipSpectrum. */
export function fitTip(tip: LensedTip, amplitude: RadialAmplitude = gaussianAmplitude(tip)): TipFit {
  const spectrum = tipSpectrum(tip, amplitude)
  const paraxial = lensedTipFocus(tip)
  const longestUm = FURTHEST * paraxial.workingDistanceUm
  const worth = (spotRadiusUm: number) => bestAlong(spectrum, spotRadiusUm, longestUm)
  const spot = minimiseBrent(
    (share) => -worth(share * paraxial.spotRadiusUm).efficiency,
    SPOT_RANGE[0],
    SPOT_RANGE[1],
    { tolerance: FIT_TOLERANCE },
  ).x
  const spotRadiusUm = spot * paraxial.spotRadiusUm
  const { gapUm, efficiency } = worth(spotRadiusUm)
  return {
    spotRadiusUm,
    workingDistanceUm: gapUm,
    overlap: Math.min(1, efficiency),
    transmission: Math.min(1, spectrum.power),
  }
}
