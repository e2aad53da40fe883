// The sequence that the tolerances of a design already describe: every joint placed, with the component of its collimated section,
// aligned, bonded, and the loss checked at the end. Adhesive between the faces changes index and position, so an aligned joint is
// aligned again in it before it is cured.

import { jointWords } from '../../model/designs/jointNames'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import type { Candidate, GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { StepKind } from '../../model/words/assembly'
import { POSE_AXES, type PoseAxis } from '../../model/words/candidate'
import { isRow } from '../array/arrayDefaults'

/** Minutes, shares and amounts of each step (common practice, no source). */
const USUAL = {
  place: { minutes: 3, scrapCost: 50, spoiledPercent: 1 },
  insert: { minutes: 3, scrapCost: 100, spoiledPercent: 0.5 },
  align: { minutes: 4, scrapCost: 50, spoiledPercent: 0.5 },
  dispense: { minutes: 1, scrapCost: 100, spoiledPercent: 0.5 },
  cure: { minutes: 5, scrapCost: 100, spoiledPercent: 0.5 },
  check: { minutes: 2, scrapCost: 100, spoiledPercent: 0 },
} as const
const USUAL_COST_PER_HOUR = 100

type Joint = GapElement | RelayElement

const isJoint = (element: Candidate['chain'][number]): element is Joint =>
  element.kind === 'gap' || element.kind === 'relay'

/** The degrees of freedom that the joint has of those a step may set. */
export function stepAxes(joint: Joint): readonly PoseAxis[] {
  return joint.kind === 'gap' ? POSE_AXES : POSE_AXES.filter((axis) => axis !== 'gap')
}

function valueAt(joint: Joint, axis: PoseAxis): Quantity | undefined {
  return axis === 'gap' ? (joint.kind === 'gap' ? joint.gap : undefined) : joint[axis]
}

const plain = ({ value, unit, provenance, tolerance }: Quantity): Quantity => ({
  value,
  unit,
  provenance,
  ...(tolerance && { tolerance }),
})

function setsOf(joint: Joint, axes: readonly PoseAxis[]): AssemblyStep['sets'] {
  return Object.fromEntries(
    axes.flatMap((axis) => {
      const value = valueAt(joint, axis)
      return value === undefined ? [] : [[axis, plain(value)]]
    }),
  )
}

function jointSteps(project: Project, candidate: Candidate, joint: Joint): readonly AssemblyStep[] {
  const between = jointWords(candidate.chain, joint.id)
  const words = joint.kind === 'relay' ? `relay, ${between}` : between
  const aligned = stepAxes(joint).filter((axis) => joint.aligned?.some((each) => each === axis))
  const placed = stepAxes(joint).filter((axis) => !aligned.includes(axis))
  const bonded = project.media.some(({ id, state }) => id === joint.mediumId && state === 'adhesive')
  const step = (kind: StepKind, name: string, more: Partial<AssemblyStep> = {}): AssemblyStep => ({
    id: `${joint.id}-${kind}`.slice(0, 80),
    name: `${name}: ${words}`.slice(0, 200),
    kind,
    elementId: joint.id,
    ...USUAL[kind],
    ...more,
  })
  const align = (name: string, more: Partial<AssemblyStep> = {}) =>
    step('align', name, {
      signal: isRow(project, candidate) ? 'power at both outer channels' : 'transmitted power',
      sets: setsOf(joint, aligned),
      ...more,
    })
  const device = joint.kind === 'relay' ? joint.device : undefined
  const { bondShift } = joint
  const moves = bondShift && { x: plain(bondShift.x), y: plain(bondShift.y), z: plain(bondShift.z) }
  return [
    step('place', 'Place', { sets: setsOf(joint, placed) }),
    ...(device === undefined
      ? []
      : [
          step('place', `Insert ${device.name}`, {
            id: `${joint.id}-insert`.slice(0, 80),
            ...USUAL.insert,
          }),
        ]),
    ...(aligned.length === 0 ? [] : [align('Align')]),
    ...(bonded ? [step('dispense', 'Dispense')] : []),
    ...(bonded && aligned.length > 0 ? [align('Realign', { id: `${joint.id}-realign`.slice(0, 80) })] : []),
    ...(bonded || moves !== undefined
      ? [step('cure', bonded ? 'Cure' : 'Fix', moves === undefined ? {} : { moves })]
      : []),
  ]
}

/** A fresh copy. */
export function usualSequence(project: Project, candidate: Candidate): AssemblySequence {
  return {
    steps: [
      ...candidate.chain.filter(isJoint).flatMap((joint) => jointSteps(project, candidate, joint)),
      {
        id: 'final-check',
        name: 'Check insertion loss',
        kind: 'check',
        ...USUAL.check,
        limit: quantityOf(leadingLimitDb(project.requirements), 'dB', 'computed'),
      },
    ],
    costPerHour: USUAL_COST_PER_HOUR,
  }
}

/** The planned sequence, or the typical one where none is planned. */
export function sequenceOf(project: Project, candidate: Candidate): AssemblySequence {
  return candidate.assembly ?? usualSequence(project, candidate)
}
