// The loss of a relay as a form of the pose of one of its members, everything else where it is. The ray on the axis leaves lens 2
// at an offset and a slope r that are linear in offset and tilt u of the member, r = c + G u, and the loss of the joint is an
// exact quadratic form of both (optics/joint/misalignmentForm.ts), so it is one of u too:
//   loss = least + (c + G u)' H (c + G u),   K = G' H G,   half its slope at u = 0: G' H c
// A lens M that is displaced by d and tilted by t about its middle, l thick, adds to the ray
//   [d + l t / 2; t] - M [d - l t / 2; t]   (optics/joint/displaced.ts).
// What apertures clip is ignored. Source: the algebra above. The products are written out, without allocation: a search along
// the light asks thousands of times.

import type { RelayMember } from '../../../model/words/candidate'
import { eliminateFour, solutionOfFour } from '../../../numerics/linear/fourUnknowns'
import { fillCurvatureDb, type GaussianJoint } from '../../../optics/index'
import type { Mutable } from '../faces/faceNumbers'
import { alignedLossDb } from '../gap/alignPose'
import type { PoseForm } from '../vector/elementModels'
import {
  backGapOf,
  effectiveStretchUm,
  frontGapOf,
  type RelayGeometry,
  type RelayLens,
  stretchOf,
} from './relayGeometry'

/** `lossDb` is what the joint loses as it is, without cap. */
interface MemberForm extends PoseForm {
  lossDb: number
}

export const emptyForm = (): MemberForm => ({
  curvatureDb: new Float64Array(16),
  slopeDb: new Float64Array(4),
  lossDb: 0,
})

const h = new Float64Array(16)
/** Offset x, y, slope x, y of the ray at the last face of lens 2, and what a unit of offset and of tilt adds in either plane. */
const ray = new Float64Array(4)
const perOffset = new Float64Array(2)
const perTilt = new Float64Array(2)
const joint: Mutable<GaussianJoint> = {
  wavelengthUm: 1.5,
  index: 1.5,
  emitterMfdXUm: 1.5,
  emitterMfdYUm: 1.5,
  receiverMfdXUm: 1.5,
  receiverMfdYUm: 1.5,
  offsetXUm: 0,
  offsetYUm: 0,
  gapUm: 0.5,
  tiltXRad: 0,
  tiltYRad: 0,
  rollRad: 0.5,
  waistXUm: 0.5,
  waistYUm: 0.5,
}

/** What a displaced and tilted lens adds to the height (row 0) or the slope (row 1) of a ray behind it. */
function added({ matrix: m, thicknessUm }: RelayLens, offsetUm: number, tiltRad: number, row: 0 | 1): number {
  const half = (thicknessUm * tiltRad) / 2
  return row === 0
    ? offsetUm + half - m.a * (offsetUm - half) - m.b * tiltRad
    : tiltRad - m.c * (offsetUm - half) - m.d * tiltRad
}

/** Writes the form of a member's offsets and tilts about where it is to `form`: offset x, y, then tilt x, y, um and rad; without its loss. */
export function fillMemberForm(g: RelayGeometry, member: RelayMember, form: MemberForm): void {
  const { lens1, lens2 } = g
  const frontGapUm = frontGapOf(g)
  const backGapUm = backGapOf(g)
  const first = lens1.matrix
  const last = lens2.matrix
  const pathUm = effectiveStretchUm(g, stretchOf(g))
  // From behind lens 1 to behind lens 2, then from the end face on.
  const ta = last.a
  const tb = last.a * pathUm + last.b
  const tc = last.c
  const td = last.c * pathUm + last.d
  const fb = first.a * frontGapUm + first.b
  const fd = first.c * frontGapUm + first.d
  const a = ta * first.a + tb * first.c
  const b = ta * fb + tb * fd
  const c = tc * first.a + td * first.c
  const d = tc * fb + td * fd
  const xAt1 = added(lens1, lens1.offsetXUm, lens1.tiltXRad, 0)
  const xFrom1 = added(lens1, lens1.offsetXUm, lens1.tiltXRad, 1)
  const yAt1 = added(lens1, lens1.offsetYUm, lens1.tiltYRad, 0)
  const yFrom1 = added(lens1, lens1.offsetYUm, lens1.tiltYRad, 1)
  const xAt2 = added(lens2, lens2.offsetXUm, lens2.tiltXRad, 0)
  const xFrom2 = added(lens2, lens2.offsetXUm, lens2.tiltXRad, 1)
  const yAt2 = added(lens2, lens2.offsetYUm, lens2.tiltYRad, 0)
  const yFrom2 = added(lens2, lens2.offsetYUm, lens2.tiltYRad, 1)
  ray[0] = a * g.offsetXUm + b * g.tiltXRad + ta * xAt1 + tb * xFrom1 + xAt2
  ray[1] = a * g.offsetYUm + b * g.tiltYRad + ta * yAt1 + tb * yFrom1 + yAt2
  ray[2] = c * g.offsetXUm + d * g.tiltXRad + tc * xAt1 + td * xFrom1 + xFrom2
  ray[3] = c * g.offsetYUm + d * g.tiltYRad + tc * yAt1 + td * yFrom1 + yFrom2
  if (member === 'guide') {
    perOffset[0] = a
    perOffset[1] = c
    perTilt[0] = b
    perTilt[1] = d
  } else {
    const lens = member === 'lens1' ? lens1 : lens2
    perOffset[0] = added(lens, 1, 0, 0)
    perOffset[1] = added(lens, 1, 0, 1)
    perTilt[0] = added(lens, 0, 1, 0)
    perTilt[1] = added(lens, 0, 1, 1)
    if (member === 'lens1') {
      through(perOffset, ta, tb, tc, td)
      through(perTilt, ta, tb, tc, td)
    }
  }
  joint.wavelengthUm = g.wavelengthUm
  joint.index = g.mediumIndex
  joint.receiverMfdXUm = g.receiverMfdXUm
  joint.receiverMfdYUm = g.receiverMfdYUm
  joint.gapUm = backGapUm
  joint.rollRad = g.rollRad
  fillImage('X', a, b, c, d, g.emitterMfdXUm, g.waistXUm)
  fillImage('Y', a, b, c, d, g.emitterMfdYUm, g.waistYUm)
  fillCurvatureDb(joint, h)
  fillRow(form, 0, perOffset)
  fillRow(form, 1, perOffset)
  fillRow(form, 2, perTilt)
  fillRow(form, 3, perTilt)
}

