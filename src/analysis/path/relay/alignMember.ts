// Active alignment of one member of a relay, the fibre side or a lens: it goes to where this very assembly couples most, everything
// else where it is then. Axially first, each distance judged with the other axes at their best; then in tilt; offsets last, as
// stations do: they make up for what the search left in the others. Offsets and tilts have a closed form (memberForm.ts); the
// axial place is the dip next to where the search starts, with the aberration of the lenses.
// What apertures clip plays no part in the search.

import type { RelayMember } from '../../../model/words/candidate'
import { minimiseBrent } from '../../../numerics/minimise'
import { valleyFrom } from '../../../numerics/valley'
import type { Mutable } from '../faces/faceNumbers'
import { bestMove, fillMemberForm, memberForm } from './memberForm'
import { axialTravelUm, type MemberPose, poseOf, withPose } from './memberPose'
import { type RelayGeometry, spacings } from './relayOptics'

/** What a station aligns: axes by their names in the element. */
export type AlignedAxes = ReadonlySet<string>

/** Aberration of the lenses at a geometry, dB; null where there is none. */
export type AberrationOf = ((g: RelayGeometry, frontUm: number, backUm: number) => number) | null

interface AlignMember {
  readonly member: RelayMember
  readonly axes: AlignedAxes
  /** Where the member is along the light until it is aligned, and how far from there its search along the light starts. */
  readonly enteredAxialUm: number
  readonly searchFromUm: number
  /** What the search leaves; its axial entry counts from the optimum. */
  readonly residual: MemberPose
}

const AXIAL_TOLERANCE = 1e-5
/** First step of the axial search, in Rayleigh ranges of the guide on that side. */
const FIRST_STEP = 0.5

const freeOf = (axes: AlignedAxes) =>
  (['offsetX', 'offsetY', 'tiltX', 'tiltY'] as const).map((axis) => axes.has(axis))

/** The member where its search starts: aligned axes at their design place, the others as placed. */
export function beforeAlignment(
  g: RelayGeometry,
  { member, axes, enteredAxialUm }: AlignMember,
): RelayGeometry {
  const now = poseOf(g, member)
  return withPose(g, member, {
    offsetXUm: axes.has('offsetX') ? 0 : now.offsetXUm,
    offsetYUm: axes.has('offsetY') ? 0 : now.offsetYUm,
    axialUm: axes.has('offsetZ') ? enteredAxialUm : now.axialUm,
    tiltXRad: axes.has('tiltX') ? 0 : now.tiltXRad,
    tiltYRad: axes.has('tiltY') ? 0 : now.tiltYRad,
  })
}

/** Rayleigh range of the narrower mode on the member's side, um. */
function rayleighUm(g: RelayGeometry, member: RelayMember): number {
  const mfdUm =
    member === 'lens2'
      ? Math.min(g.receiverMfdXUm, g.receiverMfdYUm)
      : Math.min(g.emitterMfdXUm, g.emitterMfdYUm)
  return (Math.PI * g.mediumIndex * mfdUm * mfdUm) / (4 * g.wavelengthUm)
}

/** How far along the light the member goes from where it is, um. */
function axialMoveUm(
  g: RelayGeometry,
  member: RelayMember,
  fromUm: number,
  free: readonly boolean[],
  aberration: AberrationOf,
): number {
  const pose = poseOf(g, member)
  const form = memberForm(g, member)
  const move = new Float64Array(4)
  const searches = free.includes(true)
  // One geometry for all trials: a search asks thousands of times for an array's samples.
  const there: Mutable<RelayGeometry> = { ...g }
  const lens: Mutable<RelayGeometry['lens1']> | null = member === 'guide' ? null : { ...g[member] }
  if (member !== 'guide' && lens !== null) there[member] = lens
  const lossAt = (um: number) => {
    if (lens === null) there.frontGapUm = -(pose.axialUm + um)
    else lens.offsetZUm = pose.axialUm + um
    fillMemberForm(there, member, form)
    const lossDb = searches ? form.lossDb - bestMove(form, free, move) : form.lossDb
    if (aberration === null) return lossDb
    const { frontGapUm, backGapUm } = spacings(there)
    return lossDb + aberration(there, frontGapUm, backGapUm)
  }
  const rangeUm = rayleighUm(g, member)
  // A core without a mode has no width, and no best place.
  if (!Number.isFinite(rangeUm) || !Number.isFinite(lossAt(fromUm))) return 0
  const [back, forward] = axialTravelUm(g, member)
  const start = Math.min(forward, Math.max(back, fromUm))
  const [from, to] = valleyFrom(lossAt, start, FIRST_STEP * rangeUm, back, forward)
  const found = minimiseBrent(lossAt, from, to, { tolerance: AXIAL_TOLERANCE })
  // Where nothing inside is lower, contact with the neighbour.
  const border = from === back ? from : to === forward ? to : null
  return border !== null && lossAt(border) < found.value ? border : found.x
}

/** The relay with the member aligned: its aligned axes at their optimum plus the residual, the others as placed. */
export function alignMember(
  placed: RelayGeometry,
  how: AlignMember,
  aberration: AberrationOf,
): RelayGeometry {
  const { member, axes, residual } = how
  if (axes.size === 0) return placed
  // The principal axes of both modes coincide at the best roll.
  let g = beforeAlignment(axes.has('roll') ? { ...placed, rollRad: 0 } : placed, how)
  const free = freeOf(axes)
  if (axes.has('offsetZ')) {
    const pose = poseOf(g, member)
    const moveUm = axialMoveUm(g, member, how.searchFromUm, free, aberration)
    g = withPose(g, member, { ...pose, axialUm: pose.axialUm + moveUm + residual.axialUm })
  }
  const move = new Float64Array(4)
  const settle = (which: readonly boolean[], left: readonly number[]) => {
    bestMove(memberForm(g, member), which, move)
    const by = (i: number) => (move[i] ?? 0) + (free[i] ? (left[i] ?? 0) : 0)
    const pose = poseOf(g, member)
    g = withPose(g, member, {
      ...pose,
      offsetXUm: pose.offsetXUm + by(0),
      offsetYUm: pose.offsetYUm + by(1),
      tiltXRad: pose.tiltXRad + by(2),
      tiltYRad: pose.tiltYRad + by(3),
    })
  }
  if (free[2] || free[3]) settle(free, [0, 0, residual.tiltXRad, residual.tiltYRad])
  if (free[0] || free[1]) {
    settle([free[0] ?? false, free[1] ?? false, false, false], [residual.offsetXUm, residual.offsetYUm, 0, 0])
  }
  return { ...g, rollRad: placed.rollRad }
}
