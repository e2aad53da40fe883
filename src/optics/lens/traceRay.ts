// One ray through a lens, exactly: where it meets each face, Snell's law there, and its optical path.
//   refraction: d' = mu d + (cos t - mu cos i) N,  mu = n / n'
//   rod: d2R/dt2 = grad(n^2) / 2,  T = dR/dt = n d,  path = int n^2 dt  (Runge-Kutta, fourth order)
// Source: M. Born and E. Wolf, Principles of Optics (7th ed.), sect. 3.2; A. Sharma et al., Appl. Opt. 21 (1982) 984 for rods
// (both from memory). Micrometres; z = 0 is the vertex of the first face.

import type { LensFace, LensShape } from './lensShape'

/** A ray: a point, a direction of length 1, and the optical path so far. Tracing overwrites it. */
export interface TracedRay {
  x: number
  y: number
  z: number
  dx: number
  dy: number
  dz: number
  path: number
}

const NEWTON_STEPS = 12
const CLOSE_UM = 1e-10
const ROD_STEPS = 24

/** The result of sagOf: one record for all rays, because one search traces thousands of them. */
const found = { sag: 0, slope: 0 }

/** Sag of a face and its slope over r, both at r^2, written into `found`; NaN beyond the face. */
function sagOf(face: LensFace, r2: number): void {
  const c = 1 / face.radiusUm
  const root = Math.sqrt(1 - (1 + face.conic) * c * c * r2)
  let sag = (c * r2) / (1 + root)
  let slope = c / root
  let power = r2
  for (let i = 0; i < face.asphericPerUm.length; i++) {
    const a = face.asphericPerUm[i] as number
    sag += a * power * r2
    slope += (2 * i + 4) * a * power
    power *= r2
  }
  found.sag = sag
  found.slope = slope
}

/** How far the ray goes to a face without its aspheric terms, c (r^2 + (1 + conic) z^2) = 2 z; NaN where it misses it. */
function toConic(ray: TracedRay, { radiusUm, conic }: LensFace, zUm: number): number {
  const c = 1 / radiusUm
  // From the vertex plane: of the two places where a ray meets a conic, the one on the side of the vertex is meant.
  const t = (zUm - ray.z) / ray.dz
  const x = ray.x + t * ray.dx
  const y = ray.y + t * ray.dy
  const square = c * (1 + conic * ray.dz * ray.dz)
  const half = c * (x * ray.dx + y * ray.dy) - ray.dz
  const level = c * (x * x + y * y)
  return t + level / (Math.sqrt(half * half - square * level) - half)
}

/** Where the ray meets a face, and the normal there, not yet of length 1; written by `meetFace`. */
const met = { t: 0, nx: 0, ny: 0, nz: 1 }

/** Finds where the ray meets a face; false where it misses it. */
function meetFace(ray: TracedRay, face: LensFace, zUm: number): boolean {
  // Newton's method from the conic, which is the face itself but for aspheric terms.
  let t = toConic(ray, face, zUm)
  if (face.asphericPerUm.length === 0) {
    // The gradient of the conic; it points backwards beyond its equator.
    const c = 1 / face.radiusUm
    met.t = t
    met.nx = -c * (ray.x + t * ray.dx)
    met.ny = -c * (ray.y + t * ray.dy)
    met.nz = 1 - c * (1 + face.conic) * (ray.z + t * ray.dz - zUm)
    return met.nz > 0
  }
  if (Number.isNaN(t)) t = (zUm - ray.z) / ray.dz
  for (let i = 0; ; i++) {
    const x = ray.x + t * ray.dx
    const y = ray.y + t * ray.dy
    sagOf(face, x * x + y * y)
    if (!Number.isFinite(found.sag)) return false
    const miss = ray.z + t * ray.dz - zUm - found.sag
    met.t = t
    met.nx = -found.slope * x
    met.ny = -found.slope * y
    met.nz = 1
    const rate = ray.dz + met.nx * ray.dx + met.ny * ray.dy
    if (Math.abs(miss) < CLOSE_UM) return true
    if (i === NEWTON_STEPS || !(Math.abs(rate) > 1e-6)) return false
    t -= miss / rate
  }
}

