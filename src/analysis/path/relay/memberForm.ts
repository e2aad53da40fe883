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
import { fillCurvatureDb, type GaussianJoint, type RayMatrix } from '../../../optics/index'
import type { Mutable } from '../faces/faceNumbers'
import { alignedLossDb } from '../gap/alignPose'
import type { PoseForm } from '../vector/models'
import { effectiveStretchUm, type RelayGeometry, type RelayLens, spacings } from './relayGeometry'

/** `lossDb` is what the joint loses as it is, without cap. */
interface MemberForm extends PoseForm {
  lossDb: number
}

export const emptyForm = (): MemberForm => ({
  curvatureDb: new Float64Array(16),
  slopeDb: new Float64Array(4),
  lossDb: 0,
})

/** The form of a member's offsets and tilts about where it is: offset x, y, then tilt x, y, um and rad. */
export function memberForm(g: RelayGeometry, member: RelayMember): MemberForm {
  const form = emptyForm()
  fillMemberForm(g, member, form)
  return form
}

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

/** The same, written to `form`. */
export function fillMemberForm(g: RelayGeometry, member: RelayMember, form: MemberForm): void {
  const { lens1, lens2 } = g
  const { frontGapUm, stretchUm, backGapUm } = spacings(g)
  const first = lens1.matrix
  const last = lens2.matrix
  const pathUm = effectiveStretchUm(g, stretchUm)
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
  for (const plane of [0, 1] as const) {
    const of = (x: number, y: number) => (plane === 0 ? x : y)
    const height = of(g.offsetXUm, g.offsetYUm)
    const slope = of(g.tiltXRad, g.tiltYRad)
    const o1 = of(lens1.offsetXUm, lens1.offsetYUm)
    const t1 = of(lens1.tiltXRad, lens1.tiltYRad)
    const o2 = of(lens2.offsetXUm, lens2.offsetYUm)
    const t2 = of(lens2.tiltXRad, lens2.tiltYRad)
    const h1 = added(lens1, o1, t1, 0)
    const s1 = added(lens1, o1, t1, 1)
    ray[plane] = a * height + b * slope + ta * h1 + tb * s1 + added(lens2, o2, t2, 0)
    ray[plane + 2] = c * height + d * slope + tc * h1 + td * s1 + added(lens2, o2, t2, 1)
  }
  for (const [out, offsetUm, tiltRad] of [
    [perOffset, 1, 0],
    [perTilt, 0, 1],
  ] as const) {
    if (member === 'guide') {
      out[0] = a * offsetUm + b * tiltRad
      out[1] = c * offsetUm + d * tiltRad
    } else {
      const lens = member === 'lens1' ? lens1 : lens2
      const up = added(lens, offsetUm, tiltRad, 0)
      const out1 = added(lens, offsetUm, tiltRad, 1)
      out[0] = member === 'lens1' ? ta * up + tb * out1 : up
      out[1] = member === 'lens1' ? tc * up + td * out1 : out1
    }
  }
  joint.wavelengthUm = g.wavelengthUm
  joint.index = g.mediumIndex
  joint.receiverMfdXUm = g.receiverMfdXUm
  joint.receiverMfdYUm = g.receiverMfdYUm
  joint.gapUm = backGapUm
  joint.rollRad = g.rollRad
  const whole = { a, b, c, d }
  fillImage('X', whole, g.emitterMfdXUm, g.waistXUm)
  fillImage('Y', whole, g.emitterMfdYUm, g.waistYUm)
  fillCurvatureDb(joint, h)
  const { curvatureDb, slopeDb } = form
  for (let i = 0; i < 4; i++) {
    const own = i < 2 ? perOffset : perTilt
    let slope = 0
    for (let j = 0; j < 4; j++) slope += throughRow(own, i % 2, j) * (ray[j] ?? 0)
    slopeDb[i] = slope
    for (let j = 0; j < 4; j++) {
      const other = j < 2 ? perOffset : perTilt
      curvatureDb[4 * i + j] =
        throughRow(own, i % 2, j % 2) * (other[0] ?? 0) +
        throughRow(own, i % 2, (j % 2) + 2) * (other[1] ?? 0)
    }
  }
  let excess = 0
  for (let i = 0; i < 4; i++)
    for (let j = 0; j < 4; j++) excess += (ray[i] ?? 0) * (h[4 * i + j] ?? 0) * (ray[j] ?? 0)
  form.lossDb = alignedLossDb(joint) + excess
}

/** Entry j of g' H, for what a unit adds in one plane. */
function throughRow(per: Float64Array, plane: number, j: number): number {
  return (per[0] ?? 0) * (h[4 * plane + j] ?? 0) + (per[1] ?? 0) * (h[4 * (plane + 2) + j] ?? 0)
}

/** The image of the emitter's mode in one plane, as transformBeam has it for equal media. */
function fillImage(axis: 'X' | 'Y', { a, b, c, d }: RayMatrix, mfdUm: number, waistUm: number): void {
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
