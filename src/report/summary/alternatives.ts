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

const labels = ({ verdicts }: SheetCandidate, status: string): readonly string[] =>
  verdicts
    .filter((each) => each.wish !== true && each.status === status)
    .map(({ label, value }) => (value === undefined ? label : `${label} (${value})`))

function reasonOf(other: SheetCandidate, chosen: SheetCandidate): string {
  const more = other.evaluation.nominalDb - chosen.evaluation.nominalDb
  const nominal = `nominal ${lossCell(Math.abs(more)).text} dB ${more < 0 ? 'lower' : 'higher'}`
  const missed = labels(other, 'not met')
  const open = labels(other, 'not known')
  if (missed.length > 0) return `not met: ${missed.join('; ')}`
  if (open.length > 0) return `not evaluated: ${open.join('; ')}; ${nominal}`
  return `meets every requirement; ${nominal}`
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
