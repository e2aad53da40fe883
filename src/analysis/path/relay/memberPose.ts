// Where a member of a relay is: the fibre side against the axis, or one of the lenses against its place.

import type { RelayMember } from '../../../model/words/candidate'
import type { AlignmentMove } from '../vector/elementModels'
import type { RelayGeometry, RelayRecord } from './relayGeometry'

/** um and rad; `axialUm` is along the light: of the fibre side from where it would touch lens 1, of a lens its shift. */
export type MemberPose = AlignmentMove

export function poseOf(g: RelayGeometry, member: RelayMember): MemberPose {
  const { offsetXUm, offsetYUm, tiltXRad, tiltYRad } = member === 'guide' ? g : g[member]
  const axialUm = member === 'guide' ? -g.frontGapUm : g[member].offsetZUm
  return { offsetXUm, offsetYUm, axialUm, tiltXRad, tiltYRad }
}

/** Puts the member of `to` where that of `from` is. */
export function takePose(to: RelayRecord, from: RelayGeometry, member: RelayMember): void {
  const [part, source] = member === 'guide' ? [to, from] : [to[member], from[member]]
  part.offsetXUm = source.offsetXUm
  part.offsetYUm = source.offsetYUm
  part.tiltXRad = source.tiltXRad
  part.tiltYRad = source.tiltYRad
  if (member === 'guide') to.frontGapUm = from.frontGapUm
  else to[member].offsetZUm = from[member].offsetZUm
}

/** Puts the member at a place along the light, as MemberPose has it. */
export function placeAlong(g: RelayRecord, member: RelayMember, axialUm: number): void {
  if (member === 'guide') g.frontGapUm = -axialUm
  else g[member].offsetZUm = axialUm
}

/** How far the member can go along the light from where it is before it meets its neighbours, um. */
export function axialTravelUm(
  g: RelayGeometry,
  member: RelayMember,
): readonly [back: number, forward: number] {
  const frontUm = g.frontGapUm + g.lens1.offsetZUm
  const stretchUm = g.stretchUm - g.lens1.offsetZUm + g.lens2.offsetZUm - g.deviceLengthUm
  const backUm = g.backGapUm - g.lens2.offsetZUm - g.leastBackUm
  const far = 1e6
  if (member === 'guide') return [-far, Math.max(0, frontUm)]
  return member === 'lens1'
    ? [Math.min(0, -frontUm), Math.max(0, stretchUm)]
    : [Math.min(0, -stretchUm), Math.max(0, backUm)]
}
