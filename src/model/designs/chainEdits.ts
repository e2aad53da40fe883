// Changes of a chain that keep guides and joins in turn.

import type { ChainElement } from '../schema/candidate'
import type { Requirements } from '../schema/requirements'
import { freeId } from '../words/freeName'
import {
  newGapElement,
  newRelayElement,
  newSpliceElement,
  newStubElement,
  newTaperChipElement,
} from './newElements'
import { heldByStation } from './stationTolerances'

/** A new element with its tolerances as the station holds its axes; as it comes where no requirements are given. */
function held<T extends ChainElement>(element: T, requirements: Requirements | undefined): T {
  if (requirements === undefined) return element
  return (heldByStation([element], requirements)[0] ?? element) as T
}

/** A stub spliced on behind the guide at place `at`. A lensed tip moves on to the stub's end. */
export function insertStub(chain: ChainElement[], at: number, fibreId: string): void {
  const before = chain[at]
  const stub = newStubElement(freeId('stub', chain), fibreId)
  if ((before?.kind === 'fibre' || before?.kind === 'stub') && before.tipId !== undefined) {
    stub.tipId = before.tipId
    before.tipId = undefined
  }
  chain.splice(at + 1, 0, newSpliceElement(freeId('splice', chain)), stub)
}

/** A taper chip behind the guide at place `at`, across a gap. */
export function insertTaperChip(
  chain: ChainElement[],
  at: number,
  converterId: string,
  mediumId: string,
  requirements?: Requirements,
): void {
  chain.splice(
    at + 1,
    0,
    held(newGapElement(freeId('gap', chain), mediumId), requirements),
    newTaperChipElement(freeId('taper-chip', chain), converterId),
  )
}

/** Takes a stub or taper chip out, with the join in front of it. Fibre and facet stay. */
export function removeGuide(chain: ChainElement[], at: number): void {
  const kind = chain[at]?.kind
  if (kind === 'stub' || kind === 'taper chip') chain.splice(at - 1, 2)
}

type FreeSpace = Extract<ChainElement, { kind: 'gap' | 'relay' }>

/** What a gap and a relay in its place have in common: offsets, tilts and end faces. */
function poseOf(joint: FreeSpace) {
  const { offsetX, offsetY, tiltX, tiltY, roll, nearFaceAngle, farFaceAngle, facePlane } = joint
  return { offsetX, offsetY, tiltX, tiltY, roll, nearFaceAngle, farFaceAngle, facePlane }
}

/** Puts two lenses in place of the gap at `at`; the offsets, tilts and faces of the gap stay. */
export function gapToRelay(
  chain: ChainElement[],
  at: number,
  mediumId: string,
  lens1Id: string,
  lens2Id: string,
  requirements?: Requirements,
): void {
  const gap = chain[at]
  if (gap?.kind !== 'gap') return
  chain[at] = {
    ...held(newRelayElement(gap.id, mediumId, lens1Id, lens2Id), requirements),
    ...poseOf(gap),
  }
}

/** Puts a plain gap in place of the relay at `at`. */
export function relayToGap(chain: ChainElement[], at: number, requirements?: Requirements): void {
  const relay = chain[at]
  if (relay?.kind !== 'relay') return
  chain[at] = {
    ...held(newGapElement(relay.id, relay.mediumId), requirements),
    ...poseOf(relay),
  }
}

/** Swaps the stub or taper chip at `at` with the next one towards the fibre (-1) or the chip (1); joins stay where they are. */
export function moveGuide(chain: ChainElement[], at: number, towards: -1 | 1): void {
  const [own, other] = [chain[at], chain[at + 2 * towards]]
  const moves = (each: ChainElement | undefined) => each?.kind === 'stub' || each?.kind === 'taper chip'
  if (own === undefined || other === undefined || !moves(own) || !moves(other)) return
  chain[at] = other
  chain[at + 2 * towards] = own
}
