// The design that steps work on: with everything they set at its mean, and tolerances that reach as far as they move it.

import { setCoreHalfWidth } from '../../model/quantity/coreQuantity'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import { spreadOf } from '../../model/quantity/spread'
import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import type { Candidate, GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { POSE_AXES, type PoseAxis } from '../../model/words/candidate'

export const POSE_RULES: Readonly<Record<PoseAxis, RuleName>> = {
  offsetX: 'offset',
  offsetY: 'offset',
  gap: 'gap',
  tiltX: 'tilt',
  tiltY: 'tilt',
  roll: 'roll',
}
export const MOVES = ['x', 'y', 'z'] as const
const FULL_DIGITS = 12

export type Joint = GapElement | RelayElement
const isJoint = (element: Candidate['chain'][number] | undefined): element is Joint =>
  element?.kind === 'gap' || element?.kind === 'relay'

/** The joint that a step works on. */
export function jointOfStep({ chain }: Candidate, { elementId }: AssemblyStep): Joint | undefined {
  const named = chain.find(({ id }) => id === elementId)
  return isJoint(named) ? named : chain.findLast(isJoint)
}

const bare = (value: Quantity): Quantity => ({ value: value.value, unit: value.unit, provenance: 'computed' })
const still = (): Quantity => ({ value: 0, unit: 'um', provenance: 'computed' })

/** The mean with a tolerance of the half width, in the core's unit: as `like` is distributed, or uniform. */
function reaching(mean: Quantity, halfWidth: number, rule: RuleName, like?: Quantity): Quantity {
  const own = bare(mean)
  if (like?.tolerance !== undefined) own.tolerance = { ...like.tolerance, share: undefined }
  if (halfWidth > 0) setCoreHalfWidth(own, rule, halfWidth, FULL_DIGITS)
  return own
}

/** How far a quantity is from `mean` at most, in the core's unit. */
const furthest = (quantity: Quantity, mean: number, rule: RuleName): number =>
  Math.abs(coreValue(quantity, rule) - mean) + spreadOf(quantity, rule).halfWidth

/**
 * The mean with a tolerance that reaches all that steps set there, so that joints by their fields are fitted as far. A single step about
 * the same mean keeps its own, whose fit is then that of the design.
 */
function setAround(mean: Quantity, set: readonly Quantity[], rule: RuleName): Quantity {
  const core = coreValue(mean, rule)
  const [only] = set
  const isSame = set.length === 1 && only !== undefined && coreValue(only, rule) === core
  return reaching(
    mean,
    Math.max(...set.map((each) => furthest(each, core, rule))),
    rule,
    isSame ? only : undefined,
  )
}

/** No movement, with a tolerance that reaches all movements together. */
const movedBy = (moves: readonly Quantity[]): Quantity =>
  reaching(
    still(),
    moves.reduce((sum, each) => sum + furthest(each, 0, 'offset'), 0),
    'offset',
  )

/** The degrees of freedom that a step sets. */
export const axesOfStep = (step: AssemblyStep): readonly PoseAxis[] =>
  step.kind === 'place' || step.kind === 'align'
    ? POSE_AXES.filter((axis) => step.sets?.[axis] !== undefined)
    : []

/**
 * The new design, aligned as the sequence aligns, without drift. What a step samples is at its mean, with a tolerance that reaches what
 * steps do, but which `assembledPart` does not sample.
 */
export function strippedDesign(project: Project, candidate: Candidate, { steps }: AssemblySequence): Project {
  const chain = candidate.chain.map((element) => {
    if (!isJoint(element)) return element
    const own = steps.filter((step) => jointOfStep(candidate, step)?.id === element.id)
    const aligned = POSE_AXES.filter((axis) =>
      own.some((step) => step.kind === 'align' && step.sets?.[axis] !== undefined),
    )
    const axes = POSE_AXES.filter((axis) => own.some((step) => axesOfStep(step).includes(axis)))
    const moved = own.some((step) => step.moves !== undefined)
    const values = Object.fromEntries(
      axes.flatMap((axis) => {
        const value = (element as Partial<Record<PoseAxis, Quantity>>)[axis]
        const set = own.flatMap((step) => step.sets?.[axis] ?? [])
        return value === undefined ? [] : [[axis, setAround(value, set, POSE_RULES[axis])]]
      }),
    )
    const shift = (axis: (typeof MOVES)[number]) => movedBy(own.flatMap((step) => step.moves?.[axis] ?? []))
    return {
      ...element,
      ...values,
      ...(axes.length > 0 && { aligned }),
      ...((moved || element.bondShift !== undefined) && {
        bondShift: { x: shift('x'), y: shift('y'), z: shift('z') },
      }),
    } as Joint
  })
  const own = { ...candidate, chain, lifetime: undefined }
  return {
    ...project,
    candidates: project.candidates.map((each) => (each.id === candidate.id ? own : each)),
  }
}

/** Paths, from the design on, of everything that steps set or move. */
export function stepPaths(candidate: Candidate, { steps }: AssemblySequence): ReadonlySet<string> {
  return new Set(
    steps.flatMap((step) => {
      const joint = jointOfStep(candidate, step)
      if (joint === undefined) return []
      const path = `chain/${candidate.chain.indexOf(joint)}`
      return [
        ...axesOfStep(step).map((axis) => `${path}/${axis}`),
        ...MOVES.map((axis) => `${path}/bondShift/${axis}`),
      ]
    }),
  )
}
