// What the design predicts, as long as nothing measured is compared with it.

import { useMemo } from 'react'
import { pathStops } from '../../../figures/path/pathStops'
import { issueText } from '../../../model/issue'
import { lossText } from '../../../model/quantity/lossText'
import type { Project } from '../../../model/schema/project'
import { useEvaluations } from '../../../store/evaluations'
import { FactTable } from '../../../ui/figures/FactTable'
import { PathThumbnail } from '../../../ui/figures/PathThumbnail'

export function Predicted({
  project,
  candidateId,
}: {
  readonly project: Project
  readonly candidateId: string
}) {
  const result = useEvaluations()(project, candidateId)
  const design = project.candidates.find(({ id }) => id === candidateId)
  const stops = useMemo(
    () => (design === undefined || !result.ok ? [] : pathStops(project, design, result.value)),
    [project, design, result],
  )
  if (design === undefined) return null
  if (!result.ok) {
    return (
      <ul className="complaints">
        {result.issues.map((issue) => (
          <li key={issue.message}>{issueText(issue)}</li>
        ))}
      </ul>
    )
  }
  const { nominalDb, rootSumSquare, worstCorner } = result.value
  return (
    <div className="predicted">
      <PathThumbnail stops={stops} label={`Mode along the path: ${design.name}`} />
      <FactTable
        caption={`Predicted loss of ${design.name}`}
        rows={[
          ['Nominal', `${lossText(nominalDb)} dB`],
          ['RSS', `${lossText(rootSumSquare.lossDb)} dB`],
          ['Worst case', `${lossText(worstCorner.lossDb)} dB`],
        ]}
      />
      <p className="quiet">
        Enter a measured loss, or choose an offset scan or a loopback result of this project as the measured
        loss.
      </p>
    </div>
  )
}
