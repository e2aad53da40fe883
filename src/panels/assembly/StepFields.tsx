// One step: what it works on, what it sets or moves, what it checks, its duration and scrap; and its caution.

import { stepWord } from '../../analysis/assembly/stepWord'
import { jointOfStep } from '../../analysis/assembly/strippedDesign'
import { stepAxes } from '../../analysis/assembly/usualSequence'
import { jointWords } from '../../model/designs/jointNames'
import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { ALIGN_SIGNALS, ASSEMBLY_LIMITS, STEP_KINDS, STEP_LABELS } from '../../model/words/assembly'
import type { PoseAxis } from '../../model/words/candidate'
import { STEP_CAUTIONS } from '../../report/cautions'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { numberCommit } from '../../ui/fields/numberCommit'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { TextField } from '../../ui/fields/TextField'
import { editStep, stepIn } from './editAssembly'
import { ReworkFields } from './ReworkFields'

interface AxisSpec {
  readonly label: string
  readonly rule: RuleName
  readonly first: () => Quantity
}
const spread = (plusMinus: number) => ({ plusMinus, distribution: 'normal' }) as const
const AXES: Readonly<Record<PoseAxis, AxisSpec>> = {
  offsetX: { label: 'Offset x', rule: 'offset', first: () => quantityOf(0, 'um', 'estimate', spread(0.5)) },
  offsetY: { label: 'Offset y', rule: 'offset', first: () => quantityOf(0, 'um', 'estimate', spread(0.5)) },
  gap: { label: 'Gap', rule: 'gap', first: () => quantityOf(3, 'um', 'estimate', spread(1)) },
  tiltX: { label: 'Tilt x', rule: 'tilt', first: () => quantityOf(0, 'deg', 'estimate', spread(0.3)) },
  tiltY: { label: 'Tilt y', rule: 'tilt', first: () => quantityOf(0, 'deg', 'estimate', spread(0.3)) },
  roll: { label: 'Roll', rule: 'roll', first: () => quantityOf(0, 'deg', 'estimate', spread(0.5)) },
}
const MOVES = ['x', 'y', 'z'] as const
const SIGNALS = ALIGN_SIGNALS.map((value) => ({ value, label: value }))
const NUMBERS = [
  ['minutes', 'Time, minutes', ASSEMBLY_LIMITS.minutes],
  ['spoiledPercent', 'Handling scrap, %', ASSEMBLY_LIMITS.percent],
  ['scrapCost', 'Scrap cost', ASSEMBLY_LIMITS.amount],
] as const

export function StepFields({
  project,
  candidate,
  sequence,
  step,
}: {
  readonly project: Pick<Project, 'media'>
  readonly candidate: Candidate
  readonly sequence: AssemblySequence
  readonly step: AssemblyStep
}) {
  const edit = (recipe: (own: AssemblyStep) => void) => editStep(candidate.id, sequence, step.id, recipe)
  const find = (draft: Project) => stepIn(draft, candidate.id, sequence, step.id)
  const joints = candidate.chain.filter(({ kind }) => kind === 'gap' || kind === 'relay')
  const joint = jointOfStep(candidate, step)
  const word = stepWord(project, candidate, step)
  const kinds = STEP_KINDS.map((kind) => ({
    value: kind,
    label: STEP_LABELS[stepWord(project, candidate, { ...step, kind })].toLowerCase(),
  }))
  const sets = step.kind === 'place' || step.kind === 'align'
  const moves = step.kind === 'dispense' || step.kind === 'cure'
  return (
    <fieldset className="step-fields">
      <legend className="visually-hidden">{step.name}</legend>
      <div className="step-row step-what">
        <TextField
          label="Step"
          text={step.name}
          onCommit={(name) =>
            edit((own) => {
              own.name = name
            })
          }
        />
        <ChoiceField
          label="Kind"
          value={step.kind}
          choices={kinds}
          onChoose={(value) =>
            edit((own) => {
              own.kind = STEP_KINDS.find((kind) => kind === value) ?? own.kind
            })
          }
        />
        {joints.length > 1 && (sets || moves) && (
          <ChoiceField
            label="Joint"
            value={joint?.id ?? ''}
            choices={joints.map(({ id }) => ({ value: id, label: jointWords(candidate.chain, id) }))}
            onChoose={(value) =>
              edit((own) => {
                own.elementId = value
              })
            }
          />
        )}
        {step.kind === 'align' && (
          <ChoiceField
            label="Aligned on"
            value={step.signal ?? 'transmitted power'}
            choices={SIGNALS}
            onChoose={(value) =>
              edit((own) => {
                own.signal = ALIGN_SIGNALS.find((signal) => signal === value) ?? 'transmitted power'
              })
            }
          />
        )}
      </div>
      <div className="step-row">
        {NUMBERS.map(([field, label, range]) => (
          <TextField
            key={field}
            numeric
            label={label}
            text={String(step[field])}
            onCommit={numberCommit(label, range, false, (value) =>
              edit((own) => {
                own[field] = value
              }),
            )}
          />
        ))}
      </div>
      <div className="step-quantities">
        {sets &&
          joint !== undefined &&
          stepAxes(joint).map((axis) => (
            <OptionalQuantity
              key={axis}
              label={AXES[axis].label}
              field={axis}
              rule={AXES[axis].rule}
              quantity={step.sets?.[axis]}
              first={AXES[axis].first}
              find={(draft) => {
                const own = find(draft)
                if (own === undefined) return undefined
                own.sets ??= {}
                return own.sets
              }}
              words={['Set', 'Do not set']}
            />
          ))}
        {moves &&
          MOVES.map((axis) => (
            <OptionalQuantity
              key={axis}
              label={`Shift ${axis}`}
              field={axis}
              rule="offset"
              quantity={step.moves?.[axis]}
              first={() => quantityOf(0, 'um', 'estimate', spread(0.3))}
              find={(draft) => {
                const own = find(draft)
                if (own === undefined) return undefined
                own.moves ??= {}
                return own.moves
              }}
            />
          ))}
        {step.kind === 'check' && (
          <>
            <ReworkFields sequence={sequence} step={step} edit={edit} />
            <OptionalQuantity
              label="Rejection limit"
              field="limit"
              rule="loss"
              quantity={step.limit}
              first={() => quantityOf(2, 'dB', 'estimate')}
              find={find}
            />
            <OptionalQuantity
              label="Standard uncertainty of the reading"
              field="uncertainty"
              rule="loss"
              quantity={step.uncertainty}
              first={() => quantityOf(0.1, 'dB', 'estimate')}
              find={find}
            />
          </>
        )}
      </div>
      <p className="caution-note" role="note">
        {STEP_CAUTIONS[word]}
      </p>
    </fieldset>
  )
}
