// The field of a lensed tip as a profile in the plane of its apex, from the cone waves of Kirchhoff's integral.
//   U(r) = int A(q) J0(q r) q dq,  tabled over the radius, four-point polynomial between
// Source: optics/lens/tipSpectrum.ts.

import { quickJ0 } from '../../numerics/quickBessel'
import { type TipSpectrum, tipSpectrum } from '../lens/tipSpectrum'
import type { Amplitude, FacePhase, ModeProfile } from './modeProfile'
import { type HankelTransform, radialPlane } from './radialPlane'

/** The table reaches so much further than the mode in front of the tip, and further than the sphere. */
const REACH = 1.3
/** Rows of the table per half period of the highest wave. */
const ROWS_A_WAVE = 16
/** Waves below this share of the highest are omitted from the first grid. */
const LEFT_OUT = 1e-3

/** Highest wave whose amplitude, weighed by its ring, is still included. */
function highestWave({ q, re, im }: TipSpectrum): number {
  const sizes = q.map((each, j) => each * Math.hypot(re[j] as number, im[j] as number))
  const least = LEFT_OUT * Math.max(...sizes)
  return q[sizes.findLastIndex((size) => size > least)] as number
}

/** 1/e radius of a round mode's amplitude. */
function modeRadius(mode: ModeProfile): number {
  const out: Amplitude = { re: 0, im: 0 }
  const size = (r: number) => {
    mode.at(r, 0, out)
    return Math.hypot(out.re, out.im)
  }
  const wanted = size(0) / Math.E
  let [low, high] = [0, mode.reachXUm]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (size(middle) > wanted) low = middle
    else high = middle
  }
  return high
}

interface Table {
  readonly stepUm: number
  readonly re: Float64Array
  readonly im: Float64Array
}

/** The field over the radius from the apex to `reachUm` and two rows beyond. */
function fieldTable({ q, weight, re, im }: TipSpectrum, reachUm: number): Table {
  const waveUm = Math.PI / (q.at(-1) ?? 1)
  const rows = Math.ceil((reachUm / waveUm) * ROWS_A_WAVE) + 3
  const stepUm = reachUm / (rows - 3)
  const table = { stepUm, re: new Float64Array(rows), im: new Float64Array(rows) }
  for (let i = 0; i < rows; i++) {
    for (let j = 0; j < q.length; j++) {
      const share = (weight[j] as number) * quickJ0((q[j] as number) * i * stepUm)
      table.re[i] = (table.re[i] as number) + share * (re[j] as number)
      table.im[i] = (table.im[i] as number) + share * (im[j] as number)
    }
  }
  return table
}

/**
 * The spectrum between its nodes as a Hankel transform, by the barycentric formula of Gauss-Legendre nodes; 0 beyond its end. Where it
 * ends at k, it grows as 1/kz there: kz A is interpolated, and waves within one over the reach of k are kept finite, as those of a
 * field are that has been cut off at its reach.
 * Source: J.-P. Berrut and L. N. Trefethen, SIAM Rev. 46 (2004) 501; H. Wang and S. Xiang, Math. Comput. 81 (2012) 861 (from memory).
 */
function spectrumTransform(
  { kPerUm, mostPerUm, q, weight, kz, re, im }: TipSpectrum,
  reachUm: number,
): HankelTransform {
  const share = q.map((each, j) => {
    const x = (2 * each) / mostPerUm - 1
    return (j % 2 === 0 ? 1 : -1) * Math.sqrt(((1 - x * x) * (weight[j] as number)) / each)
  })
  const leastKz = Math.sqrt((2 * kPerUm) / reachUm)
  return (qPerUm, out) => {
    out.re = 0
    out.im = 0
    if (qPerUm > mostPerUm) return
    let whole = 0
    for (let j = 0; j < q.length; j++) {
      const distance = qPerUm - (q[j] as number)
      const pull = (share[j] as number) / (Math.abs(distance) < 1e-12 ? 1e-12 : distance)
      whole += pull
      out.re += pull * (re[j] as number) * (kz[j] as number)
      out.im += pull * (im[j] as number) * (kz[j] as number)
    }
    const own = Math.max(leastKz, Math.sqrt(Math.max(0, kPerUm * kPerUm - qPerUm * qPerUm)))
    const scale = (2 * Math.PI) / (whole * own)
    out.re *= scale
    out.im *= scale
  }
}

/** A round mode, flat in front of the tip, behind it; and the power that gets through over that through a flat face. */
export function tipProfile(
  mode: ModeProfile,
  face: FacePhase,
): { readonly profile: ModeProfile; readonly powerShare: number } {
  const tip = {
    modeRadiusUm: modeRadius(mode),
    tipRadiusUm: face.radiusUm,
    fibreIndex: face.indexBefore,
    mediumIndex: face.indexAfter,
    wavelengthUm: face.wavelengthUm,
  }
  const own: Amplitude = { re: 0, im: 0 }
  const spectrum = tipSpectrum(tip, (r) => {
    mode.at(r, 0, own)
    return own.re
  })
  const reachUm = REACH * Math.min(mode.reachXUm, face.radiusUm)
  const between = (table: Float64Array, at: number, t: number) => {
    // The field is even in r: the row before the axis is the one behind it.
    const a = table[Math.abs(at - 1)] ?? 0
    const b = table[at] as number
    const c = table[at + 1] ?? 0
    const d = table[at + 2] as number
    return (
      (-t * (t - 1) * (t - 2) * a) / 6 +
      ((t + 1) * (t - 1) * (t - 2) * b) / 2 -
      ((t + 1) * t * (t - 2) * c) / 2 +
      ((t + 1) * t * (t - 1) * d) / 6
    )
  }
  // Where plane waves suffice, the table is never made.
  let made: Table | null = null
  const profile: ModeProfile = {
    at: (xUm, yUm, out) => {
      made ??= fieldTable(spectrum, reachUm)
      const { stepUm, re, im } = made
      const row = Math.hypot(xUm, yUm) / stepUm
      const at = Math.floor(row)
      const inside = at + 2 < re.length
      out.re = inside ? between(re, at, row - at) : 0
      out.im = inside ? between(im, at, row - at) : 0
    },
    reachXUm: reachUm,
    reachYUm: reachUm,
    stepXUm: Math.PI / highestWave(spectrum),
    stepYUm: Math.PI / highestWave(spectrum),
    plane: radialPlane(spectrumTransform(spectrum, reachUm), reachUm, 2 * Math.PI * spectrum.power),
  }
  // Not limited to 1, as in tipCoupling.ts: the sum over the same waves there must give the same.
  return { profile, powerShare: spectrum.power }
}
