// The field of a mode behind a lens that is displaced from the mode's axis or tilted: rays in three dimensions.
// Rays leave a sphere near the mode's wavefront along its normals (launchCurvature), at heights u, v in 1/e^2 radii. They cross the
// misaligned lens and are carried to the last vertex plane of the aligned one. As in collimatedField.ts, the path difference from the
// paraxial wave is added to the paraxial Gaussian, here about the paraxial chief ray:
//   r = c + s d,  phase = -k0 [W - m (d.d / (2 Rg) + t.d) + m (s^2 d.d / (2 R) + s t.d)],  |E| d2r = s sqrt(I |J|) du dv
// c and t are position and slope of the chief ray, d a ray's distance from it, W its path, J the Jacobian of the lens in u and v,
// s the Gaussian's radius over the geometric one.
// Source: derived here; ray tubes as in M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 3.1. Round modes. Micrometres.

import { type Ray, throughDisplaced } from '../joint/displaced'
import { fluxOf, gaussianBehind, type LensMode, launchCurvature } from './collimatedField'
import { type ChiefRay, launchFrom, type PlacedLens, throughPlaced } from './placedLens'
import { fillRingJacobian, type Pupil } from './pupil'
import type { TracedRay } from './traceRay'

/** A field by the rays of a pupil: total power 1. */
export interface SkewField {
  /** Place from the chief ray, scaled to the Gaussian's radius. */
  readonly xUm: Float64Array
  readonly yUm: Float64Array
  /** sqrt(power d2r): the ray's share of int E f d2r; 0 for one that is lost. */
  readonly amount: Float64Array
  /** Path relative to the paraxial one. */
  readonly errorUm: Float64Array
  readonly power: Float64Array
  /** Area in the plane, before it is scaled, over that on the sphere in 1/e^2 radii. */
  readonly jacobian: Float64Array
  /** Of the paraxial beam: its chief ray in the last vertex plane, its 1/e^2 radius and curvature there. */
  chief: ChiefRay
  beamRadiusUm: number
  curvaturePerUm: number
}

/** A field to be filled. */
export function newSkewField({ u }: Pupil): SkewField {
  const made = () => new Float64Array(u.length)
  const still: Ray = { heightUm: 0, slopeRad: 0 }
  return {
    ...{ xUm: made(), yUm: made(), amount: made(), errorUm: made(), power: made(), jacobian: made() },
    ...{ chief: { x: still, y: still }, beamRadiusUm: 0, curvaturePerUm: 0 },
  }
}

/** Between rays whose difference gives the Jacobian where rays do not lie on whole rings. */
const RAY_STEP = 1e-4

const ray: TracedRay = { x: 0, y: 0, z: 0, dx: 0, dy: 0, dz: 1, path: 0 }

