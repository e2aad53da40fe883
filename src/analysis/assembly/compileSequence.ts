// A sequence compiled for many assemblies: what each step writes to the vector of values, and which random coordinates it uses.

import { failure, type Issue, type Result, success } from '../../model/issue'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import { spreadOf } from '../../model/quantity/spread'
import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import type { Project } from '../../model/schema/project'
import type { PoseAxis } from '../../model/words/candidate'
import { type DeviateEach, deviateEach } from '../tolerance/deviation'
import { type AssembledPart, assembledPart } from './assembledPart'
import {
  axesOfStep,
  type Joint,
  jointOfStep,
  MOVES,
  POSE_RULES,
  stepPaths,
  strippedDesign,
} from './strippedDesign'

/** One number that a step sets or adds to. */
export interface Write {
  readonly slot: number
  readonly value: number
  /** Null where nothing is sampled. */
  readonly deviate: DeviateEach | null
  /** Coordinate of the point that it is sampled from. */
  readonly coordinate: number
  /** Index of the movement that an alignment compensates; -1 for none. */
  readonly clears: number
}

export interface CompiledStep {
  readonly step: AssemblyStep
  readonly sets: readonly Write[]
  readonly moves: readonly Write[]
  readonly spoiled: number
  readonly spoiledCoordinate: number
  /** Null where the step checks nothing. */
  readonly limitDb: number | null
  readonly uncertaintyDb: number
  readonly uncertaintyCoordinate: number
  /** Step to which a rejected assembly returns; null where it is scrapped at once. */
  readonly rework: CompiledRework | null
}

interface CompiledRework {
  /** Place of the step that is repeated first. */
  readonly from: number
  readonly repeats: number
  /** Places of the movements that are undone with the steps that are repeated. */
  readonly clears: readonly number[]
}

export interface CompiledSequence {
  readonly sequence: AssemblySequence
  readonly part: AssembledPart
  readonly steps: readonly CompiledStep[]
  /** Places of movements, which every assembly begins without. */
  readonly moveSlots: readonly number[]
  /** Coordinates of a point: first those of the parts, then those of the steps. */
  readonly dimensions: number
}

/** The movement that an alignment of the axis compensates. */
const CLEARED: Readonly<Partial<Record<PoseAxis, 'x' | 'y' | 'z'>>> = {
  offsetX: 'x',
  offsetY: 'y',
  gap: 'z',
}

/** Place of the step that the check at `at` sends rejected assemblies back to; null where it sends none, or the step is not before it. */
function reworkStep({ steps }: AssemblySequence, at: number): number | null {
  const { kind, rework } = steps[at] ?? {}
  const from = steps.findIndex(({ id }) => id === rework?.fromId)
  return kind === 'check' && rework !== undefined && from >= 0 && from < at ? from : null
}

/** Factors by which a step is improved: of its spreads and of its handling scrap; 1 leaves it unchanged. */
export type StepFactor = (at: number) => number

/** The sequence of a design, or every reason why it cannot be computed. */
export function compileSequence(
  project: Project,
  candidateId: string,
  sequence: AssemblySequence,
  factorOf: StepFactor = () => 1,
): Result<CompiledSequence> {
  const candidate = project.candidates.find(({ id }) => id === candidateId)
  if (candidate === undefined) {
    const issue: Issue = {
      path: ['candidates'],
      code: 'reference',
      message: `design is "${candidateId}", which is not in the project`,
    }
    return failure(issue)
  }
  const ofSteps = stepPaths(candidate, sequence)
  const result = assembledPart(strippedDesign(project, candidate, sequence), candidateId, sequence, (path) =>
    ofSteps.has(path.slice(2).join('/')),
  )
  if (!result.ok) return result
  const part = result.value
  const { variables } = part.compiled
  const slotOf = (joint: Joint, ...field: readonly string[]) => {
    const at = candidate.chain.indexOf(joint)
    return variables.findIndex(
      ({ path }) => path[2] === 'chain' && path[3] === at && path.slice(4).join('.') === field.join('.'),
    )
  }
  let next = part.dimensions
  const moveSlots = new Set<number>()
  const steps = sequence.steps.map((step, at): CompiledStep => {
    const factor = factorOf(at)
    const joint = jointOfStep(candidate, step)
    const write = (quantity: Quantity, rule: RuleName, slot: number, clears: number): readonly Write[] => {
      if (slot < 0) return []
      const spread = spreadOf(quantity, rule)
      const narrowed = { ...spread, halfWidth: spread.halfWidth * factor }
      const deviate = narrowed.halfWidth === 0 ? null : deviateEach(narrowed)
      const coordinate = spread.halfWidth === 0 ? -1 : next++
      return [{ slot, value: coreValue(quantity, rule), deviate, coordinate, clears }]
    }
    const sets = axesOfStep(step).flatMap((axis) => {
      const quantity = step.sets?.[axis]
      if (quantity === undefined || joint === undefined) return []
      const cleared = step.kind === 'align' ? CLEARED[axis] : undefined
      const clears = cleared === undefined ? -1 : slotOf(joint, 'bondShift', cleared)
      return write(quantity, POSE_RULES[axis], slotOf(joint, axis), clears)
    })
    const moves = MOVES.flatMap((axis) => {
      const quantity = step.moves?.[axis]
      if (quantity === undefined || joint === undefined) return []
      return write(quantity, 'offset', slotOf(joint, 'bondShift', axis), -1)
    })
    for (const { slot } of moves) moveSlots.add(slot)
    const uncertainty = step.uncertainty === undefined ? 0 : coreValue(step.uncertainty, 'loss')
    return {
      step,
      sets,
      moves,
      spoiled: (step.spoiledPercent / 100) * factor,
      spoiledCoordinate: step.spoiledPercent > 0 ? next++ : -1,
      limitDb: step.kind === 'check' && step.limit !== undefined ? coreValue(step.limit, 'loss') : null,
      uncertaintyDb: uncertainty * factor,
      uncertaintyCoordinate: uncertainty > 0 ? next++ : -1,
      rework: null,
    }
  })
  const withRework = steps.map((step, at): CompiledStep => {
    const from = reworkStep(sequence, at)
    if (from === null || step.limitDb === null) return step
    const clears = steps.slice(from, at).flatMap(({ moves }) => moves.map(({ slot }) => slot))
    return { ...step, rework: { from, repeats: step.step.rework?.repeats ?? 0, clears } }
  })
  return success({
    sequence,
    part,
    steps: withRework,
    moveSlots: [...moveSlots],
    dimensions: Math.max(1, next),
  })
}
