// Active alignment of one member of a relay, the fibre side or a lens: it moves to the optimum of this assembly, with
// everything else at its position at that time. Axially first, each distance judged with the other axes at their best; then in tilt; offsets
// last, as stations do: they compensate the residuals of the others. Offsets and tilts have a closed form (memberForm.ts); the
// axial place is the dip next to where the search starts, with the aberration of the lenses.
// What apertures clip is ignored in the search.

import type { RelayMember } from '../../../model/words/candidate'
import { minimiseBrent } from '../../../numerics/minimise'
import { valleyFrom } from '../../../numerics/valley'
import type { Mutable } from '../faces/faceNumbers'
import { bestMove, emptyForm, fillMemberForm, fillMemberLoss } from './memberForm'
import { axialTravelUm, type MemberPose, placeAlong, poseOf } from './memberPose'
import { type RelayGeometry, type RelayRecord, relayRecordOf, spacings } from './relayGeometry'

/** What a station aligns: axes by their names in the element. */
export type AlignedAxes = ReadonlySet<string>

/** Aberration of the lenses at a geometry, dB; null where there is none. */
export type AberrationOf = ((g: RelayGeometry, frontUm: number, backUm: number) => number) | null

export interface Alignment {
  readonly member: RelayMember
  readonly axes: AlignedAxes
  /** Whether offset x, y and tilt x, y are aligned. */
  readonly free: readonly boolean[]
  /** Where the member is along the light until it is aligned, and how far from there its search along the light starts. */
  enteredAxialUm: number
  searchFromUm: number
  /** What the search leaves; its axial entry is measured from the optimum. */
  readonly residual: Mutable<MemberPose>
}

const AXIAL_TOLERANCE = 1e-5
/** First step of the axial search, in Rayleigh ranges of the guide on that side. */
const FIRST_STEP = 0.5

const ownForm = emptyForm()
const ownMove = new Float64Array(4)

/** A member's alignment in these axes, to be filled for every assembly. */
export const alignmentIn = (member: RelayMember, axes: AlignedAxes): Alignment => ({
  member,
  axes,
  free: (['offsetX', 'offsetY', 'tiltX', 'tiltY'] as const).map((axis) => axes.has(axis)),
  enteredAxialUm: 0,
  searchFromUm: 0,
  residual: { offsetXUm: 0, offsetYUm: 0, axialUm: 0, tiltXRad: 0, tiltYRad: 0 },
})

/** Puts the member where its search starts: aligned axes at their design place, the others as placed. */
export function beforeAlignment(g: RelayRecord, { member, axes, free, enteredAxialUm }: Alignment): void {
  const part = member === 'guide' ? g : g[member]
  if (free[0]) part.offsetXUm = 0
  if (free[1]) part.offsetYUm = 0
  if (free[2]) part.tiltXRad = 0
  if (free[3]) part.tiltYRad = 0
  if (axes.has('offsetZ')) placeAlong(g, member, enteredAxialUm)
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
  const form = emptyForm()
  const move = new Float64Array(4)
  const searches = free.includes(true)
  // One geometry for all trials: a search asks thousands of times for an array's samples.
  const there = relayRecordOf(g)
  const lossAt = (um: number) => {
    placeAlong(there, member, pose.axialUm + um)
    fillMemberLoss(there, member, form)
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

/** The best move of the member within `which` axes, and what the search leaves in `left` of those. */
function settle(
  g: RelayRecord,
  { member, free, residual }: Alignment,
  which: readonly boolean[],
  left: 'tilts' | 'offsets',
): void {
  fillMemberForm(g, member, ownForm)
  bestMove(ownForm, which, ownMove)
  const part = member === 'guide' ? g : g[member]
  const leaves = (i: number, of: typeof left, value: number) =>
    (ownMove[i] ?? 0) + (free[i] && left === of ? value : 0)
  part.offsetXUm += leaves(0, 'offsets', residual.offsetXUm)
  part.offsetYUm += leaves(1, 'offsets', residual.offsetYUm)
  part.tiltXRad += leaves(2, 'tilts', residual.tiltXRad)
  part.tiltYRad += leaves(3, 'tilts', residual.tiltYRad)
}

/** Aligns the member: its aligned axes at their optimum plus the residual, the others as placed. */
export function alignMember(g: RelayRecord, how: Alignment, aberration: AberrationOf): void {
  const { member, axes, free, residual } = how
  if (axes.size === 0) return
  const { rollRad } = g
  // The principal axes of both modes coincide at the best roll.
  if (axes.has('roll')) g.rollRad = 0
  beforeAlignment(g, how)
  if (axes.has('offsetZ')) {
    const moveUm = axialMoveUm(g, member, how.searchFromUm, free, aberration)
    placeAlong(g, member, poseOf(g, member).axialUm + moveUm + residual.axialUm)
  }
  if (free[2] || free[3]) settle(g, how, free, 'tilts')
  if (free[0] || free[1]) settle(g, how, [free[0] ?? false, free[1] ?? false, false, false], 'offsets')
  g.rollRad = rollRad
}