/** Fills in the field at the last vertex plane; false where not even the ray along the mode's axis gets through. */
export function fillSkewField(
  { distanceUm, ...guide }: LensMode,
  chief: ChiefRay,
  lens: PlacedLens,
  { u, v, area, rings }: Pupil,
  field: SkewField,
): boolean {
  const { matrix, mediumIndex: m, shape, thicknessUm } = lens
  const { xUm, yUm, amount, errorUm, power, jacobian } = field
  // A sloping axis is longer up to the lens.
  const mode = { ...guide, distanceUm: distanceUm * Math.hypot(chief.x.slopeRad, chief.y.slopeRad, 1) }
  const rayleigh = (Math.PI * m * mode.waistRadiusUm ** 2) / mode.wavelengthUm
  const { radiusUm: w, curvaturePerUm } = gaussianBehind(matrix, mode, m)
  field.beamRadiusUm = w
  field.curvaturePerUm = curvaturePerUm
  field.chief = {
    x: throughDisplaced(matrix, thicknessUm, lens.offsetXUm, lens.tiltXRad, chief.x),
    y: throughDisplaced(matrix, thicknessUm, lens.offsetYUm, lens.tiltYRad, chief.y),
  }
  if (shape === null) {
    for (let j = 0; j < u.length; j++) {
      const square = (u[j] as number) ** 2 + (v[j] as number) ** 2
      xUm[j] = (u[j] as number) * w
      yUm[j] = (v[j] as number) * w
      power[j] = (2 / Math.PI) * Math.exp(-2 * square) * (area[j] as number)
      amount[j] = Math.sqrt(2 / Math.PI) * Math.exp(-square) * w * (area[j] as number)
      errorUm[j] = 0
    }
    return true
  }
  const curvature = launchCurvature(matrix, mode, m)
  const front = mode.waistRadiusUm * Math.hypot(1, mode.distanceUm / rayleigh)
  const growth = matrix.a + matrix.b * curvature
  const geometricCurvature = (matrix.c + matrix.d * curvature) / growth
  const scale = w / Math.abs(growth * front)
  const slope2 = (front * curvature) ** 2
  const unit = 2 / (Math.PI * fluxOf(front * curvature))
  const [cx, cy] = [field.chief.x.heightUm, field.chief.y.heightUm]
  const [tx, ty] = [field.chief.x.slopeRad, field.chief.y.slopeRad]
  const launch = launchFrom(mode, chief, lens)
  if (!launch(0, 0, ray) || !throughPlaced(ray, lens)) return false
  const onAxis = ray.path - m * (tx * (ray.x - cx) + ty * (ray.y - cy))
  const tubeArea = (uj: number, vj: number, x: number, y: number): number => {
    if (!launch(uj + RAY_STEP, vj, ray) || !throughPlaced(ray, lens)) return 0
    const xu = ray.x - x
    const yu = ray.y - y
    if (!launch(uj, vj + RAY_STEP, ray) || !throughPlaced(ray, lens)) return 0
    return (xu * (ray.y - y) - yu * (ray.x - x)) / (RAY_STEP * RAY_STEP)
  }
  let isWhole = true
  for (let j = 0; j < u.length; j++) {
    jacobian[j] = 0
    if (area[j] === 0) continue
    const uj = u[j] as number
    const vj = v[j] as number
    if (!launch(uj, vj, ray) || !throughPlaced(ray, lens)) {
      isWhole = false
      jacobian[j] = Number.NaN
      continue
    }
    const dx = ray.x - cx
    const dy = ray.y - cy
    xUm[j] = dx
    yUm[j] = dy
    errorUm[j] = ray.path - onAxis - m * ((geometricCurvature * (dx * dx + dy * dy)) / 2 + tx * dx + ty * dy)
  }
  if (rings !== undefined && isWhole) fillRingJacobian(rings, xUm, yUm, jacobian)
  else {
    for (let j = 0; j < u.length; j++) {
      if (area[j] === 0 || Number.isNaN(jacobian[j])) continue
      jacobian[j] = tubeArea(u[j] as number, v[j] as number, (xUm[j] as number) + cx, (yUm[j] as number) + cy)
    }
  }
  for (let j = 0; j < u.length; j++) {
    // Beyond a fold of the beam its rays cross; their light counts as lost, as in the fan through a centred lens.
    const passes = (jacobian[j] as number) > 0
    const tube = passes ? (jacobian[j] as number) : 0
    const share = passes ? (area[j] as number) : 0
    const square = (u[j] as number) ** 2 + (v[j] as number) ** 2
    const intensity = unit * Math.exp(-2 * square) * Math.sqrt(Math.max(0, 1 - square * slope2))
    xUm[j] = (xUm[j] as number) * scale
    yUm[j] = (yUm[j] as number) * scale
    power[j] = intensity * share
    amount[j] = scale * Math.sqrt(intensity * tube) * share
  }
  return true
}

/** The field at the last vertex plane; null where not even the ray along the mode's axis gets through. */
export function skewField(mode: LensMode, chief: ChiefRay, lens: PlacedLens, pupil: Pupil): SkewField | null {
  const field = newSkewField(pupil)
  return fillSkewField(mode, chief, lens, pupil, field) ? field : null
}
