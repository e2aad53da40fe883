// A profile's plane waves on the grid of a joint, in the order in which a transform leaves them: by transforming samples, or
// directly where the profile knows them.

import { type FftPlan, forward2 } from '../../numerics/fft/fft2'
import { type FieldGrid, fillSamples } from './fieldGrid'
import type { ModeProfile } from './modeProfile'

interface ProfileWaves {
  readonly re: Float64Array
  readonly im: Float64Array
  /** Sum of the squares of the samples that these waves are the transform of. */
  readonly squares: number
}

/** Pose of the profile: transverse wavenumbers of its slope, 1/um, and its roll. */
interface WavePose {
  readonly xPerUm: number
  readonly yPerUm: number
  readonly rollRad: number
}

/** Wavenumbers along one axis with the slope added, and the sign that places the first sample at the edge of the grid. */
function axisWaves(order: Int32Array, stepUm: number, slope: number) {
  const n = order.length
  const k = new Float64Array(n)
  const sign = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const at = order[i] as number
    k[i] = (2 * Math.PI * at) / (n * stepUm) + slope
    sign[i] = at % 2 === 0 ? 1 : -1
  }
  return { k, sign }
}

/** On a grid about the origin, as `centredGrid` makes them. */
export function profileWaves(
  profile: ModeProfile,
  grid: FieldGrid,
  plan: FftPlan,
  { xPerUm, yPerUm, rollRad }: WavePose,
): ProfileWaves {
  const { nx, ny, dxUm, dyUm } = grid
  const re = new Float64Array(nx * ny)
  const im = new Float64Array(nx * ny)
  const { plane } = profile
  if (plane === undefined || (rollRad !== 0 && !plane.isRound)) {
    const pose = { waveXPerUm: xPerUm, waveYPerUm: yPerUm, rollRad }
    const squares = fillSamples(profile, grid, pose, re, im)
    forward2(plan, re, im)
    return { re, im, squares }
  }
  const x = axisWaves(plan.orderX, dxUm, xPerUm)
  const y = axisWaves(plan.orderY, dyUm, yPerUm)
  plane.waves(x.k, y.k, re, im)
  const area = dxUm * dyUm
  for (let iy = 0, i = 0; iy < ny; iy++) {
    for (let ix = 0; ix < nx; ix++, i++) {
      const scale = ((x.sign[ix] as number) * (y.sign[iy] as number)) / area
      re[i] = (re[i] as number) * scale
      im[i] = (im[i] as number) * scale
    }
  }
  return { re, im, squares: plane.powerUm2 / area }
}
