// Closed forms for tests that work a joint out once more, one plane at a time. Sources: the overlap integral of two Gaussian beams;
// Fresnel's formula at normal incidence.

import type { Beam } from '../../../analysis/support/ownRelay'
import type { Read } from './quantities'

/** One side of a joint: radii of its mode, index behind its face, how far its waist lies before the face. */
export interface Side {
  readonly radiusX: Read
  readonly radiusY: Read
  readonly index: Read
  readonly waistUm: Read
}

/** What a joint does: its loss, and the shares that its faces send back to either side, by their place. */
export interface OwnJoint {
  readonly lossDb: (v: Float64Array, raisedUm: number, warmerK: number) => number
  readonly echoes: (v: Float64Array) => { readonly toFibre: number; readonly toChip: number }
}

export const db = (share: number) => -10 * Math.log10(share)
export const share = (lossDb: number) => 10 ** (-lossDb / 10)
export const reflectance = (n1: number, n2: number) => ((n1 - n2) / (n1 + n2)) ** 2

/**
 * Loss of one plane, dB: a waist w1 that lies z before the other waist w2, displaced by d at the second waist's plane and sloped by t.
 * The integral of exp(-i k ((x - d)^2 / 2q + t (x - d))) and exp(-x^2 / w2^2) over x, squared, over both powers.
 */
export function planeLossDb(w1: number, w2: number, z: number, d: number, t: number, k: number): number {
  const rayleigh = (k * w1 * w1) / 2
  const size = z * z + rayleigh * rayleigh
  const [curveRe, curveIm] = [(k * rayleigh) / (2 * size), (k * z) / (2 * size)]
  const [aRe, aIm] = [curveRe + 1 / (w2 * w2), curveIm]
  const [bRe, bIm] = [2 * curveRe * d, 2 * curveIm * d - k * t]
  const aSize = aRe * aRe + aIm * aIm
  const quotient = ((bRe * bRe - bIm * bIm) * aRe + 2 * bRe * bIm * aIm) / (4 * aSize)
  const powers = (Math.PI / 2) * Math.sqrt(1 / curveRe) * w2
  return db(((Math.PI / Math.sqrt(aSize)) * Math.exp(2 * (quotient - curveRe * d * d))) / powers)
}

/**
 * Share of a beam that a face sends back into it, one plane: E² over the face, with the phase 2 k n x²/2r of a face of radius r whose
 * centre lies ahead of the light. `k` is that of the medium in which the light meets the face.
 */
export function echoShare({ qRe, qIm }: Beam, k: number, radiusUm = Number.POSITIVE_INFINITY): number {
  const size = qRe * qRe + qIm * qIm
  const flat = (k * qRe) / (2 * size) - k / (2 * radiusUm)
  const width = (k * qIm) / (2 * size)
  return width / Math.hypot(width, flat)
}