/** The same, with the loss. */
export function fillMemberLoss(g: RelayGeometry, member: RelayMember, form: MemberForm): void {
  fillMemberForm(g, member, form)
  let excess = 0
  for (let i = 0; i < 4; i++)
    for (let j = 0; j < 4; j++) excess += (ray[i] as number) * (h[4 * i + j] as number) * (ray[j] as number)
  form.lossDb = alignedLossDb(joint) + excess
}

/** Carries height and slope on by a matrix. */
function through(per: Float64Array, a: number, b: number, c: number, d: number): void {
  const height = per[0] as number
  const slope = per[1] as number
  per[0] = a * height + b * slope
  per[1] = c * height + d * slope
}

/** Row i of the form, from g' H: what a unit of coordinate i adds in its plane, x for even ones. */
function fillRow({ curvatureDb, slopeDb }: MemberForm, i: number, own: Float64Array): void {
  const height = own[0] as number
  const slope = own[1] as number
  const plane = i % 2
  const first = 4 * plane
  const second = 4 * (plane + 2)
  const r0 = height * (h[first] as number) + slope * (h[second] as number)
  const r1 = height * (h[first + 1] as number) + slope * (h[second + 1] as number)
  const r2 = height * (h[first + 2] as number) + slope * (h[second + 2] as number)
  const r3 = height * (h[first + 3] as number) + slope * (h[second + 3] as number)
  slopeDb[i] =
    r0 * (ray[0] as number) + r1 * (ray[1] as number) + r2 * (ray[2] as number) + r3 * (ray[3] as number)
  const at = 4 * i
  curvatureDb[at] = r0 * (perOffset[0] as number) + r2 * (perOffset[1] as number)
  curvatureDb[at + 1] = r1 * (perOffset[0] as number) + r3 * (perOffset[1] as number)
  curvatureDb[at + 2] = r0 * (perTilt[0] as number) + r2 * (perTilt[1] as number)
  curvatureDb[at + 3] = r1 * (perTilt[0] as number) + r3 * (perTilt[1] as number)
}

/** The image of the emitter's mode in one plane, as transformBeam has it for equal media. */
function fillImage(
  axis: 'X' | 'Y',
  a: number,
  b: number,
  c: number,
  d: number,
  mfdUm: number,
  waistUm: number,
): void {
  const rayleigh = (Math.PI * joint.index * mfdUm * mfdUm) / (4 * joint.wavelengthUm)
  const across = d - c * waistUm
  const size = across * across + (c * rayleigh) ** 2
  const imageRayleigh = rayleigh / size
  const mfd = 2 * Math.sqrt((imageRayleigh * joint.wavelengthUm) / (Math.PI * joint.index))
  const waist = -((b - a * waistUm) * across + a * c * rayleigh * rayleigh) / size
  if (axis === 'X') {
    joint.emitterMfdXUm = mfd
    joint.waistXUm = waist
  } else {
    joint.emitterMfdYUm = mfd
    joint.waistYUm = waist
  }
}

/** Stiffness against moves that gain next to nothing, dB per um^2 and per mrad^2: a lens whose tilt steers no light is not tilted. */
const STIFFNESS = 1e-9
const STIFFNESSES = [STIFFNESS, STIFFNESS, 1e6 * STIFFNESS, 1e6 * STIFFNESS] as const

const system = new Float64Array(20)

/** What brings the free axes to the lowest loss, the others held, written to `move`: K u = -slope by elimination. Returns the gain, dB. */
export function bestMove(
  { curvatureDb, slopeDb }: PoseForm,
  free: readonly boolean[],
  move: Float64Array,
): number {
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++)
      system[5 * i + j] = free[i] && free[j] ? (curvatureDb[4 * i + j] ?? 0) : i === j ? 1 : 0
    if (free[i]) system[6 * i] = (system[6 * i] ?? 0) + (STIFFNESSES[i] ?? 0)
    system[5 * i + 4] = free[i] ? -(slopeDb[i] ?? 0) : 0
  }
  eliminateFour(system)
  let gain = 0
  for (let k = 0; k < 4; k++) {
    move[k] = solutionOfFour(system, k)
    gain -= (slopeDb[k] ?? 0) * (move[k] ?? 0)
  }
  return gain
}
