// The plane waves that emitter and receiver have in common, and their sum behind a gap. An offset turns the phase of each by a
// factor of its column times one of its row, and the gap acts alike on the four waves (±kx, ±ky).

import type { FftPlan } from '../../numerics/fft/fft2'
import type { FieldGrid } from './fieldGrid'
import type { FieldPose, Propagation } from './fieldPose'

/** Waves weaker than this, summed, are ignored in repeated sums. */
const NEGLECTED = 1e-9

interface Spectrum {
  readonly re: Float64Array
  readonly im: Float64Array
}

/** The waves that two modes share on one grid; its arrays are used again for the next pair of modes and the next pose. */
export interface SharedWaves {
  /** Takes E times conj R, times a scale: that over the square root of both powers. */
  readonly take: (e: Spectrum, r: Spectrum, scale: number) => void
  /** The power of the sum behind a gap and at an offset. */
  readonly power: (k: number, pose: FieldPose, propagation: Propagation) => number
}

const spectrumOf = (size: number): Spectrum => ({ re: new Float64Array(size), im: new Float64Array(size) })

/** Writes exp(-i offset k) for the wavenumbers of an axis. */
function turnAlong(order: Int32Array, perOrder: number, offsetUm: number, { re, im }: Spectrum): void {
  for (let at = 0; at < order.length; at++) {
    const phase = -(order[at] as number) * perOrder * offsetUm
    re[at] = Math.cos(phase)
    im[at] = Math.sin(phase)
  }
}

/** The greatest frequency along an axis, either side of 0, at which a wave is at least that strong. */
function greatestOrder(order: Int32Array, strongest: Float64Array, least: number): number {
  let greatest = 0
  for (let at = 0; at < order.length; at++) {
    if ((strongest[at] as number) >= least) greatest = Math.max(greatest, Math.abs(order[at] as number))
  }
  return greatest
}

