// The width of a mode per axis by every definition in use, all as full diameters that agree for a Gaussian:
//   cut            1/e^2 of intensity along the straight lines through the peak, outermost crossings
//   second moment  4 sigma of the intensity (ISO 11146-1)
//   Petermann II   2 / sqrt(<k_x^2>) of the far field of the waves that can radiate into air (IEC 60793-1-45, per axis); the
//                  whole spectrum of a field that jumps at walls has no second moment
//   best-fit Gaussian  the elliptical Gaussian of greatest overlap (bestGaussian.ts)

import { type BestGaussian, bestGaussian } from './bestGaussian'
import { cellSizes } from './grid'
import type { GridAxes } from './interpolate'
import type { SolvedMode } from './solveMode'

interface AxisPair {
  readonly x: number
  readonly y: number
}

export interface ModeWidths {
  readonly peakUm: AxisPair
  readonly centroidUm: AxisPair
  readonly cutUm: AxisPair
  readonly secondMomentUm: AxisPair
  readonly petermann2Um: AxisPair
  readonly gaussian: BestGaussian
}

interface Samples extends GridAxes {
  readonly field: Float64Array
}

/** Intensity-weighted means of position and its square, per axis. */
function moments({ x, y, field }: Samples) {
  const nx = x.centres.length
  const [hx, hy] = [cellSizes(x), cellSizes(y)]
  const sums = { power: 0, x: 0, y: 0, xx: 0, yy: 0 }
  for (let iy = 0; iy < hy.length; iy++) {
    const py = y.centres[iy] as number
    for (let ix = 0; ix < nx; ix++) {
      const px = x.centres[ix] as number
      const power = (field[iy * nx + ix] as number) ** 2 * (hx[ix] as number) * (hy[iy] as number)
      sums.power += power
      sums.x += power * px
      sums.y += power * py
      sums.xx += power * px * px
      sums.yy += power * py * py
    }
  }
  return sums
}

/** Distance between the outermost places at which a line falls below 1/e of its greatest value. */
export function cutWidth(centres: Float64Array, line: Float64Array): number {
  const level = line.reduce((most, value) => Math.max(most, value), 0) / Math.E
  const crossing = (inner: number, outer: number): number => {
    const a = line[inner] as number
    const b = line[outer] as number
    const share = (a - level) / (a - b)
    return (centres[inner] as number) + share * ((centres[outer] as number) - (centres[inner] as number))
  }
  let first = 0
  while ((line[first] ?? level) < level) first++
  let last = line.length - 1
  while ((line[last] ?? level) < level) last--
  const left = first === 0 ? (centres[0] as number) : crossing(first, first - 1)
  const right = last === line.length - 1 ? (centres[last] as number) : crossing(last, last + 1)
  return right - left
}

/** The row and the column of cells through a cell. */
function linesThrough({ x, y, field }: Samples, cell: number) {
  const nx = x.centres.length
  const ix = cell % nx
  const iy = (cell - ix) / nx
  return {
    alongX: field.slice(iy * nx, (iy + 1) * nx),
    alongY: Float64Array.from(y.centres, (_, j) => field[j * nx + ix] as number),
  }
}

function peakCell(field: Float64Array): number {
  let at = 0
  field.forEach((value, i) => {
    if (value > (field[at] as number)) at = i
  })
  return at
}

const SPECTRUM_POINTS = 56
/** The spectrum of a Gaussian of radius w is cut off at this many 1/w. */
const SPECTRUM_REACH = 9

/** Petermann II diameters from the plane waves with a transverse wave number below `kMostPerUm`; `guessUm` are diameters of about the mode's size. */
function spectralWidths(samples: Samples, kMostPerUm: number, guessUm: AxisPair): AxisPair {
  const { x, y, field } = samples
  const [nx, ny, n] = [x.centres.length, y.centres.length, SPECTRUM_POINTS]
  const reachX = Math.min(kMostPerUm, (2 * SPECTRUM_REACH) / guessUm.x)
  const reachY = Math.min(kMostPerUm, (2 * SPECTRUM_REACH) / guessUm.y)
  const wave = (axis: GridAxes['x'], reach: number) => {
    const sizes = cellSizes(axis)
    const cos = new Float64Array(n * sizes.length)
    const sin = new Float64Array(n * sizes.length)
    const k = Float64Array.from({ length: n }, (_, at) => reach * ((2 * at + 1) / n - 1))
    k.forEach((each, at) => {
      for (let i = 0; i < sizes.length; i++) {
        cos[at * sizes.length + i] = Math.cos(each * (axis.centres[i] as number)) * (sizes[i] as number)
        sin[at * sizes.length + i] = Math.sin(each * (axis.centres[i] as number)) * (sizes[i] as number)
      }
    })
    return { k, cos, sin }
  }
  const [wx, wy] = [wave(x, reachX), wave(y, reachY)]
  const sums = { power: 0, xx: 0, yy: 0 }
  const re = new Float64Array(ny)
  const im = new Float64Array(ny)
  for (let a = 0; a < n; a++) {
    for (let iy = 0; iy < ny; iy++) {
      let c = 0
      let s = 0
      for (let ix = 0; ix < nx; ix++) {
        const value = field[iy * nx + ix] as number
        c += value * (wx.cos[a * nx + ix] as number)
        s += value * (wx.sin[a * nx + ix] as number)
      }
      re[iy] = c
      im[iy] = s
    }
    const kx2 = (wx.k[a] as number) ** 2
    for (let b = 0; b < n; b++) {
      const ky2 = (wy.k[b] as number) ** 2
      if (kx2 + ky2 > kMostPerUm ** 2) continue
      let real = 0
      let imaginary = 0
      for (let iy = 0; iy < ny; iy++) {
        const c = wy.cos[b * ny + iy] as number
        const s = wy.sin[b * ny + iy] as number
        real += (re[iy] as number) * c - (im[iy] as number) * s
        imaginary += (re[iy] as number) * s + (im[iy] as number) * c
      }
      const power = real * real + imaginary * imaginary
      sums.power += power
      sums.xx += power * kx2
      sums.yy += power * ky2
    }
  }
  return { x: 2 * Math.sqrt(sums.power / sums.xx), y: 2 * Math.sqrt(sums.power / sums.yy) }
}

/** All diameters of a mode in its own coordinates. */
export function modeWidths({
  axes,
  field,
  wavelengthUm,
}: Pick<SolvedMode, 'axes' | 'field' | 'wavelengthUm'>): ModeWidths {
  const samples: Samples = { ...axes, field }
  const { power, x, y, xx, yy } = moments(samples)
  const centroidUm = { x: x / power, y: y / power }
  const secondMomentUm = {
    x: 4 * Math.sqrt(xx / power - centroidUm.x ** 2),
    y: 4 * Math.sqrt(yy / power - centroidUm.y ** 2),
  }
  const gaussian = bestGaussian(samples, centroidUm, secondMomentUm)
  const peak = peakCell(field)
  const nx = axes.x.centres.length
  const { alongX, alongY } = linesThrough(samples, peak)
  return {
    peakUm: { x: axes.x.centres[peak % nx] as number, y: axes.y.centres[Math.floor(peak / nx)] as number },
    centroidUm,
    cutUm: { x: cutWidth(axes.x.centres, alongX), y: cutWidth(axes.y.centres, alongY) },
    secondMomentUm,
    petermann2Um: spectralWidths(samples, (2 * Math.PI) / wavelengthUm, gaussian.mfdUm),
    gaussian,
  }
}
