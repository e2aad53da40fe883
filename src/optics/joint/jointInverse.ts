// Inverse problems about a joint: which offset, tilt, gap or facet mode costs a given loss.
// Offset and tilt are closed forms (misalignmentForm.ts); the gap is a root; the facet mode of a round fibre is the
// solution of (2 r / (1 + r^2))^2 = efficiency for the ratio r (D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703).
// Losses in dB above the best point, micrometres, radians.

import { InputError, requireInRange, requirePositive } from '../../numerics/inputError'
import { minimiseBrent } from '../../numerics/minimise'
import { brentRoot } from '../../numerics/roots'
import { NEPERS_PER_DB } from '../beam/decibel'
import { type GaussianJoint, JOINT_RANGES, requireJoint } from './gaussianJoint'
import { jointEfficiency } from './joint'
import { formWindow, misalignmentForm } from './misalignmentForm'

const EXCESS_RANGE_DB = [0, 100] as const

/** A search in gap takes strides that grow with the distance, as the beam does. */
const STRIDE_GROWTH = 1.05

export interface OffsetWindow {
  readonly bestUm: number
  readonly lowerUm: number
  readonly upperUm: number
}

export interface TiltWindow {
  readonly bestRad: number
  readonly lowerRad: number
  readonly upperRad: number
}

/** `null`: the loss is not reached before the fibre touches (lower) or within JOINT_RANGES (upper). */
export interface GapWindow {
  readonly bestUm: number
  readonly lowerUm: number | null
  readonly upperUm: number | null
}

/** The round facet modes on either side of the fibre's own. */
export interface FacetMfds {
  readonly smallerUm: number
  readonly largerUm: number
}

/**
 * The two offsets along x or y at which the loss is `excessDb` (0 to 100) above that of the best offset, all else in
 * the joint held. Without gap and tilt the best offset is 0 and the window symmetric.
 */
export function offsetForLoss(joint: GaussianJoint, axis: 'x' | 'y', excessDb: number): OffsetWindow {
  requireExcess(excessDb)
  const window = formWindow(
    misalignmentForm(joint),
    axis === 'x' ? 'offsetXUm' : 'offsetYUm',
    joint,
    excessDb,
  )
  return { bestUm: window.best, lowerUm: window.lower, upperUm: window.upper }
}

/** The same for tilt, towards x or y. */
export function tiltForLoss(joint: GaussianJoint, axis: 'x' | 'y', excessDb: number): TiltWindow {
  requireExcess(excessDb)
  const window = formWindow(misalignmentForm(joint), axis === 'x' ? 'tiltXRad' : 'tiltYRad', joint, excessDb)
  return { bestRad: window.best, lowerRad: window.lower, upperRad: window.upper }
}

/**
 * The gaps around the best one (0 or more) at which the loss has risen by `excessDb` (0 to 100), all else in the
 * joint held; the joint's own gap is ignored. Where the loss rises and falls again (astigmatic waists), the first
 * crossing on each side is used. Throws InputError as jointEfficiency does, and where no gap couples any light.
 */
export function gapForLoss(joint: GaussianJoint, excessDb: number): GapWindow {
  requireExcess(excessDb)
  requireJoint(joint)
  const loss = (gapUm: number) => -10 * Math.log10(jointEfficiency({ ...joint, gapUm }))
  const step = shortestRayleighUm(joint) / 8
  const bestUm = bestGapUm(joint, loss, step)
  const least = loss(bestUm)
  if (!Number.isFinite(least)) throw new InputError('efficiency at the best gap', 0, 'above 0')
  const limit = least + excessDb
  const crossing = (direction: 1 | -1): number | null => {
    const end = direction === 1 ? JOINT_RANGES.gapUm[1] : JOINT_RANGES.gapUm[0]
    let inner = bestUm
    let stride = step
    while (inner !== end) {
      const outer = direction === 1 ? Math.min(inner + stride, end) : Math.max(inner - stride, end)
      if (loss(outer) >= limit) return settledRoot((gapUm) => loss(gapUm) - limit, inner, outer)
      inner = outer
      stride *= STRIDE_GROWTH
    }
    return null
  }
  return { bestUm, lowerUm: crossing(-1), upperUm: crossing(1) }
}

/**
 * The two round facet MFDs whose mismatch with a round fibre mode costs `lossDb` (0 to 100 dB); both equal the
 * fibre's at 0 dB. Throws InputError otherwise.
 */
export function facetMfdForLoss(fibreMfdUm: number, lossDb: number): FacetMfds {
  requirePositive('fibreMfdUm', fibreMfdUm)
  requireInRange('lossDb', lossDb, ...EXCESS_RANGE_DB)
  const amplitude = Math.exp((-lossDb * NEPERS_PER_DB) / 2)
  const lost = -Math.expm1(-lossDb * NEPERS_PER_DB)
  const ratio = (1 + Math.sqrt(lost)) / amplitude
  return { smallerUm: fibreMfdUm / ratio, largerUm: fibreMfdUm * ratio }
}

function settledRoot(f: (x: number) => number, from: number, to: number): number {
  const root = brentRoot(f, from, to)
  if (root.end !== 'converged') throw new Error(`gap search from ${from} to ${to} µm ended with ${root.end}`)
  return root.x
}

function requireExcess(excessDb: number): void {
  requireInRange('excessDb', excessDb, ...EXCESS_RANGE_DB)
}

function mfdsUm(joint: GaussianJoint): readonly number[] {
  return [joint.emitterMfdXUm, joint.emitterMfdYUm, joint.receiverMfdXUm, joint.receiverMfdYUm]
}

function shortestRayleighUm(joint: GaussianJoint): number {
  return (Math.PI * joint.index * Math.min(...mfdsUm(joint)) ** 2) / (4 * joint.wavelengthUm)
}

/**
 * Global minimum of the loss: trial gaps, fine around every gap at which something happens (contact, a waist, the beam
 * crossing the receiver's axis) and coarser with the distance from it, then Brent's method about the best of them.
 */
function bestGapUm(joint: GaussianJoint, loss: (gapUm: number) => number, step: number): number {
  const { offsetXUm, offsetYUm, tiltXRad, tiltYRad, waistXUm, waistYUm } = joint
  const greatest = JOINT_RANGES.gapUm[1]
  const trials: number[] = []
  for (const landmark of [0, waistXUm, waistYUm, -offsetXUm / tiltXRad, -offsetYUm / tiltYRad]) {
    if (!(landmark >= 0 && landmark <= greatest)) continue
    for (let distance = 0, stride = step; distance <= greatest; distance += stride, stride *= STRIDE_GROWTH) {
      if (landmark + distance <= greatest) trials.push(landmark + distance)
      if (landmark - distance >= 0) trials.push(landmark - distance)
    }
  }
  trials.sort((a, b) => a - b)
  let last = Number.NEGATIVE_INFINITY
  const gaps = trials.filter((gap) => {
    if (gap < last + step / 2) return false // twins would leave Brent no room between them
    last = gap
    return true
  })
  const losses = gaps.map(loss)
  const best = losses.indexOf(Math.min(...losses))
  const from = gaps[best - 1] ?? 0
  const to = gaps[best + 1] ?? greatest
  const refined = minimiseBrent(loss, from, to, { tolerance: 1e-10 })
  // Near contact the loss is flat and rounding would pick the gap; a billionth of a decibel is contact.
  return loss(0) <= refined.value + 1e-9 ? 0 : refined.x
}
