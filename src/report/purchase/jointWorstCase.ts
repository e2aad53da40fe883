// The loss of one joint with all of its own numbers at the limits that add up worst.

import { compileCandidate } from '../../analysis/path/compileCandidate'
import type { Evaluation } from '../../analysis/results/evaluation'
import { worstCorner } from '../../analysis/tolerance/tolerances'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'

/** Loss of a joint by its lines in the budget, dB. */
export const jointDb = ({ lines }: Evaluation, elementId: string): number =>
  lines.filter((line) => line.elementId === elementId).reduce((sum, { lossDb }) => sum + lossDb, 0)

/** The same in the worst case of what the joint itself holds, all else at its nominal value, dB; null where the path is impossible. */
export function jointWorstCaseDb(
  project: Project,
  { id, chain }: Candidate,
  evaluation: Evaluation,
  elementId: string,
): number | null {
  const compiled = compileCandidate(project, id)
  if (!compiled.ok) return null
  const at = chain.findIndex((element) => element.id === elementId)
  const variables = compiled.value.variables.map((each) =>
    each.path[2] === 'chain' && each.path[3] === at
      ? each
      : { ...each, spread: { ...each.spread, halfWidth: 0 } },
  )
  // Pairs of moves are kept by the list of terms, and these are of other variables.
  const terms = [...compiled.value.terms]
  const { lossDb } = worstCorner({ ...compiled.value, variables, terms })
  return jointDb(evaluation, elementId) + lossDb - evaluation.nominalDb
}
