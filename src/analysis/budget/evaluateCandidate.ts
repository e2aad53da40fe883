// The budget of one candidate.

import { failure, type Result, success } from '../../model/issue'
import { ProjectError } from '../../model/project/projectError'
import type { Project } from '../../model/schema/project'
import { InputError } from '../../numerics/inputError'
import { refusalText } from '../../numerics/refusalText'
import { NO_LIGHT_DB } from '../../optics/index'
import { clearanceFindings, clearanceNotes } from '../clearance/findings'
import { bandFinding } from '../light/band'
import { chainReflections, totalReturns } from '../light/chainReflections'
import { polarisationLoss } from '../light/polarisationLoss'
import { powerAlong } from '../light/power'
import { ripples } from '../light/ripples'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { portAt } from '../path/vector/ports'
import type { Evaluation, ValidityNote } from '../results/evaluation'
import { worstTemperature } from '../temperature/worstTemperature'
import { exactCorner } from '../tolerance/exactCorner'
import { exactSquares } from '../tolerance/exactSquares'
import { rootSumSquare, worstCorner } from '../tolerance/tolerances'
import { rimContactNotes } from './rimContact'

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
      message: `the design cannot be computed: ${refusalText(error)}`,
      fix: 'A value or its tolerance is outside the range of the model.',
    })
  }
}

/** Reported first, because every other number then means little. */
function noLightNotes(compiled: CompiledCandidate, nominalDb: number): readonly ValidityNote[] {
  if (nominalDb < NO_LIGHT_DB) return []
  const message = `No light reaches the waveguide: the loss is ${NO_LIGHT_DB} dB or more; higher losses are not distinguished.`
  return [{ elementId: compiled.candidate.chain.at(-1)?.id ?? '', message, caution: true }]
}

function evaluate(project: Project, compiled: CompiledCandidate): Evaluation {
  const v = compiled.nominal
  const reflections = chainReflections(compiled, v)
  const lines = compiled.lines.map((line) => ({ ...line, lossDb: line.lossDb(v) }))
  const nominalDb = lines.reduce((sum, line) => sum + line.lossDb, 0)
  const corner = exactCorner(compiled, worstCorner(compiled))
  const { squares, isProvisional } = exactSquares(compiled, rootSumSquare(compiled, nominalDb), nominalDb)
  const joints = compiled.joins.flatMap(({ view, relayFields }) => {
    if (view === null) return []
    const lenses = relayFields?.()
    return [lenses ? { ...view(v), lenses } : view(v)]
  })
  const evaluation = {
    candidateId: compiled.candidate.id,
    nominalDb,
    lines,
    worstCorner: corner,
    rootSumSquare: squares,
    returnLoss: totalReturns(reflections),
    reflections,
    ripples: ripples(compiled),
    band: bandFinding(project, compiled),
    polarisation: polarisationLoss(compiled, Float64Array.from(v)),
    power: powerAlong(project, compiled),
    temperature: worstTemperature(project, compiled, corner),
    guides: compiled.guides.map(({ elementId, model }) => ({
      elementId,
      entry: portAt(model.entry, v),
      exit: portAt(model.exit, v),
    })),
    joints,
    relays: compiled.joins.flatMap((join) => (join.relay === undefined ? [] : [join.relay(v)])),
    validity: [
      ...noLightNotes(compiled, nominalDb),
      ...clearanceNotes(clearanceFindings(project, compiled.candidate, { joints })),
      ...compiled.notes,
      ...compiled.joins.flatMap((join) => join.notes(v)),
      ...rimContactNotes(project, compiled.candidate, joints),
    ],
  }
  // Fits are requested by every quantity that moves.
  const awaitsFit =
    corner.isProvisional === true ||
    isProvisional ||
    compiled.joins.some((join) => join.awaitsFit?.() === true)
  return { ...evaluation, awaitsFit }
}

/**
 * The budget of a candidate: lines that add up to `nominalDb`, worst case, RSS, return loss.
 * @throws ProjectError that lists every reason why it cannot be computed
 */
export function evaluateCandidate(project: Project, candidateId: string): Evaluation {
  const result = tryEvaluate(project, candidateId)
  if (!result.ok) throw new ProjectError(result.issues)
  return result.value
}
