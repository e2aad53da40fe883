// The inverse job for one design: how wide its tolerances may be, and which part dimension is the optimum.

import { useDeferredValue, useMemo } from 'react'
import { compileCandidate } from '../../analysis/path/compileCandidate'
import { movedModels } from '../../analysis/path/movedModels'
import { issueText } from '../../model/issue'
import { useEvaluations } from '../../store/evaluations'
import { useDesign } from '../../store/selection'
import { useWithSolvedFields } from '../../store/solvedFields'
import { useWorkbench } from '../../store/workbench'
import { Pane, Split } from '../../ui/controls/Panes'
import { PANES_FIT, useMedia } from '../../ui/controls/useMedia'
import { NoDesign } from '../../ui/empty/NoDesign'
import { AllowanceTable } from './AllowanceTable'
import { SizePanel } from './SizePanel'
import './sizing.css'

export function SizingPage() {
  const project = useWorkbench((state) => state.project)
  const design = useDesign()
  const designId = design?.id ?? ''
  const sideBySide = useMedia(PANES_FIT)
  // Searches take longer than a frame; they follow when there is time.
  const settled = useDeferredValue(project)
  const withModes = useWithSolvedFields()
  const compiled = useMemo(
    () => compileCandidate(withModes(settled), designId),
    [settled, designId, withModes],
  )
  const models = compiled.ok ? movedModels(compiled.value) : []
  const evaluate = useEvaluations()
  const evaluation = evaluate(settled, designId)
  const ready = evaluation.ok && !evaluation.value.awaitsFit
  if (design === undefined) {
    return (
      <div className="page">
        <h1>Sizing</h1>
        <NoDesign shows="Part dimensions and tolerances that meet the loss limit." />
      </div>
    )
  }
  const allocation = (
    <Pane name="Tolerance allocation" headless>
      {compiled.ok ? (
        <AllowanceTable key={designId} project={settled} designId={designId} ready={ready} />
      ) : (
        <ul className="complaints">
          {compiled.issues.map((issue) => (
            <li key={issue.message}>{issueText(issue)}</li>
          ))}
        </ul>
      )}
    </Pane>
  )
  const dimension = (
    <Pane name="Part dimension" headless>
      {compiled.ok && (
        <SizePanel
          key={designId}
          project={settled}
          designId={designId}
          ready={ready}
          compiled={compiled.value}
        />
      )}
      {models.length > 0 && <p className="quiet">{models.join(' ')}</p>}
    </Pane>
  )
  const heading = <h1 className="visually-hidden">Sizing of {design.name}</h1>
  if (!sideBySide) {
    return (
      <div className="pane-stack sizing">
        {heading}
        {allocation}
        {dimension}
      </div>
    )
  }
  return (
    <div className="sizing">
      {heading}
      <Split
        across
        id="sizing"
        panes={[
          { id: 'allocation', name: 'tolerance allocation', view: allocation, size: '50%', least: '24rem' },
          { id: 'dimension', name: 'part dimension', view: dimension, least: '22rem' },
        ]}
      />
    </div>
  )
}
