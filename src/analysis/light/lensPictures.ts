// The effect of the lenses of a relay on the light, as pictures: the wavefront behind each of them, seen from its guide, and where rays
// from the near guide meet the far face.

import { solveSmall } from '../../numerics/linear/smallSystem'
import { minimiseBrent } from '../../numerics/minimise'
import {
  launchFrom,
  type SkewField,
  skewField,
  squarePupil,
  type TracedRay,
  throughPlaced,
} from '../../optics/index'
import type { LensesInLight, LensPictures, WavefrontPicture } from '../results/lensPictures'

/** Rays along one side of a wavefront's picture. */
const SIDE = 27
const AXIS = { heightUm: 0, slopeRad: 0 }
/** Rings of rays, and their heights. */
const RINGS = 6
const OUTERMOST = 1.5

/** The wavefront without level, tilt and focus, which alignment removes. */
function wavefrontOf(
  lens: 1 | 2,
  lensName: string,
  field: SkewField,
  wavelengthUm: number,
): WavefrontPicture {
  const side = Math.sqrt(field.power.length)
  const count = field.power.length
  const terms = (i: number): readonly number[] => {
    const u = (field.xUm[i] as number) / field.beamRadiusUm
    const v = (field.yUm[i] as number) / field.beamRadiusUm
    return [1, u, v, u * u + v * v]
  }
  const rows = Array.from({ length: 4 }, () => new Array<number>(5).fill(0))
  for (let i = 0; i < count; i++) {
    const share = field.power[i] as number
    if (share === 0) continue
    const t = terms(i)
    for (let a = 0; a < 4; a++) {
      const row = rows[a] as number[]
      for (let b = 0; b < 4; b++) row[b] = (row[b] as number) + share * (t[a] as number) * (t[b] as number)
      row[4] = (row[4] as number) + share * (t[a] as number) * (field.errorUm[i] as number)
    }
  }
  const best = solveSmall(rows) ?? [0, 0, 0, 0]
  // The grid of the rays runs row by row of u; the picture's rows are those of v.
  const rowOrder = (i: number) => (i % side) * side + Math.floor(i / side)
  const errorWaves = new Float64Array(count).fill(Number.NaN)
  const square = new Float64Array(count)
  let [whole, squares] = [0, 0]
  for (let i = 0; i < count; i++) {
    const share = field.power[i] as number
    if (share === 0) continue
    const t = terms(i)
    let error = field.errorUm[i] as number
    for (let a = 0; a < 4; a++) error -= (best[a] as number) * (t[a] as number)
    const waves = error / wavelengthUm
    errorWaves[rowOrder(i)] = waves
    square[i] = t[3] as number
    whole += share
    squares += share * waves * waves
  }
  // As in wavefrontQuality: the focus that makes the ratio largest.
  const strehlAt = (focusWaves: number) => {
    let re = 0
    let im = 0
    for (let i = 0; i < count; i++) {
      const share = field.power[i] as number
      if (share === 0) continue
      const turn = 2 * Math.PI * ((errorWaves[rowOrder(i)] as number) - focusWaves * (square[i] as number))
      re += share * Math.cos(turn)
      im += share * Math.sin(turn)
    }
    return (re * re + im * im) / (whole * whole)
  }
  const reach = Math.abs(best[3] as number) / wavelengthUm + 0.1
  const focused = minimiseBrent((b) => -strehlAt(b), -reach, reach, { tolerance: 1e-4 })
  return {
    lens,
    lensName,
    side,
    reach: 3,
    errorWaves,
    rmsWaves: Math.sqrt(squares / whole),
    strehl: Math.min(1, -focused.value),
  }
}

/** The pictures of the lenses of a relay; null where no ray gets through. */
export function lensPictures(lenses: LensesInLight): LensPictures | null {
  const { elementId, names, near, far, chief, first, second, onward, stretchUm, backGapUm } = lenses
  const { wavelengthUm } = near.mode
  const pupil = squarePupil(SIDE)
  const fields = [
    near.lens === null ? null : skewField(near.mode, chief, first, pupil),
    far.lens === null ? null : skewField(far.mode, { x: AXIS, y: AXIS }, second, pupil),
  ]
  if ((near.lens !== null && fields[0] === null) || (far.lens !== null && fields[1] === null)) return null
  const wavefronts = fields.flatMap((field, i) =>
    field === null ? [] : [wavefrontOf(i === 0 ? 1 : 2, names[i] ?? '', field, wavelengthUm)],
  )
  const launch = launchFrom(near.mode, chief, near)
  const ray: TracedRay = { x: 0, y: 0, z: 0, dx: 0, dy: 0, dz: 1, path: 0 }
  const [xUm, yUm, radii]: [number[], number[], number[]] = [[], [], []]
  for (let ring = 0; ring <= RINGS; ring++) {
    const height = (OUTERMOST * ring) / RINGS
    const rays = ring === 0 ? 1 : 6 * ring
    for (let k = 0; k < rays; k++) {
      const angle = (2 * Math.PI * k) / rays
      if (!launch(height * Math.cos(angle), height * Math.sin(angle), ray)) continue
      if (!throughPlaced(ray, first)) continue
      ray.z -= first.thicknessUm + stretchUm
      if (!throughPlaced(ray, onward)) continue
      const t = (onward.thicknessUm + backGapUm - ray.z) / ray.dz
      xUm.push(ray.x + t * ray.dx)
      yUm.push(ray.y + t * ray.dy)
      radii.push(height)
    }
  }
  return {
    elementId,
    wavefronts,
    spots: {
      xUm: Float64Array.from(xUm),
      yUm: Float64Array.from(yUm),
      radii: Float64Array.from(radii),
      receiverRadiusXUm: lenses.receiverRadiusXUm,
      receiverRadiusYUm: lenses.receiverRadiusYUm,
    },
  }
}