/** For modes whose transforms are those of a plan, on a grid of its size. */
export function sharedWaves(
  { orderX, orderY }: FftPlan,
  { nx, ny, dxUm, dyUm }: Pick<FieldGrid, 'nx' | 'ny' | 'dxUm' | 'dyUm'>,
): SharedWaves {
  const { re, im } = spectrumOf(nx * ny)
  const [perX, perY] = [(2 * Math.PI) / (nx * dxUm), (2 * Math.PI) / (ny * dyUm)]
  const [alongX, alongY] = [spectrumOf(nx), spectrumOf(ny)]
  const [strongestX, strongestY] = [new Float64Array(nx), new Float64Array(ny)]
  let mostX = 0
  let mostY = 0
  // What the gap does to the waves of a quadrant: frequencies of 0 to n/2 along both axes.
  const across = nx / 2 + 1
  const gap = spectrumOf(across * (ny / 2 + 1))
  let known = ''

  const take: SharedWaves['take'] = (e, r, scale) => {
    strongestX.fill(0)
    strongestY.fill(0)
    let largest = 0
    for (let iy = 0, i = 0; iy < ny; iy++) {
      let strongest = 0
      for (let ix = 0; ix < nx; ix++, i++) {
        const a = e.re[i] as number
        const b = e.im[i] as number
        const c = r.re[i] as number
        const d = r.im[i] as number
        const x = (a * c + b * d) * scale
        const y = (b * c - a * d) * scale
        re[i] = x
        im[i] = y
        const power = x * x + y * y
        if (power > strongest) strongest = power
        if (power > (strongestX[ix] as number)) strongestX[ix] = power
      }
      strongestY[iy] = strongest
      if (strongest > largest) largest = strongest
    }
    // Dropping what is below this for certain drops less than NEGLECTED in the sum.
    const least = Math.min(largest * 1e-20, (NEGLECTED / (nx * ny)) ** 2)
    mostX = greatestOrder(orderX, strongestX, least)
    mostY = greatestOrder(orderY, strongestY, least)
    known = ''
  }

  const fillGap = (k: number, gapUm: number, propagation: Propagation) => {
    for (let iy = 0; iy <= mostY; iy++) {
      const y = perY * iy
      for (let ix = 0; ix <= mostX; ix++) {
        const x = perX * ix
        const squared = x * x + y * y
        let phase = 0
        let size = 1
        if (propagation === 'paraxial') phase = (gapUm * squared) / (2 * k)
        else if (squared <= k * k) phase = (gapUm * squared) / (k + Math.sqrt(k * k - squared))
        else size = Math.exp(-gapUm * Math.sqrt(squared - k * k))
        const at = iy * across + ix
        gap.re[at] = size * Math.cos(phase)
        gap.im[at] = size * Math.sin(phase)
      }
    }
  }

  const power: SharedWaves['power'] = (k, { offsetXUm, offsetYUm, gapUm }, propagation) => {
    const key = `${k} ${gapUm} ${propagation}`
    if (key !== known) fillGap(k, gapUm, propagation)
    known = key
    turnAlong(orderX, perX, offsetXUm, alongX)
    turnAlong(orderY, perY, offsetYUm, alongY)
    let sumRe = 0
    let sumIm = 0
    for (let iy = 0; iy < ny; iy++) {
      const orderOfRow = Math.abs(orderY[iy] as number)
      if (orderOfRow > mostY) continue
      let rowRe = 0
      let rowIm = 0
      for (let ix = 0, i = iy * nx; ix < nx; ix++, i++) {
        const order = Math.abs(orderX[ix] as number)
        if (order > mostX) continue
        const at = orderOfRow * across + order
        const a = gap.re[at] as number
        const b = gap.im[at] as number
        const c = alongX.re[ix] as number
        const d = alongX.im[ix] as number
        const turnRe = a * c - b * d
        const turnIm = a * d + b * c
        const x = re[i] as number
        const y = im[i] as number
        rowRe += x * turnRe - y * turnIm
        rowIm += x * turnIm + y * turnRe
      }
      const c = alongY.re[iy] as number
      const d = alongY.im[iy] as number
      sumRe += rowRe * c - rowIm * d
      sumIm += rowRe * d + rowIm * c
    }
    return sumRe * sumRe + sumIm * sumIm
  }

  return { take, power }
}

/**
 * How much of their wave number the waves that two modes share have along the axis, 0 to 1:
 *   sum |E R| kz / (k sum |E R|),  kz = sqrt(k^2 - kx^2 - ky^2)
 * A tilt turns the emitter as a whole. Its wave that arrives at k was k - kz sin(tilt) before, to first order; with the mean kz of the
 * waves that count, all of them move alike, and a ramp of phase over the emitter does it. With k itself, a tilt of a mode of 2.5 um at 1550 nm
 * would weigh 3 % too much, and its loss 6 % (recipes/tip_tolerances.py). Derived here. `k` in 1/um; both spectra in the order of the plan.
 */
export function axialShare(
  e: Spectrum,
  r: Spectrum,
  { orderX, orderY }: FftPlan,
  { nx, ny, dxUm, dyUm }: Pick<FieldGrid, 'nx' | 'ny' | 'dxUm' | 'dyUm'>,
  k: number,
): number {
  const [perX, perY] = [(2 * Math.PI) / (nx * dxUm), (2 * Math.PI) / (ny * dyUm)]
  let along = 0
  let all = 0
  for (let iy = 0, i = 0; iy < ny; iy++) {
    const y = perY * (orderY[iy] as number)
    for (let ix = 0; ix < nx; ix++, i++) {
      const x = perX * (orderX[ix] as number)
      const emitted = (e.re[i] as number) ** 2 + (e.im[i] as number) ** 2
      const received = (r.re[i] as number) ** 2 + (r.im[i] as number) ** 2
      const weight = Math.sqrt(emitted * received)
      along += weight * Math.sqrt(Math.max(0, 1 - (x * x + y * y) / (k * k)))
      all += weight
    }
  }
  return all > 0 ? along / all : 1
}
