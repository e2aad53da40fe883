// Regular grids, and sampling a profile on one.

import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'
import { significantText } from '../../numerics/numberText'
import type { Amplitude, ModeProfile } from './modeProfile'
import type { SampledField } from './sampledField'

export type FieldGrid = Pick<SampledField, 'nx' | 'ny' | 'dxUm' | 'dyUm' | 'x0Um' | 'y0Um'>
type Medium = Pick<SampledField, 'wavelengthUm' | 'index'>

/** Maximum number of points per side of automatic grids. */
const GRID_GREATEST = 1024
const GRID_LEAST = 16

/** A grid of nx by ny points about the origin, which is the sample (nx/2, ny/2). */
export function centredGrid(nx: number, ny: number, dxUm: number, dyUm: number): FieldGrid {
  return { nx, ny, dxUm, dyUm, x0Um: (-nx / 2) * dxUm, y0Um: (-ny / 2) * dyUm }
}

const powerOfTwoFrom = (n: number) => 2 ** Math.ceil(Math.log2(Math.max(GRID_LEAST, n)))

/** Points and step that cover a window with at most the given step; surplus points go to both, finer and wider. */
function axisGrid(axis: 'x' | 'y', windowUm: number, stepUm: number): { n: number; dUm: number } {
  const wanted =
    requirePositive(`window along ${axis}`, windowUm) / requirePositive(`step along ${axis}`, stepUm)
  const n = powerOfTwoFrom(wanted)
  if (n > GRID_GREATEST) {
    throw new InputError(
      `points along ${axis}`,
      n,
      `at most ${GRID_GREATEST}: a window of ${significantText(windowUm, 4)} µm in steps of ${significantText(stepUm, 3)} µm is too much`,
    )
  }
  return { n, dUm: stepUm * Math.sqrt(wanted / n) }
}

/** Windows and steps are quantised to this many values per octave, so that close poses share one grid. */
const RUNGS = 4
const rungAbove = (value: number) => 2 ** (Math.ceil(RUNGS * Math.log2(value)) / RUNGS)
const rungBelow = (value: number) => 2 ** (Math.floor(RUNGS * Math.log2(value)) / RUNGS)

/** The least power-of-two grid about the origin for a window and a step. Throws InputError where it grows too large. */
export function gridFor(windowXUm: number, windowYUm: number, stepXUm: number, stepYUm: number): FieldGrid {
  const x = axisGrid('x', rungAbove(windowXUm), rungBelow(stepXUm))
  const y = axisGrid('y', rungAbove(windowYUm), rungBelow(stepYUm))
  return centredGrid(x.n, y.n, x.dUm, y.dUm)
}

/** Twice the points a side: finer and wider, each by the square root of two. */
export function doubledGrid({ nx, ny, dxUm, dyUm }: FieldGrid): FieldGrid {
  return centredGrid(2 * nx, 2 * ny, dxUm / Math.SQRT2, dyUm / Math.SQRT2)
}

/** Throws InputError for an invalid grid. */
function requireGrid(grid: FieldGrid): FieldGrid {
  for (const n of ['nx', 'ny'] as const) {
    if (!Number.isInteger(grid[n])) throw new InputError(n, grid[n], 'a whole number')
    requireInRange(n, grid[n], 2, 4096)
  }
  requirePositive('dxUm', grid.dxUm)
  requirePositive('dyUm', grid.dyUm)
  return grid
}

/** The pose of a profile on a grid: displaced, sloping by tan(angle) = tilt, turned from x to y. */
interface ProfilePose {
  readonly offsetXUm?: number
  readonly offsetYUm?: number
  /** Transverse wavenumbers of the slope, 1/um. */
  readonly waveXPerUm?: number
  readonly waveYPerUm?: number
  readonly rollRad?: number
}

/** Writes the profile's samples into re and im (nx * ny each), and returns the sum of squares. */
export function fillSamples(
  profile: ModeProfile,
  grid: FieldGrid,
  pose: ProfilePose,
  re: Float64Array,
  im: Float64Array,
): number {
  const { nx, ny, dxUm, dyUm, x0Um, y0Um } = grid
  const { offsetXUm = 0, offsetYUm = 0, waveXPerUm = 0, waveYPerUm = 0, rollRad = 0 } = pose
  const cos = Math.cos(rollRad)
  const sin = Math.sin(rollRad)
  const slopes = waveXPerUm !== 0 || waveYPerUm !== 0
  const amplitude: Amplitude = { re: 0, im: 0 }
  let squares = 0
  for (let iy = 0, i = 0; iy < ny; iy++) {
    const y = y0Um + iy * dyUm - offsetYUm
    for (let ix = 0; ix < nx; ix++, i++) {
      const x = x0Um + ix * dxUm - offsetXUm
      profile.at(cos * x + sin * y, cos * y - sin * x, amplitude)
      let { re: a, im: b } = amplitude
      squares += a * a + b * b
      if (slopes) {
        const phase = waveXPerUm * x + waveYPerUm * y
        const c = Math.cos(phase)
        const s = Math.sin(phase)
        const turned = a * c + b * s
        b = b * c - a * s
        a = turned
      }
      re[i] = a
      im[i] = b
    }
  }
  return squares
}

/** The profile as a sampled field. */
export function sampleProfile(
  profile: ModeProfile,
  grid: FieldGrid,
  medium: Medium,
  pose: ProfilePose = {},
): SampledField {
  requireGrid(grid)
  const re = new Float64Array(grid.nx * grid.ny)
  const im = new Float64Array(grid.nx * grid.ny)
  fillSamples(profile, grid, pose, re, im)
  return { ...grid, re, im, wavelengthUm: medium.wavelengthUm, index: medium.index }
}
