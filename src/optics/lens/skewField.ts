// The field of a mode behind a lens that is displaced from the mode's axis or tilted: rays in three dimensions.
// Rays leave a sphere near the mode's wavefront along its normals (launchCurvature), on a square grid of heights u, v in 1/e^2
// radii. They cross the misaligned lens and are carried to the last vertex plane of the aligned one. As in collimatedField.ts, the
// path difference from the paraxial wave is added to the paraxial Gaussian, here about the paraxial chief ray:
//   r = c + s d,  phase = -k0 [W - m (d.d / (2 Rg) + t.d) + m (s^2 d.d / (2 R) + s t.d)],  |E| d2r = s sqrt(I |J|) du dv
// c and t are position and slope of the chief ray, d a ray's distance from it, W its path, J the Jacobian of the lens in u and v,
// s the Gaussian's radius over the geometric one. For a smooth field that vanishes on all sides, sums over equal steps converge
// to high order. Source: derived here; ray tubes as in M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 3.1. Round modes. Micrometres.

import type { RayMatrix } from '../beam/abcd'
import { type Ray, throughDisplaced } from '../joint/displaced'
import { fluxOf, gaussianBehind, type LensMode, launchCurvature, REACH } from './collimatedField'
import type { LensShape } from './lensShape'
import type { PointField } from './pointField'
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

/** For each ray of a skew field: its path relative to the paraxial one, and its share of the power. */
export interface SkewField extends PointField {
  readonly errorUm: Float64Array
  readonly power: Float64Array
}

/** Rays along one side of the square, and the place of the middle one. */
const SIDE = 27
const MIDDLE = (SIDE - 1) / 2
const STEP = (2 * REACH) / (SIDE - 1)
/** Between rays whose difference gives the Jacobian. */
const RAY_STEP = 1e-4

