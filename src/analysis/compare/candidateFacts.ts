// Numbers of joints, steps and part types of a candidate, for the comparison and the order list.

import { partOf } from '../../model/parts/partEdits'
import { elementReferences } from '../../model/project/references'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'

export interface CandidateFacts {
  readonly splices: number
  /** Joints other than splices: gaps and relays. */
  readonly joints: number
  /** A gap is aligned once, a relay at lens 1, lens 2 and the far end. Common practice, no source. */
  readonly alignmentSteps: number
  /** Kinds of parts that must be procured, without the chip itself. */
  readonly partsToBuy: readonly string[]
  readonly media: readonly string[]
  /** Joints whose loss is an entered value. */
  readonly typedJoints: number
}

const JOINTS = { gap: 1, relay: 1 } as const
const STEPS = { gap: 1, relay: 3 } as const

function sum(candidate: Candidate, weights: Readonly<Record<'gap' | 'relay', number>>): number {
  return candidate.chain.reduce(
    (total, { kind }) => total + (kind === 'gap' || kind === 'relay' ? weights[kind] : 0),
    0,
  )
}

/** Names without repetition, along the path. */
function names(project: Project, candidate: Candidate, wanted: (list: string) => boolean): readonly string[] {
  const found = candidate.chain.flatMap((element) =>
    elementReferences(element)
      .filter(({ list }) => wanted(list))
      .flatMap(({ list, partId }) => partOf(project, { list, id: partId })?.name ?? []),
  )
  return [...new Set(found)]
}

export function candidateFacts(project: Project, candidate: Candidate): CandidateFacts {
  const devices = candidate.chain.flatMap((element) =>
    element.kind === 'relay' && element.device !== undefined ? [element.device.name] : [],
  )
  return {
    splices: candidate.chain.filter(({ kind }) => kind === 'splice').length,
    joints: sum(candidate, JOINTS),
    alignmentSteps: sum(candidate, STEPS),
    partsToBuy: [
      ...names(project, candidate, (list) => list !== 'facets' && list !== 'media'),
      ...devices,
      ...names(project, candidate, (list) => list === 'media').filter((name) =>
        project.media.some((medium) => medium.name === name && medium.state !== 'gas'),
      ),
    ],
    media: names(project, candidate, (list) => list === 'media'),
    typedJoints: candidate.chain.filter(
      (each) => (each.kind === 'gap' || each.kind === 'relay') && each.typedLoss !== undefined,
    ).length,
  }
}
