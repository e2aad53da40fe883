// Each design that was not selected, and why, in one line.

import { leadingLoss } from '../../model/project/lossCriteria'
import type { SheetCandidate } from '../candidates'
import { lossCell } from '../document/cells'
import type { SheetContext } from '../sheet'

export interface Alternative {
  readonly designId: string
  readonly name: string
  /** Null where the design cannot be evaluated. */
  readonly nominalDb: number | null
  /** The leading percentile of one channel; null where its run is missing. */
  readonly percentileDb: number | null
  readonly reason: string
}

/** The first of the requirements with that verdict, and how many more; its value where it is known. */
function firstOf({ verdicts }: SheetCandidate, status: 'not met' | 'not known'): string | null {
  const found = verdicts.filter((each) => each.wish !== true && each.status === status)
  const [first] = found
  if (first === undefined) return null
  const value = status === 'not met' && first.value !== undefined ? ` (${first.value})` : ''
  return `${first.label}${value}${found.length > 1 ? `, and ${found.length - 1} more` : ''}`
}

function reasonOf(other: SheetCandidate, chosen: SheetCandidate): string {
  const missed = firstOf(other, 'not met')
  const open = firstOf(other, 'not known')
  if (missed !== null) return `not met: ${missed}`
  if (open !== null) return `not evaluated: ${open}`
  const more = other.evaluation.nominalDb - chosen.evaluation.nominalDb
  return `meets every requirement; nominal ${lossCell(Math.abs(more)).text} dB ${more < 0 ? 'lower' : 'higher'}`
}

/** In the order of the project; designs that cannot be evaluated come last. */
export function alternatives(
  { project, candidates, refused }: Pick<SheetContext, 'project' | 'candidates' | 'refused'>,
  chosen: SheetCandidate,
): readonly Alternative[] {
  const share = leadingLoss(project.requirements).percentile / 100
  return [
    ...candidates
      .filter(({ id }) => id !== chosen.id)
      .map((other) => ({
        designId: other.id,
        name: other.name,
        nominalDb: other.evaluation.nominalDb,
        percentileDb:
          other.yield?.percentiles.find((each) => Math.abs(each.share - share) < 1e-9)?.lossDb ?? null,
        reason: reasonOf(other, chosen),
      })),
    ...refused.map(({ id, name, issues }) => ({
      designId: id,
      name,
      nominalDb: null,
      percentileDb: null,
      reason: `cannot be evaluated: ${issues.map(({ message }) => message).join('; ')}`,
    })),
  ]
}
