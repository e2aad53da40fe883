// The inverse job for one candidate: how wide its tolerances may be, which size of a part is best, and what to order.

import { useDeferredValue, useMemo } from 'react'
import { compileCandidate } from '../../analysis/path/compileCandidate'
import { issueText } from '../../model/issue'
import { useDesign } from '../../store/selection'
import { useWithSolvedFields } from '../../store/solvedFields'
import { selectDesign } from '../../store/view'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { NoDesign } from '../../ui/controls/NoDesign'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { AllowanceTable } from './AllowanceTable'
import { OrderListView } from './OrderListView'
import { SizePanel } from './SizePanel'
import './sizing.css'

export function SizingPage() {
  const project = useWorkbench((state) => state.project)
  const candidate = useDesign()
  const candidateId = candidate?.id ?? ''
  // Searches take longer than a frame; they follow when there is time.
  const settled = useDeferredValue(project)
  const withModes = useWithSolvedFields()
  const compiled = useMemo(
    () => compileCandidate(withModes(settled), candidateId),
    [settled, candidateId, withModes],
  )
  if (candidate === undefined) {
    return (
      <div className="page">
        <h1>Sizing and order</h1>
        <NoDesign />
      </div>
    )
  }
  return (
    <div className="page sizing-page">
      <h1>Sizing and order</h1>
      <div className="axis-choices screen-only">
        <ChoiceField
          label="Candidate"
          value={candidateId}
          choices={project.candidates.map(({ id, name }) => ({ value: id, label: name }))}
          onChoose={selectDesign}
        />
      </div>
      {compiled.ok ? (
        <div className="sizing-pair">
          <AllowanceTable key={`allowance ${candidateId}`} project={settled} compiled={compiled.value} />
          <SizePanel key={`size ${candidateId}`} project={settled} compiled={compiled.value} />
        </div>
      ) : (
        <ul className="complaints">
          {compiled.issues.map((issue) => (
            <li key={issue.message}>{issueText(issue)}</li>
          ))}
        </ul>
      )}
      <OrderListView project={project} candidateId={candidateId} />
      <Cautions />
    </div>
  )
}