/** Rotates a ray into the frame of a lens, or back. */
function turned(ray: TracedRay, lens: PlacedLens, into: boolean): void {
  const half = lens.thicknessUm / 2
  const [cx, sx] = [Math.cos(lens.tiltXRad), Math.sin(lens.tiltXRad)]
  const [cy, sy] = [Math.cos(lens.tiltYRad), Math.sin(lens.tiltYRad)]
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

/** Whether nothing is displaced or tilted along y: the field is then its own mirror image. */
const isUpright = ({ y }: ChiefRay, { offsetYUm, tiltYRad }: PlacedLens): boolean =>
  y.heightUm === 0 && y.slopeRad === 0 && offsetYUm === 0 && tiltYRad === 0

/** The chief ray of a paraxial beam behind the lens. */
function chiefBehind({ x, y }: ChiefRay, lens: PlacedLens): ChiefRay {
  const through = (ray: Ray, offsetUm: number, tiltRad: number) =>
    throughDisplaced(lens.matrix, lens.thicknessUm, offsetUm, tiltRad, ray)
  return { x: through(x, lens.offsetXUm, lens.tiltXRad), y: through(y, lens.offsetYUm, lens.tiltYRad) }
}

/** The field at the last vertex plane; null where not even the ray along the mode's axis gets through. */
export function skewField(mode: LensMode, chief: ChiefRay, lens: PlacedLens): SkewField | null {
  const { matrix, mediumIndex: m, shape } = lens
  const k0 = (2 * Math.PI) / mode.wavelengthUm
  const rayleigh = (Math.PI * m * mode.waistRadiusUm ** 2) / mode.wavelengthUm
  const distance = mode.distanceUm
  const curvature = launchCurvature(matrix, mode, m)
  const front = mode.waistRadiusUm * Math.hypot(1, distance / rayleigh)
  const { radiusUm: beamRadiusUm, curvaturePerUm } = gaussianBehind(matrix, mode, m)
  const growth = matrix.a + matrix.b * curvature
  const geometricCurvature = (matrix.c + matrix.d * curvature) / growth
  const behind = chiefBehind(chief, lens)
  const [cx, cy] = [behind.x.heightUm, behind.y.heightUm]
  const [tx, ty] = [behind.x.slopeRad, behind.y.slopeRad]
  const scale = shape === null ? 1 : beamRadiusUm / Math.abs(growth * front)
  const flux = fluxOf(front * curvature)
  const launch = launchFrom(mode, chief, lens)
  const ray: TracedRay = { x: 0, y: 0, z: 0, dx: 0, dy: 0, dz: 1, path: 0 }
  const trace = (u: number, v: number): boolean => launch(u, v, ray) && throughPlaced(ray, lens)
  if (shape !== null && !trace(0, 0)) return null
  const onAxis = ray.path - m * (tx * (ray.x - cx) + ty * (ray.y - cy))
  const count = SIDE * SIDE
  const made = (): Float64Array => new Float64Array(count)
  const [xUm, yUm, amount, phaseRad] = [made(), made(), made(), made()]
  const [errorUm, power] = [made(), made()]
  const firstRow = isUpright(chief, lens) ? MIDDLE : 0
  for (let i = 0; i < SIDE; i++) {
    for (let j = firstRow; j < SIDE; j++) {
      const at = i * SIDE + j
      const u = i * STEP - REACH
      const v = j * STEP - REACH
      const u2 = u * u + v * v
      xUm[at] = cx
      yUm[at] = cy
      if (u2 > REACH * REACH) continue
      let jacobian = beamRadiusUm * beamRadiusUm
      let dx = u * beamRadiusUm
      let dy = v * beamRadiusUm
      if (shape !== null) {
        if (!trace(u + RAY_STEP, v)) continue
        const x1 = ray.x
        const y1 = ray.y
        if (!trace(u - RAY_STEP, v)) continue
        const xu = x1 - ray.x
        const yu = y1 - ray.y
        if (!trace(u, v + RAY_STEP)) continue
        const x2 = ray.x
        const y2 = ray.y
        if (!trace(u, v - RAY_STEP)) continue
        jacobian = (xu * (y2 - ray.y) - yu * (x2 - ray.x)) / (4 * RAY_STEP * RAY_STEP)
        // Beyond a fold of the beam its rays cross; their light counts as lost, as in the fan through a centred lens.
        if (!(jacobian > 0) || !trace(u, v)) continue
        dx = ray.x - cx
        dy = ray.y - cy
        const paraxial = m * ((geometricCurvature * (dx * dx + dy * dy)) / 2 + tx * dx + ty * dy)
        errorUm[at] = ray.path - onAxis - paraxial
        dx *= scale
        dy *= scale
      }
      const sine2 = u2 * (front * curvature) ** 2
      const intensity =
        shape === null
          ? (2 / Math.PI) * Math.exp(-2 * u2)
          : ((2 / Math.PI) * Math.exp(-2 * u2) * Math.sqrt(Math.max(0, 1 - sine2))) / flux
      xUm[at] = cx + dx
      yUm[at] = cy + dy
      power[at] = intensity * STEP * STEP
      amount[at] = scale * Math.sqrt(intensity * jacobian) * STEP * STEP
      const wave = m * ((curvaturePerUm * (dx * dx + dy * dy)) / 2 + tx * dx + ty * dy)
      phaseRad[at] = -k0 * ((errorUm[at] as number) + wave)
    }
    for (let j = 0; j < firstRow; j++) {
      const at = i * SIDE + j
      const mirrored = i * SIDE + SIDE - 1 - j
      xUm[at] = xUm[mirrored] as number
      yUm[at] = -(yUm[mirrored] as number)
      amount[at] = amount[mirrored] as number
      phaseRad[at] = phaseRad[mirrored] as number
      errorUm[at] = errorUm[mirrored] as number
      power[at] = power[mirrored] as number
    }
  }
  return {
    xUm,
    yUm,
    amount,
    phaseRad,
    errorUm,
    power,
    centreXUm: cx,
    centreYUm: cy,
    slopeXRad: tx,
    slopeYRad: ty,
    beamRadiusUm,
  }
}