/** Traces the ray to a face whose vertex is at `zUm` and refracts it there. False where it misses the face or is totally reflected. */
function throughFace(ray: TracedRay, face: LensFace, zUm: number, before: number, after: number): boolean {
  if (!meetFace(ray, face, zUm)) return false
  const { t } = met
  let { nx, ny, nz } = met
  ray.x += t * ray.dx
  ray.y += t * ray.dy
  ray.z += t * ray.dz
  ray.path += before * t
  // Math.hypot takes ten times as long.
  const length = Math.sqrt(nx * nx + ny * ny + nz * nz)
  nx /= length
  ny /= length
  nz /= length
  const mu = before / after
  const cosI = nx * ray.dx + ny * ray.dy + nz * ray.dz
  const square = 1 - mu * mu * (1 - cosI * cosI)
  if (!(square > 0) || !(cosI > 0)) return false
  const bend = Math.sqrt(square) - mu * cosI
  ray.dx = mu * ray.dx + bend * nx
  ray.dy = mu * ray.dy + bend * ny
  ray.dz = mu * ray.dz + bend * nz
  return true
}

/** Traces the ray, which is inside the rod at its first face, to the plane of the last one. */
function throughRod(ray: TracedRay, lens: LensShape): void {
  const { perUm: g, fourth } = lens.gradient ?? { perUm: 0, fourth: 0 }
  const n0 = lens.index
  const indexAt = (r2: number) => {
    const u = g * g * r2
    return n0 * (1 - u / 2 + fourth * u * u)
  }
  // grad(n^2) / 2 = n dn/d(r^2) 2 (x, y)
  const pull = (r2: number) => {
    const u = g * g * r2
    return indexAt(r2) * n0 * g * g * (-1 + 4 * fourth * u)
  }
  const start = indexAt(ray.x * ray.x + ray.y * ray.y)
  let x = ray.x
  let y = ray.y
  let tx = start * ray.dx
  let ty = start * ray.dy
  const tz = start * ray.dz
  const h = lens.thicknessUm / ROD_STEPS / tz
  let path = 0
  for (let i = 0; i < ROD_STEPS; i++) {
    const here = pull(x * x + y * y)
    const ax = here * x
    const ay = here * y
    const mx = x + (h / 2) * (tx + (h / 4) * ax)
    const my = y + (h / 2) * (ty + (h / 4) * ay)
    const middle = pull(mx * mx + my * my)
    const bx = middle * mx
    const by = middle * my
    const ex = x + h * (tx + (h / 2) * bx)
    const ey = y + h * (ty + (h / 2) * by)
    const end = pull(ex * ex + ey * ey)
    const cx = end * ex
    const cy = end * ey
    const from = indexAt(x * x + y * y) ** 2
    const between = indexAt(mx * mx + my * my) ** 2
    x += h * (tx + (h / 6) * (ax + 2 * bx))
    y += h * (ty + (h / 6) * (ay + 2 * by))
    tx += (h / 6) * (ax + 4 * bx + cx)
    ty += (h / 6) * (ay + 4 * by + cy)
    path += (h / 6) * (from + 4 * between + indexAt(x * x + y * y) ** 2)
  }
  const n = Math.hypot(tx, ty, tz)
  ray.x = x
  ray.y = y
  ray.z += lens.thicknessUm
  ray.dx = tx / n
  ray.dy = ty / n
  ray.dz = tz / n
  ray.path += path
}

/**
 * Traces a ray from the medium in front, through the lens, to the plane of the last vertex. False where it misses a face or
 * is totally reflected; the ray is then where it failed. `visit` gets the point where it meets each face.
 */
export function traceRay(
  ray: TracedRay,
  lens: LensShape,
  visit?: (xUm: number, zUm: number) => void,
): boolean {
  const { index, mediumIndex, thicknessUm, first, last, gradient } = lens
  if (gradient !== undefined) {
    const u = (ray.x + ((0 - ray.z) / ray.dz) * ray.dx) ** 2 + (ray.y + ((0 - ray.z) / ray.dz) * ray.dy) ** 2
    const local =
      index * (1 - (gradient.perUm ** 2 * u) / 2 + gradient.fourth * (gradient.perUm ** 2 * u) ** 2)
    if (!(local > 1) || !throughFace(ray, first, 0, mediumIndex, local)) return false
    visit?.(ray.x, ray.z)
    throughRod(ray, lens)
    visit?.(ray.x, ray.z)
    const g2 = gradient.perUm ** 2 * (ray.x * ray.x + ray.y * ray.y)
    const leaving = index * (1 - g2 / 2 + gradient.fourth * g2 * g2)
    return leaving > 1 && throughFace(ray, last, thicknessUm, leaving, mediumIndex)
  }
  if (!throughFace(ray, first, 0, mediumIndex, index)) return false
  visit?.(ray.x, ray.z)
  if (!throughFace(ray, last, thicknessUm, index, mediumIndex)) return false
  visit?.(ray.x, ray.z)
  const t = (thicknessUm - ray.z) / ray.dz
  ray.x += t * ray.dx
  ray.y += t * ray.dy
  ray.z = thicknessUm
  ray.path += mediumIndex * t
  return true
}
