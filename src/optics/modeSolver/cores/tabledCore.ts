// Cores whose index is imported as a table: a profile along the surface and one in depth, or a whole map.
//   n(x, y) = n_host(y) + (n_peak - n_host) share(x, y)
// Width and height of a core stretch its table; at the table's own 1/e extents it is used as imported.

import { InputError, requireFinite } from '../../../numerics/inputError'
import type { RegularGrid } from '../../../numerics/regularGrid'
import type { GradedCore } from '../crossSection'

/** Shares of the greatest index step against the distance, um, from 0 outwards; linear between the entries, 0 beyond. */
export interface StepProfile {
  readonly distancesUm: readonly number[]
  readonly shares: readonly number[]
}

/** Index steps above the host on a regular grid, row-major from the lower left; 0 beyond it. */
export interface IndexMap extends RegularGrid {
  readonly steps: Float64Array
}

interface Extents {
  /** Middle of the 1/e width, and the lower end of the 1/e height. */
  readonly xUm: number
  readonly bottomUm: number
  /** Full 1/e extents along both axes through the peak. */
  readonly widthUm: number
  readonly heightUm: number
  readonly peakStep: number
}

const LEVEL = 1 / Math.E
/** Share of the peak step below which the index is treated as that of the host. */
const OVER = 1e-6

const greatest = ({ shares }: StepProfile) => Math.max(...shares)

/** Throws InputError for a profile that does not begin at 0, falls back, or has no share above 0. */
function requireProfile(name: string, profile: StepProfile): StepProfile {
  const { distancesUm, shares } = profile
  if (distancesUm.length < 2 || distancesUm.length !== shares.length)
    throw new InputError(`${name}.distancesUm.length`, distancesUm.length, 'at least 2, as many as shares')
  distancesUm.forEach((distance, at) => {
    requireFinite(`${name}.distancesUm[${at}]`, distance)
    requireFinite(`${name}.shares[${at}]`, shares[at] ?? Number.NaN)
    const before = distancesUm[at - 1]
    if (before === undefined ? distance !== 0 : distance <= before)
      throw new InputError(
        `${name}.distancesUm[${at}]`,
        distance,
        before === undefined ? '0 first' : `above ${before}`,
      )
  })
  if (!(greatest(profile) > 0)) throw new InputError(`${name}.shares`, greatest(profile), 'a share above 0')
  return profile
}

/** The share of the greatest step at a distance, linear between entries. */
export function profileShare(profile: StepProfile): (distanceUm: number) => number {
  const { distancesUm, shares } = profile
  const most = greatest(profile)
  const last = distancesUm.length - 1
  return (distanceUm) => {
    if (distanceUm < 0 || distanceUm > (distancesUm[last] as number)) return 0
    let low = 0
    let high = last
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if ((distancesUm[middle] as number) <= distanceUm) low = middle
      else high = middle
    }
    const from = distancesUm[low] as number
    const to = distancesUm[high] as number
    const t = to > from ? (distanceUm - from) / (to - from) : 0
    return ((1 - t) * (shares[low] as number) + t * (shares[high] as number)) / most
  }
}

/** The furthest distance at which the share has fallen to 1/e, um; the end of the table where it does not fall so far. */
export function profileReachUm(profile: StepProfile): number {
  const { distancesUm, shares } = requireProfile('profile', profile)
  const level = LEVEL * greatest(profile)
  for (let i = distancesUm.length - 1; i > 0; i--) {
    const a = shares[i - 1] as number
    const b = shares[i] as number
    if (b >= level) return distancesUm[i] as number
    if (a < level) continue
    const from = distancesUm[i - 1] as number
    const to = distancesUm[i] as number
    return from + ((to - from) * (a - level)) / (a - b)
  }
  return distancesUm[1] as number
}

type Size = Omit<GradedCore, 'shape' | 'share' | 'reach' | 'isSkew'>

/**
 * A core from profiles: `along` the surface, even about xUm (the full 1/e width is widthUm), and in `depth` below the surface
 * bottomUm + heightUm (to 1/e at heightUm). Where one of them is missing, the profile is Gaussian.
 */
export function profiledCore({
  along,
  depth,
  ...size
}: Size & { readonly along: StepProfile | null; readonly depth: StepProfile | null }): GradedCore {
  const { xUm, bottomUm, widthUm, heightUm } = size
  const topUm = bottomUm + heightUm
  const gaussian = (oneOverE: number) => ({
    of: (distance: number) => Math.exp(-((distance / oneOverE) ** 2)),
    reachUm: oneOverE * Math.sqrt(-Math.log(OVER)),
  })
  const scaled = (name: string, profile: StepProfile | null, oneOverE: number) => {
    if (profile === null) return gaussian(oneOverE)
    const share = profileShare(requireProfile(name, profile))
    const by = profileReachUm(profile) / oneOverE
    return { of: (distance: number) => share(distance * by), reachUm: (profile.distancesUm.at(-1) ?? 0) / by }
  }
  const across = scaled('along', along, widthUm / 2)
  const down = scaled('depth', depth, heightUm)
  return {
    ...size,
    shape: 'graded',
    share: (x, y) => (y > topUm ? 0 : across.of(Math.abs(x - xUm)) * down.of(topUm - y)),
    reach: {
      leftUm: xUm - across.reachUm,
      rightUm: xUm + across.reachUm,
      bottomUm: topUm - down.reachUm,
      topUm,
    },
  }
}

