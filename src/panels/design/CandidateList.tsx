// All candidates with their nominal loss; the chosen one is shown in depth.

import { useMemo } from 'react'
import type { Project } from '../../model/schema/project'
import { useEvaluations } from '../../store/evaluations'
import { useWorkbench } from '../../store/workbench'
import { AddCandidate } from './AddCandidate'
import { lossText } from './numbers'

export function CandidateList({
  project,
  candidateId,
}: {
  readonly project: Project
  readonly candidateId: string
}) {
  const selectCandidate = useWorkbench((state) => state.selectCandidate)
  const evaluate = useEvaluations()
  const losses = useMemo(
    () =>
      project.candidates.map(({ id }) => {
        const result = evaluate(project, id)
        return result.ok ? `${lossText(result.value.nominalDb)} dB` : 'not computed'
      }),
    [project, evaluate],
  )
  return (
    <nav className="candidate-list" aria-label="Candidates">
      {project.candidates.map(({ id, name }, at) => (
        <button
          key={id}
          type="button"
          className="candidate-choice"
          aria-current={id === candidateId ? 'true' : undefined}
          onClick={() => selectCandidate(id)}
        >
          <span>{name}</span>
          <span className="number">{losses[at]}</span>
        </button>
      ))}
      <AddCandidate project={project} />
    </nav>
  )
}
