// A joint of fields for many poses: each mode is sampled as finely as it needs, but only the waves that both can share are kept,
// so that a new tilt needs only the small transforms of the smoother mode. The same sum as fieldJoint.ts.
// Cutting a spectrum drops nothing that is shared as long as the other mode has no waves there; aliases do not arise, because
// the cut is made after the fine transform.

import { type FftPlan, fftPlan, forward2 } from '../../numerics/fft/fft2'
import { centredGrid, type FieldGrid, fillSamples } from './fieldGrid'
import { type FieldPair, type FieldPose, tiltWaves } from './fieldPose'
import type { ModeProfile } from './modeProfile'
import { profileWaves } from './profileWaves'
import { axialShare, sharedWaves } from './sharedWaves'

interface Spectrum {
  readonly re: Float64Array
  readonly im: Float64Array
  readonly squares: number
}

interface Wave {
  readonly xPerUm: number
  readonly yPerUm: number
  readonly rollRad: number
}

const UPRIGHT: Wave = { xPerUm: 0, yPerUm: 0, rollRad: 0 }

/** The profile's transform on a fine grid, cut to the waves of a plan of the same window; written into `into`. */
function transformed(
  profile: ModeProfile,
  fine: FieldGrid,
  finePlan: FftPlan,
  plan: FftPlan,
  wave: Wave,
): Spectrum {
  if (profile.plane !== undefined) {
    const [byX, byY] = [fine.nx / plan.nx, fine.ny / plan.ny]
    return profileWaves(profile, centredGrid(plan.nx, plan.ny, fine.dxUm * byX, fine.dyUm * byY), plan, wave)
  }
  const re = new Float64Array(fine.nx * fine.ny)
  const im = new Float64Array(fine.nx * fine.ny)
  const pose = { waveXPerUm: wave.xPerUm, waveYPerUm: wave.yPerUm, rollRad: wave.rollRad }
  const squares = fillSamples(profile, fine, pose, re, im)
  forward2(finePlan, re, im)
  if (finePlan.nx === plan.nx && finePlan.ny === plan.ny) return { re, im, squares }
  const share = (plan.nx * plan.ny) / (fine.nx * fine.ny)
  const out = { re: new Float64Array(plan.nx * plan.ny), im: new Float64Array(plan.nx * plan.ny) }
  const positions = (order: Int32Array) =>
    new Map(Array.from(order, (frequency, at) => [frequency, at] as const))
  const [alongX, alongY] = [positions(finePlan.orderX), positions(finePlan.orderY)]
  for (let iy = 0; iy < plan.ny; iy++) {
    const from = (alongY.get(plan.orderY[iy] as number) ?? 0) * fine.nx
    for (let ix = 0; ix < plan.nx; ix++) {
      const at = from + (alongX.get(plan.orderX[ix] as number) ?? 0)
      out.re[iy * plan.nx + ix] = (re[at] as number) * share
      out.im[iy * plan.nx + ix] = (im[at] as number) * share
    }
  }
  return { ...out, squares: squares * share }
}

/** Efficiency of any pose that the grid holds; transforms are kept while sizes, tilts and roll stay as they are. */
export type PoseEfficiency = (pose: FieldPose, wavelengthUm: number) => number

/**
 * The joint on a grid of which waves are kept `by` times fewer a side. The receiver is sampled on the grid itself, the emitter
 * on the coarser one of the same window. `by` is a power of two; 1 is the joint of fieldJoint.ts.
 */
export function bandLimitedJoint(pair: FieldPair, fine: FieldGrid, by: number): PoseEfficiency {
  const coarse = centredGrid(fine.nx / by, fine.ny / by, fine.dxUm * by, fine.dyUm * by)
  const plan = fftPlan(coarse.nx, coarse.ny)
  const receiver = transformed(pair.receiver, fine, fftPlan(fine.nx, fine.ny), plan, UPRIGHT)
  const waves = sharedWaves(plan, coarse)
  let known = ''
  let slopePerUm: (tiltRad: number) => number = () => 0
  let kOfSlopes = Number.NaN
  return (pose, wavelengthUm) => {
    const k = (2 * Math.PI * pair.index) / wavelengthUm
    if (k !== kOfSlopes) {
      const upright = () =>
        axialShare(transformed(pair.emitter, coarse, plan, plan, UPRIGHT), receiver, plan, coarse, k)
      slopePerUm = tiltWaves(pair.propagation, k, upright)
      kOfSlopes = k
    }
    const rollRad = pair.emitter.plane?.isRound ? 0 : pose.rollRad
    const key = `${pose.tiltXRad} ${pose.tiltYRad} ${rollRad} ${wavelengthUm}`
    if (key !== known) {
      const wave = {
        xPerUm: slopePerUm(pose.tiltXRad),
        yPerUm: slopePerUm(pose.tiltYRad),
        rollRad,
      }
      const emitter = transformed(pair.emitter, coarse, plan, plan, wave)
      const share = pair.powerShare ?? 1
      const scale = Math.sqrt(share / (emitter.squares * receiver.squares)) / (coarse.nx * coarse.ny)
      waves.take(emitter, receiver, scale)
      known = key
    }
    return Math.min(1, waves.power(k, pose, pair.propagation))
  }
}
