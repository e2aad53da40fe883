// The requirements in one line: where the chosen candidate stands while a requirement or a part is edited.

import { checkRequirements } from '../../analysis/index'
import { useEvaluations } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useWorkbench } from '../../store/workbench'

export function RequirementLine() {
  const project = useWorkbench((state) => state.project)
  const chosenId = useWorkbench((state) => state.candidateId)
  const candidate = project.candidates.find((each) => each.id === chosenId) ?? project.candidates[0]
  const evaluate = useEvaluations()
  const yields = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  if (candidate === undefined) return null
  const result = evaluate(project, candidate.id)
  return (
    <p className="requirement-line">
      <span className="quiet">{candidate.name}</span>
      {result.ok ? (
        checkRequirements(
          project,
          result.value,
          yields.get(candidate.id) ?? null,
          arrays.get(candidate.id) ?? null,
        ).map((verdict) => (
          <span key={verdict.id} data-status={verdict.status}>
            {verdict.label} <strong>{verdict.status}</strong>
          </span>
        ))
      ) : (
        <span className="complaint">cannot be computed; its page says why</span>
      )}
    </p>
  )
}
