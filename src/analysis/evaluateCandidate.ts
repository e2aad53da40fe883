// The budget of one candidate.

import { failure, type Result, success } from '../model/issue'
import { ProjectError } from '../model/parseProject'
import type { Project } from '../model/project'
import { InputError } from '../numerics/inputError'
import { type CompiledCandidate, compileCandidate } from './compileCandidate'
import type { Evaluation } from './evaluation'
import { rimContactNotes } from './rimContact'
import { worstTemperature } from './temperature/temperatureSweep'
import { rootSumSquare, worstCorner } from './tolerances'

/** Return loss at the fibre: what comes back from each join, weakened twice by the losses before it. */
function returnLossDb(compiled: CompiledCandidate): number | null {
  let before = 0
  let power = 0
  for (const join of compiled.joins) {
    const own = join.returnLossDb(compiled.nominal)
    if (own !== null) power += 10 ** (-(own + 2 * before) / 10)
    before += join.lossDb(compiled.nominal)
  }
  return power > 0 ? -10 * Math.log10(power) : null
}

/** The evaluation, or every reason why the candidate cannot be computed. */
export function tryEvaluate(project: Project, candidateId: string): Result<Evaluation> {
  try {
    const result = compileCandidate(project, candidateId)
    return result.ok ? success(evaluate(project, result.value)) : result
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    return failure({
      path: ['candidates'],
      code: 'range',
      message: `the core cannot compute this: ${error.message}`,
      fix: 'A number or its tolerance reaches beyond what the model covers.',
    })
  }
}

function evaluate(project: Project, compiled: CompiledCandidate): Evaluation {
  const v = compiled.nominal
  const lines = compiled.lines.map((line) => ({ ...line, lossDb: line.lossDb(v) }))
  const nominalDb = lines.reduce((sum, line) => sum + line.lossDb, 0)
  const joints = compiled.joins.flatMap((join) => (join.view === null ? [] : [join.view(v)]))
  return {
    candidateId: compiled.candidate.id,
    nominalDb,
    lines,
    worstCorner: worstCorner(compiled),
    rootSumSquare: rootSumSquare(compiled, nominalDb),
    returnLossDb: returnLossDb(compiled),
    temperature: worstTemperature(project, compiled),
    joints,
    relays: compiled.joins.flatMap((join) => (join.relay === undefined ? [] : [join.relay(v)])),
    validity: [
      ...compiled.notes,
      ...compiled.joins.flatMap((join) => join.notes(v)),
      ...rimContactNotes(project, compiled.candidate, joints),
    ],
  }
}

/**
 * The budget of a candidate: lines that add up to `nominalDb`, worst corner, root sum square, return loss.
 * @throws ProjectError that lists every reason why it cannot be computed
 */
export function evaluateCandidate(project: Project, candidateId: string): Evaluation {
  const result = tryEvaluate(project, candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  return result.value
}
