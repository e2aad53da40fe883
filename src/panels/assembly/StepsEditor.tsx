// The steps in their order, and the one that is chosen in full.

import { useState } from 'react'
import { stepWord } from '../../analysis/assembly/stepWord'
import type { AssemblySequence, AssemblyStep } from '../../model/schema/build/assembly'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { ASSEMBLY_LIMITS, STEP_LABELS, type StepWord } from '../../model/words/assembly'
import { freeId } from '../../model/words/freeName'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'
import { editSequence, removeSequence } from './editAssembly'
import { StepFields } from './StepFields'

/** Whether a name begins with the kind of its step. */
const saysKind = (name: string, kind: StepWord) =>
  name.toLowerCase().startsWith(STEP_LABELS[kind].toLowerCase().split(' ')[0] ?? '')

export function StepsEditor({
  project,
  candidate,
  sequence,
}: {
  readonly project: Pick<Project, 'media'>
  readonly candidate: Candidate
  readonly sequence: AssemblySequence
}) {
  const [chosen, setChosen] = useState('')
  const { steps } = sequence
  const at = Math.max(
    0,
    steps.findIndex(({ id }) => id === chosen),
  )
  const step = steps[at]
  const edit = (recipe: (own: AssemblySequence) => void) => editSequence(candidate.id, sequence, recipe)
  const move = (by: 1 | -1) =>
    edit((own) => {
      const [moved] = own.steps.splice(at, 1)
      if (moved !== undefined) own.steps.splice(at + by, 0, moved)
    })
  const add = () => {
    const id = freeId('step', steps)
    edit((own) => {
      const added: AssemblyStep = {
        id,
        name: `Step ${own.steps.length + 1}`,
        kind: 'place',
        minutes: 1,
        scrapCost: 0,
        spoiledPercent: 0,
      }
      own.steps.splice(at + 1, 0, added)
    })
    setChosen(id)
  }
  return (
    <div className="assembly-steps">
      <div>
        <p className="quiet">
          {candidate.assembly === undefined
            ? 'Typical sequence, derived from the tolerances of the design. Editing it makes it the planned sequence of this design.'
            : 'Planned for this design; its steps replace the tolerances of the joints in this run.'}
        </p>
        <ol className="step-list" aria-label="Steps">
          {steps.map((each) => {
            const { id, name } = each
            const word = stepWord(project, candidate, each)
            return (
              <li key={id}>
                <button
                  type="button"
                  className="subtle"
                  aria-pressed={id === step?.id}
                  onClick={() => setChosen(id)}
                >
                  {name}{' '}
                  {!saysKind(name, word) && <span className="quiet">{STEP_LABELS[word].toLowerCase()}</span>}
                </button>
              </li>
            )
          })}
        </ol>
        <p className="step-actions">
          <button type="button" onClick={add} disabled={steps.length >= ASSEMBLY_LIMITS.steps}>
            Add step
          </button>
          <button type="button" className="subtle" disabled={at === 0} onClick={() => move(-1)}>
            Move up
          </button>
          <button type="button" className="subtle" disabled={at === steps.length - 1} onClick={() => move(1)}>
            Move down
          </button>
          <button
            type="button"
            className="subtle"
            disabled={steps.length === 1}
            onClick={() => edit((own) => void own.steps.splice(at, 1))}
          >
            Delete step
          </button>
        </p>
        <div className="cost-per-hour">
          <TextField
            numeric
            label="Station and operator, cost per hour"
            text={String(sequence.costPerHour)}
            onCommit={numberCommit('Cost per hour', ASSEMBLY_LIMITS.amount, false, (value) =>
              edit((own) => {
                own.costPerHour = value
              }),
            )}
          />
        </div>
        {candidate.assembly !== undefined && (
          <button type="button" className="subtle" onClick={() => removeSequence(candidate.id)}>
            Restore typical sequence
          </button>
        )}
      </div>
      {step !== undefined && (
        <StepFields project={project} key={step.id} candidate={candidate} sequence={sequence} step={step} />
      )}
    </div>
  )
}
