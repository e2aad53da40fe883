// Which model each element of a chain has: the guides, and what joins them.

import type { Path } from '../../model/issue'
import type { Candidate } from '../../model/schema/candidate'
import { gapJoin } from './gap/gapJoin'
import { spliceJoin } from './gap/spliceJoin'
import { typedJoin } from './gap/typedJoin'
import { facetGuide } from './guides/facetGuide'
import { fibreGuide } from './guides/fibreGuide'
import { lensedTip } from './guides/lensedTip'
import { taperChipGuide } from './guides/taperChipGuide'
import { relayJoin } from './relay/relayJoin'
import type { ChainContext, GuideModel, JoinModel, PortReaders } from './vector/elementModels'

/** The guide at that position of the chain; null where it is none. */
export function guideOf(
  context: ChainContext,
  candidate: Candidate,
  path: Path,
  at: number,
): GuideModel | null {
  const element = candidate.chain[at]
  switch (element?.kind) {
    case 'fibre':
    case 'stub': {
      const fibre = fibreGuide(context, element.fibreId, element.id)
      const join = candidate.chain[at + 1]
      if (element.tipId === undefined || (join?.kind !== 'gap' && join?.kind !== 'relay')) return fibre
      const tipJoin = { elementId: element.id, mediumId: join.mediumId, joinPath: [...path, at + 1] }
      const tip = lensedTip(context, { ...tipJoin, tipId: element.tipId }, fibre.exit)
      return {
        entry: fibre.entry,
        exit: tip.exit,
        lines: [...fibre.lines, ...tip.lines],
        notes: [...fibre.notes, ...tip.notes],
      }
    }
    case 'taper chip':
      return taperChipGuide(context, element.converterId, element.id)
    case 'facet':
      return facetGuide(context, element.facetId, element.id)
    default:
      return null
  }
}

function computedJoin(
  context: ChainContext,
  element: Candidate['chain'][number],
  path: Path,
  near: PortReaders,
  far: PortReaders,
): JoinModel | null {
  switch (element.kind) {
    case 'splice':
      return spliceJoin(context, element, path, near, far)
    case 'gap':
      return gapJoin(context, element, path, near, far)
    case 'relay':
      return relayJoin(context, element, path, near, far)
    default:
      return null
  }
}

/** The joint, as computed or with its entered value. */
export function joinOf(
  context: ChainContext,
  candidate: Candidate,
  path: Path,
  at: number,
  near: GuideModel,
  far: GuideModel,
): JoinModel | null {
  const element = candidate.chain[at]
  if (element === undefined) return null
  const join = computedJoin(context, element, [...path, at], near.exit, far.entry)
  if (join === null || element.kind === 'splice' || !('typedLoss' in element)) return join
  return element.typedLoss === undefined
    ? join
    : typedJoin(context, join, element.id, element.typedLoss, [...path, at, 'typedLoss'])
}
