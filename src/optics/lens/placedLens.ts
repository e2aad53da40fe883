// A lens in its place, displaced from the axis and tilted, and the rays of a mode through it.

import type { RayMatrix } from '../beam/abcd'
import type { Ray } from '../joint/displaced'
import { type LensMode, launchCurvature } from './collimatedField'
import type { LensShape } from './lensShape'
import { type TracedRay, traceRay } from './traceRay'

/** A misaligned lens: its centre is displaced from the axis, and its own axis is tilted. */
export interface PlacedLens {
  /** Null for a lens known only by its matrix, which then has no aberration. */
  readonly shape: LensShape | null
  readonly matrix: RayMatrix
  readonly thicknessUm: number
  readonly mediumIndex: number
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly tiltXRad: number
  readonly tiltYRad: number
}

/** The mode's axis where it crosses the first vertex plane of the aligned lens. */
export interface ChiefRay {
  readonly x: Ray
  readonly y: Ray
}

/** Rotations of the last lens that a ray was turned for: one lens is met by hundreds of rays in turn. */
const last = { tiltXRad: 0, tiltYRad: 0, cosX: 1, sinX: 0, cosY: 1, sinY: 0 }

function rotationsOf({ tiltXRad, tiltYRad }: PlacedLens): typeof last {
  if (last.tiltXRad !== tiltXRad || last.tiltYRad !== tiltYRad) {
    last.tiltXRad = tiltXRad
    last.tiltYRad = tiltYRad
    last.cosX = Math.cos(tiltXRad)
    last.sinX = Math.sin(tiltXRad)
    last.cosY = Math.cos(tiltYRad)
    last.sinY = Math.sin(tiltYRad)
  }
  return last
}

/** Rotates a ray into the frame of a lens, or back. */
function turned(ray: TracedRay, lens: PlacedLens, into: boolean): void {
  const half = lens.thicknessUm / 2
  const { cosX: cx, sinX: sx, cosY: cy, sinY: sy } = rotationsOf(lens)
  if (into) {
    const x = ray.x - lens.offsetXUm
    const y = ray.y - lens.offsetYUm
    const z = ray.z - half
    const z1 = sx * x + cx * z
    const d1 = sx * ray.dx + cx * ray.dz
    ray.x = cx * x - sx * z
    ray.dx = cx * ray.dx - sx * ray.dz
    ray.z = sy * y + cy * z1 + half
    ray.y = cy * y - sy * z1
    ray.dz = sy * ray.dy + cy * d1
    ray.dy = cy * ray.dy - sy * d1
    return
  }
  const z = ray.z - half
  const z1 = cy * z - sy * ray.y
  const d1 = cy * ray.dz - sy * ray.dy
  ray.y = cy * ray.y + sy * z + lens.offsetYUm
  ray.dy = cy * ray.dy + sy * ray.dz
  ray.z = cx * z1 - sx * ray.x + half
  ray.x = cx * ray.x + sx * z1 + lens.offsetXUm
  ray.dz = cx * d1 - sx * ray.dx
  ray.dx = cx * ray.dx + sx * d1
}

/** Traces a ray through a misaligned lens to the last vertex plane of the aligned one. False where the ray is lost. */
export function throughPlaced(ray: TracedRay, lens: PlacedLens): boolean {
  turned(ray, lens, true)
  if (lens.shape !== null) {
    if (!traceRay(ray, lens.shape)) return false
  } else {
    const { a, b, c, d } = lens.matrix
    const t = -ray.z / ray.dz
    const x = ray.x + t * ray.dx
    const y = ray.y + t * ray.dy
    const sx = ray.dx / ray.dz
    const sy = ray.dy / ray.dz
    const outX = c * x + d * sx
    const outY = c * y + d * sy
    const length = Math.hypot(outX, outY, 1)
    ray.x = a * x + b * sx
    ray.y = a * y + b * sy
    ray.z = lens.thicknessUm
    ray.dx = outX / length
    ray.dy = outY / length
    ray.dz = 1 / length
  }
  turned(ray, lens, false)
  const t = (lens.thicknessUm - ray.z) / ray.dz
  ray.x += t * ray.dx
  ray.y += t * ray.dy
  ray.z = lens.thicknessUm
  ray.path += lens.mediumIndex * t
  return true
}

/** Places a ray on the launch sphere at the lens, at heights in 1/e^2 radii. False where it would be nearly perpendicular to the axis. */
type Launch = (u: number, v: number, ray: TracedRay) => boolean

/** Rays of a mode: normals of a sphere near its wavefront (launchCurvature). Its distance is that along its axis. */
export function launchFrom(
  mode: LensMode,
  chief: ChiefRay,
  { matrix, mediumIndex }: Pick<PlacedLens, 'matrix' | 'mediumIndex'>,
): Launch {
  const rayleigh = (Math.PI * mediumIndex * mode.waistRadiusUm ** 2) / mode.wavelengthUm
  const distance = mode.distanceUm
  const curvature = launchCurvature(matrix, mode, mediumIndex)
  const front = mode.waistRadiusUm * Math.hypot(1, distance / rayleigh)
  // Axes of the mode: one along its own axis, and two across it.
  const length = Math.hypot(chief.x.slopeRad, chief.y.slopeRad, 1)
  const [ax, ay, az] = [chief.x.slopeRad / length, chief.y.slopeRad / length, 1 / length]
  const across = Math.hypot(ax, az)
  const [ex, ez] = [az / across, -ax / across]
  const [fx, fy, fz] = [ay * ez, across, -ay * ex]
  return (u, v, ray) => {
    const h = u * front
    const g = v * front
    const sineX = h * curvature
    const sineY = g * curvature
    const sine2 = sineX * sineX + sineY * sineY
    if (!(sine2 < 0.998)) return false
    const cosine = Math.sqrt(1 - sine2)
    const back = -(h * sineX + g * sineY) / (1 + cosine)
    ray.x = chief.x.heightUm + h * ex + g * fx + back * ax
    ray.y = chief.y.heightUm + g * fy + back * ay
    ray.z = h * ez + g * fz + back * az
    ray.dx = sineX * ex + sineY * fx + cosine * ax
    ray.dy = sineY * fy + cosine * ay
    ray.dz = sineX * ez + sineY * fz + cosine * az
    ray.path = 0
    return true
  }
}
