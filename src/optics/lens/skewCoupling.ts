// Power that two fields in the collimated beam couple, each behind a misaligned lens: one of them as Laguerre-Gaussian modes of its own
// paraxial beam, which diffract over the distance in closed form, the other by its rays.
//   u = N (sqrt(2) r / w)^l L_p^l(2 r^2 / w^2) exp(-r^2 / w^2 - i k r^2 / (2 R) + i (2 p + l) zeta) cos or sin(l theta)
//   coupled power = |sum a_j exp(i p_j) E2(r_j)|^2,  zeta = atan(z / zR)
// Rays a few degrees off a lens's axis turn the round field into one of low azimuthal order, so that few modes hold it.
// Source: H. Kogelnik and T. Li, Appl. Opt. 5 (1966) 1550, eq. 64 for the modes; NIST Digital Library of Mathematical Functions, 18.9.1 for their
// recurrence (both from memory). Paraxial between the lenses. Micrometres.

import type { SkewField } from './skewField'

/** How the chief ray of the first field leaves the plane behind its lens against that of the second one, carried to there. */
export interface BeamMove {
  readonly shiftXUm: number
  readonly shiftYUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
}

/** How the chief rays of two fields that travel towards each other lie over the distance between their planes. */
export function moveBetween(first: SkewField, second: SkewField, stretchUm: number): BeamMove {
  const { x: x1, y: y1 } = first.chief
  const { x: x2, y: y2 } = second.chief
  return {
    shiftXUm: x1.heightUm - x2.heightUm - stretchUm * x2.slopeRad,
    shiftYUm: y1.heightUm - y2.heightUm - stretchUm * y2.slopeRad,
    tiltXRad: x1.slopeRad + x2.slopeRad,
    tiltYRad: y1.slopeRad + y2.slopeRad,
  }
}

/** Modes of radial order below RADIAL and azimuthal order up to AZIMUTHAL. */
const RADIAL = 16
const AZIMUTHAL = 4
const ORDERS = AZIMUTHAL + 1
const MODES = ORDERS * RADIAL

// F_p+1 = (level_p - slope_p x) F_p - back_p F_p-1 for F_p = N_p L_p^l, by order l.
const level = new Float64Array(MODES)
const slope = new Float64Array(MODES)
const back = new Float64Array(MODES)
const lowest = new Float64Array(ORDERS)
for (let l = 0, factorial = 1; l < ORDERS; l++) {
  factorial *= Math.max(1, l)
  lowest[l] = Math.sqrt((l === 0 ? 1 : 2) / factorial)
  for (let p = 0; p < RADIAL; p++) {
    const up = Math.sqrt((p + 1) / (p + 1 + l)) / (p + 1)
    level[l * RADIAL + p] = (2 * p + 1 + l) * up
    slope[l * RADIAL + p] = up
    back[l * RADIAL + p] = p === 0 ? 0 : (p + l) * up * Math.sqrt(p / (p + l))
  }
}

/** Amplitudes of the modes, those of cosines and those of sines; overwritten by every coupling. */
const cosRe = new Float64Array(MODES)
const cosIm = new Float64Array(MODES)
const sinRe = new Float64Array(MODES)
const sinIm = new Float64Array(MODES)

function fillModes({ xUm, yUm, amount, errorUm, beamRadiusUm: w }: SkewField, k0: number): void {
  cosRe.fill(0)
  cosIm.fill(0)
  sinRe.fill(0)
  sinIm.fill(0)
  const unit = Math.sqrt(2 / Math.PI) / w
  const toUnit = Math.SQRT2 / w
  for (let j = 0; j < xUm.length; j++) {
    const share = amount[j] as number
    if (share === 0) continue
    const x = (xUm[j] as number) * toUnit
    const y = (yUm[j] as number) * toUnit
    const square = x * x + y * y
    const size = share * unit * Math.exp(-square / 2)
    const phase = -k0 * (errorUm[j] as number)
    const re = size * Math.cos(phase)
    const im = size * Math.sin(phase)
    let c = 1
    let s = 0
    for (let l = 0, at = 0; l < ORDERS; l++) {
      const reC = re * c
      const imC = im * c
      const reS = re * s
      const imS = im * s
      let now = lowest[l] as number
      let before = 0
      for (let p = 0; p < RADIAL; p++, at++) {
        cosRe[at] = (cosRe[at] as number) + reC * now
        cosIm[at] = (cosIm[at] as number) + imC * now
        sinRe[at] = (sinRe[at] as number) + reS * now
        sinIm[at] = (sinIm[at] as number) + imS * now
        const next =
          ((level[at] as number) - (slope[at] as number) * square) * now - (back[at] as number) * before
        before = now
        now = next
      }
      const nextC = c * x - s * y
      s = c * y + s * x
      c = nextC
    }
  }
}

