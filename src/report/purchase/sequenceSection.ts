// The assembly sequence on paper: the steps in their order with what each sets, moves and checks, and its caution.

import { stepWord } from '../../analysis/assembly/stepWord'
import { jointOfStep } from '../../analysis/assembly/strippedDesign'
import { sequenceOf } from '../../analysis/assembly/usualSequence'
import { jointWords } from '../../model/designs/jointNames'
import type { Quantity } from '../../model/quantity/quantity'
import { toleranceText, valueText } from '../../model/quantity/quantityWords'
import type { AssemblyStep } from '../../model/schema/build/assembly'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { STEP_LABELS, type StepWord } from '../../model/words/assembly'
import { POSE_AXES, type PoseAxis } from '../../model/words/candidate'
import { plainText } from '../../numerics/numberText'
import { STEP_CAUTIONS } from '../cautions'
import { list, type Section, table, text } from '../document/blocks'

const AXES: Readonly<Record<PoseAxis, string>> = {
  offsetX: 'offset x',
  offsetY: 'offset y',
  gap: 'gap',
  tiltX: 'tilt x',
  tiltY: 'tilt y',
  roll: 'roll',
}

const stated = (quantity: Quantity) => `${valueText(quantity)} ${toleranceText(quantity)}`.trim()

/** `; then repeat from step 2, at most 2 times`; empty where a rejected assembly is scrapped. */
function reworkText({ rework }: AssemblyStep, steps: readonly AssemblyStep[]): string {
  const from = steps.findIndex(({ id }) => id === rework?.fromId)
  if (rework === undefined || from < 0) return ''
  return `; repeat from step ${from + 1}, at most ${rework.repeats === 1 ? 'once' : `${rework.repeats} times`}`
}

/** What a step sets, moves or checks, in words. */
function stepText(step: AssemblyStep, steps: readonly AssemblyStep[]): string {
  const sets = POSE_AXES.flatMap((axis) => {
    const value = step.sets?.[axis]
    return value === undefined ? [] : [`${AXES[axis]} ${stated(value)}`]
  })
  const moves = (['x', 'y', 'z'] as const).flatMap((axis) => {
    const value = step.moves?.[axis]
    return value === undefined ? [] : [`shift ${axis} ${stated(value)}`]
  })
  switch (step.kind) {
    case 'place':
      return sets.join('; ')
    case 'align':
      return `on ${step.signal ?? 'transmitted power'}; residual ${sets.join('; ')}`
    case 'dispense':
    case 'cure':
      return moves.join('; ')
    case 'check':
      return step.limit === undefined
        ? 'record the loss'
        : `reject above ${valueText(step.limit)}${step.uncertainty === undefined ? '' : `, standard uncertainty ${valueText(step.uncertainty)}`}${reworkText(step, steps)}`
  }
}

export function sequenceSection(project: Project, candidate: Candidate): Section {
  const { steps } = sequenceOf(project, candidate)
  const words = steps.map((step) => stepWord(project, candidate, step))
  const kinds = new Map<StepWord, number[]>()
  for (const [at, word] of words.entries()) kinds.set(word, [...(kinds.get(word) ?? []), at + 1])
  const joint = (step: AssemblyStep) => {
    const found = jointOfStep(candidate, step)
    return found === undefined || step.kind === 'check' ? '' : jointWords(candidate.chain, found.id)
  }
  return {
    id: 'assembly-sequence',
    title: 'Assembly sequence',
    remark: '',
    blocks: [
      text(
        candidate.assembly === undefined
          ? 'Typical sequence, derived from the tolerances of the design; none is planned for it yet.'
          : 'As planned for this design.',
      ),
      ...(candidate.chain.some(({ kind }) => kind === 'splice')
        ? [text('Splices are made before these steps.')]
        : []),
      table(
        'Steps',
        ['Step', 'Kind', 'Joint', 'Set, moved or checked', 'Time, min', 'Handling scrap, %'],
        steps.map((step, at) => [
          `${at + 1}. ${step.name}`,
          STEP_LABELS[words[at] ?? step.kind],
          joint(step),
          stepText(step, steps),
          plainText(step.minutes),
          plainText(step.spoiledPercent),
        ]),
      ),
      list(
        [...kinds].map(
          ([kind, numbers]) =>
            `${STEP_LABELS[kind]} (${numbers.length === 1 ? 'step' : 'steps'} ${numbers.join(', ')}): ${STEP_CAUTIONS[kind]}`,
        ),
      ),
    ],
  }
}
