// Rays through the real lenses of a relay from face to face, in one plane: for the drawing, and how wide they meet the far face.
// Decentred and tilted lenses are traced in place. A plate in the parallel beam only shortens the path that
// diffraction sees, and bends no ray that runs along the axis: it is omitted.

import { type LensShape, type RayMatrix, type TracedRay, traceRay } from '../../../optics/index'
import type { RayLine } from '../../results/evaluation'
import type { RelayGeometry, RelayLens } from './relayGeometry'
import type { RelayState } from './relayOptics'

interface RelayRays {
  readonly x: readonly RayLine[]
  readonly y: readonly RayLine[]
}

/** Heights on the wavefront at lens 1 in 1/e^2 radii. */
const HEIGHTS = [-1.5, -1.2, -0.9, -0.6, -0.3, 0, 0.3, 0.6, 0.9, 1.2, 1.5] as const

/** The lens as light meets it that comes from the parallel beam. */
export function reversed(lens: LensShape): LensShape {
  const turned = (face: LensShape['first']): LensShape['first'] => ({
    radiusUm: -face.radiusUm,
    conic: face.conic,
    asphericPerUm: face.asphericPerUm.map((term) => -term),
  })
  return { ...lens, first: turned(lens.last), last: turned(lens.first) }
}

/** Carries a ray of the plane through a lens at `frontUm`; adds the corners. False where it is lost. */
function through(
  ray: TracedRay,
  lens: LensShape | null,
  matrix: RayMatrix,
  pose: RelayLens,
  axis: 'X' | 'Y',
  frontUm: number,
  corner: (zUm: number, heightUm: number) => void,
): boolean {
  const [offset, tilt] = axis === 'X' ? [pose.offsetXUm, pose.tiltXRad] : [pose.offsetYUm, pose.tiltYRad]
  const half = pose.thicknessUm / 2
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)]
  const middle = frontUm + half
  const [x, z] = [ray.x - offset, ray.z - middle]
  // Into the frame of the lens, whose axis slopes by the tilt.
  const local: TracedRay = {
    ...ray,
    x: c * x - s * z,
    z: s * x + c * z + half,
    dx: c * ray.dx - s * ray.dz,
    dz: s * ray.dx + c * ray.dz,
  }
  const out = (at: { x: number; z: number }) => {
    const along = at.z - half
    return { x: c * at.x + s * along + offset, z: middle - s * at.x + c * along }
  }
  if (lens === null) {
    const t = -local.z / local.dz
    const height = local.x + t * local.dx
    const slope = local.dx / local.dz + matrix.c * height
    const length = Math.hypot(1, slope)
    local.x = height
    local.z = 0
    local.dx = slope / length
    local.dz = 1 / length
  } else {
    const visit = (px: number, pz: number) => {
      const at = out({ x: px, z: pz })
      corner(at.z, at.x)
    }
    if (!traceRay(local, lens, visit)) return false
  }
  const at = out(local)
  ray.x = at.x
  ray.z = at.z
  ray.dx = c * local.dx + s * local.dz
  ray.dz = -s * local.dx + c * local.dz
  if (lens === null) corner(ray.z, ray.x)
  return true
}

/** The rays of both planes that get through; `shapes` are the lenses from the side of the guides. */
export function relayRays(
  g: RelayGeometry,
  { frontGapUm, stretchUm, backGapUm }: RelayState,
  shapes: readonly [LensShape | null, LensShape | null],
): RelayRays {
  const second = shapes[1] === null ? null : reversed(shapes[1])
  const lens2Z = frontGapUm + g.lens1.thicknessUm + stretchUm
  const endZ = lens2Z + g.lens2.thicknessUm + backGapUm
  const plane = (axis: 'X' | 'Y'): readonly RayLine[] =>
    HEIGHTS.flatMap((u): readonly RayLine[] => {
      const waist = axis === 'X' ? g.waistXUm : g.waistYUm
      const mfd = axis === 'X' ? g.emitterMfdXUm : g.emitterMfdYUm
      const [offset, tilt] = axis === 'X' ? [g.offsetXUm, g.tiltXRad] : [g.offsetYUm, g.tiltYRad]
      const distance = frontGapUm - waist
      const rayleigh = (Math.PI * g.mediumIndex * mfd * mfd) / (4 * g.wavelengthUm)
      const height = u * (mfd / 2) * Math.hypot(1, distance / rayleigh)
      const sine = (height * distance) / (distance * distance + rayleigh * rayleigh)
      if (!(Math.abs(sine) < 0.99)) return []
      const angle = Math.asin(sine)
      // From the fibre's own face: back along the ray that is normal to the wavefront at the lens.
      const start = height - Math.tan(angle) * frontGapUm
      const zUm: number[] = [0]
      const heightUm: number[] = [start + offset]
      const corner = (z: number, at: number) => {
        zUm.push(z)
        heightUm.push(at)
      }
      const ray: TracedRay = {
        x: start + offset,
        y: 0,
        z: 0,
        dx: Math.sin(angle + tilt),
        dy: 0,
        dz: Math.cos(angle + tilt),
        path: 0,
      }
      if (!through(ray, shapes[0], g.lens1.matrix, g.lens1, axis, frontGapUm, corner)) return []
      if (!through(ray, second, g.lens2.matrix, g.lens2, axis, lens2Z, corner)) return []
      corner(endZ, ray.x + ((endZ - ray.z) / ray.dz) * ray.dx)
      return [{ zUm, heightUm }]
    })
  return { x: plane('X'), y: plane('Y') }
}