/** Turns every mode by the phase that it collects beyond the lowest one. */
function turnModes(zetaRad: number): void {
  for (let l = 0, at = 0; l < ORDERS; l++) {
    for (let p = 0; p < RADIAL; p++, at++) {
      const c = Math.cos((2 * p + l) * zetaRad)
      const s = Math.sin((2 * p + l) * zetaRad)
      const re = cosRe[at] as number
      const im = cosIm[at] as number
      cosRe[at] = re * c - im * s
      cosIm[at] = re * s + im * c
      const sineRe = sinRe[at] as number
      const sineIm = sinIm[at] as number
      sinRe[at] = sineRe * c - sineIm * s
      sinIm[at] = sineRe * s + sineIm * c
    }
  }
}

/**
 * Power coupled between two fields that travel towards each other over a distance, 0 to 1; `k0PerUm` is 2 pi / wavelength, `mediumIndex` that
 * between the lenses.
 */
export function coupledSkew(
  first: SkewField,
  second: SkewField,
  stretchUm: number,
  k0PerUm: number,
  mediumIndex: number,
  { shiftXUm, shiftYUm, tiltXRad, tiltYRad }: BeamMove,
): number {
  const kPerUm = k0PerUm * mediumIndex
  fillModes(second, k0PerUm)
  // The second beam at the plane of the first one: 1/q = C - i 2 / (k w^2).
  const { beamRadiusUm: w2, curvaturePerUm: c2 } = second
  const spread = 2 / (kPerUm * w2 * w2)
  const size = c2 * c2 + spread * spread
  const rayleigh = spread / size
  const z = c2 / size + stretchUm
  const whole = z * z + rayleigh * rayleigh
  const w = Math.sqrt((2 * whole) / (kPerUm * rayleigh))
  turnModes(Math.atan2(z, rayleigh) - Math.atan2(c2, spread))
  const { xUm, yUm, amount, errorUm } = first
  const bend1 = first.curvaturePerUm / 2
  const bend2 = z / whole / 2
  const unit = Math.sqrt(2 / Math.PI) / w
  const toUnit = Math.SQRT2 / w
  let sumRe = 0
  let sumIm = 0
  for (let j = 0; j < xUm.length; j++) {
    const share = amount[j] as number
    if (share === 0) continue
    const x1 = xUm[j] as number
    const y1 = yUm[j] as number
    const x2 = x1 + shiftXUm
    const y2 = y1 + shiftYUm
    const x = x2 * toUnit
    const y = y2 * toUnit
    const square = x * x + y * y
    let re = 0
    let im = 0
    let c = 1
    let s = 0
    for (let l = 0, at = 0; l < ORDERS; l++) {
      let now = lowest[l] as number
      let before = 0
      let reC = 0
      let imC = 0
      let reS = 0
      let imS = 0
      for (let p = 0; p < RADIAL; p++, at++) {
        reC += (cosRe[at] as number) * now
        imC += (cosIm[at] as number) * now
        reS += (sinRe[at] as number) * now
        imS += (sinIm[at] as number) * now
        const next =
          ((level[at] as number) - (slope[at] as number) * square) * now - (back[at] as number) * before
        before = now
        now = next
      }
      re += reC * c + reS * s
      im += imC * c + imS * s
      const nextC = c * x - s * y
      s = c * y + s * x
      c = nextC
    }
    const paraxial = bend1 * (x1 * x1 + y1 * y1) + bend2 * (x2 * x2 + y2 * y2) + tiltXRad * x1 + tiltYRad * y1
    const phase = -k0PerUm * (errorUm[j] as number) - kPerUm * paraxial
    const weight = share * unit * Math.exp(-square / 2)
    const a = weight * Math.cos(phase)
    const b = weight * Math.sin(phase)
    sumRe += a * re - b * im
    sumIm += a * im + b * re
  }
  return Math.min(1, sumRe * sumRe + sumIm * sumIm)
}