/** Where the steps along a line through the peak have fallen to 1/e of it, as fractional sample positions. */
function crossings(values: ArrayLike<number>, peak: number): readonly [low: number, high: number] {
  const level = LEVEL * (values[peak] as number)
  const walk = (direction: 1 | -1) => {
    for (let i = peak; ; i += direction) {
      const next = values[i + direction]
      if (next === undefined) return i
      const here = values[i] as number
      if (next < level) return i + direction * ((here - level) / (here - next))
    }
  }
  return [walk(-1), walk(1)]
}

/** Peak and 1/e extents of a map, in its own coordinates. Throws InputError where nothing is above the host. */
export function mapExtents({ nx, ny, dxUm, dyUm, x0Um, y0Um, steps }: IndexMap): Extents {
  let peak = 0
  for (let i = 1; i < steps.length; i++) if ((steps[i] as number) > (steps[peak] as number)) peak = i
  const peakStep = steps[peak] as number
  if (!(peakStep > 0)) throw new InputError('greatest index step of the map', peakStep, 'above 0')
  const [px, py] = [peak % nx, Math.floor(peak / nx)]
  const row = steps.subarray(py * nx, (py + 1) * nx)
  const column = Float64Array.from({ length: ny }, (_, j) => steps[j * nx + px] as number)
  const [left, right] = crossings(row, px)
  const [low, high] = crossings(column, py)
  return {
    xUm: x0Um + ((left + right) / 2) * dxUm,
    bottomUm: y0Um + low * dyUm,
    widthUm: Math.max(dxUm, (right - left) * dxUm),
    heightUm: Math.max(dyUm, (high - low) * dyUm),
    peakStep,
  }
}

/** Samples that differ by less than this share of the peak count as mirror images. */
const SAME_SHARE = 1e-6

/** The step at fractional positions of the grid, 0 beyond it. */
function stepAt({ nx, ny, steps }: IndexMap, i: number, j: number): number {
  if (!(i >= 0 && j >= 0 && i <= nx - 1 && j <= ny - 1)) return 0
  const [i0, j0] = [Math.min(nx - 2, Math.floor(i)), Math.min(ny - 2, Math.floor(j))]
  const [s, t] = [i - i0, j - j0]
  const at = j0 * nx + i0
  return (
    (1 - t) * ((1 - s) * (steps[at] as number) + s * (steps[at + 1] as number)) +
    t * ((1 - s) * (steps[at + nx] as number) + s * (steps[at + nx + 1] as number))
  )
}

/**
 * A core from a map, which is placed and stretched so that its 1/e box is that of the core. `layer` is the range of heights that contains
 * the peak: the map says nothing about what lies beyond it, such as the air above a surface.
 */
export function mappedCore({
  map,
  layer,
  ...size
}: Size & { readonly map: IndexMap; readonly layer: readonly [fromUm: number, toUm: number] }): GradedCore {
  const own = mapExtents(map)
  const { xUm, bottomUm, widthUm, heightUm } = size
  const [byX, byY] = [own.widthUm / widthUm, own.heightUm / heightUm]
  const column = (x: number) => (own.xUm + (x - xUm) * byX - map.x0Um) / map.dxUm
  const row = (y: number) => (own.bottomUm + (y - bottomUm) * byY - map.y0Um) / map.dyUm
  const [from, to] = layer
  const placeX = (i: number) => xUm + (map.x0Um + i * map.dxUm - own.xUm) / byX
  const placeY = (j: number) => bottomUm + (map.y0Um + j * map.dyUm - own.bottomUm) / byY
  const share = (x: number, y: number) =>
    y < from || y > to ? 0 : stepAt(map, column(x), row(y)) / own.peakStep
  return {
    ...size,
    shape: 'graded',
    share,
    ...(isSkew(map, own.xUm) && { isSkew: true }),
    reach: {
      leftUm: placeX(0),
      rightUm: placeX(map.nx - 1),
      bottomUm: Math.max(from, placeY(0)),
      topUm: Math.min(to, placeY(map.ny - 1)),
    },
  }
}

/** Whether the map differs from its mirror image about xUm. */
function isSkew(map: IndexMap, xUm: number): boolean {
  const { nx, ny, dxUm, x0Um, steps } = map
  const most = steps.reduce((a, b) => Math.max(a, b), 0)
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const mirrored = (2 * xUm - (x0Um + i * dxUm) - x0Um) / dxUm
      if (Math.abs((steps[j * nx + i] as number) - stepAt(map, mirrored, j)) > SAME_SHARE * most) return true
    }
  }
  return false
}
