// One candidate in depth: verdicts, budget, tolerances, and the numbers of its gaps.

import { lazy, Suspense } from 'react'
import { checkRequirements } from '../../analysis/index'
import { evaluationOf } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../app/Cautions'
import { GapDrawing } from '../drawing/GapDrawing'
import { AddCandidate } from './AddCandidate'
import { BudgetSteps } from './BudgetSteps'
import { BudgetTable } from './BudgetTable'
import { CandidateActions } from './CandidateActions'
import { CandidateList } from './CandidateList'
import { Contributions } from './Contributions'
import { CostFields } from './CostFields'
import { DepthTabs } from './DepthTabs'
import { GapFields } from './GapFields'
import { PointingNote } from './PointingNote'
import { UserLines } from './UserLines'
import { VerdictList } from './VerdictList'
import { WorstCornerSettings } from './WorstCornerSettings'
import './candidate.css'

// What the first candidate on screen does not need comes a moment later.
const RelayDrawing = lazy(async () => ({ default: (await import('../drawing/RelayDrawing')).RelayDrawing }))
const ChainFields = lazy(async () => ({ default: (await import('./ChainFields')).ChainFields }))
const RelayFields = lazy(async () => ({ default: (await import('./RelayFields')).RelayFields }))
const BestSettingsTable = lazy(async () => ({
  default: (await import('./BestSettingsTable')).BestSettingsTable,
}))

export function CandidatePage() {
  const project = useWorkbench((state) => state.project)
  const chosenId = useWorkbench((state) => state.candidateId)
  // Undo may have taken the chosen candidate away; the first one then stands in.
  const candidate = project.candidates.find((each) => each.id === chosenId) ?? project.candidates[0]
  const candidateId = candidate?.id ?? ''
  const result = evaluationOf(project, candidateId)
  const fresh = useFreshRuns('yield', project)
  if (candidate === undefined) {
    return (
      <div className="page">
        <h1>No candidate yet</h1>
        <p>A candidate is one complete interface from fibre to waveguide.</p>
        <AddCandidate project={project} />
      </div>
    )
  }
  return (
    <div className="workbench">
      <CandidateList project={project} candidateId={candidateId} />
      <div className="page">
        <div className="candidate-head">
          <h1>{candidate.name}</h1>
          <CandidateActions project={project} candidate={candidate} />
        </div>
        {result.ok ? (
          <VerdictList verdicts={checkRequirements(project, result.value, fresh.get(candidate.id) ?? null)} />
        ) : (
          <ul className="complaints">
            {result.issues.map((issue) => (
              <li key={issue.message}>{issue.message}</li>
            ))}
          </ul>
        )}
        <div className="drawing-and-numbers">
          <div>
            {result.ok &&
              result.value.joints.map((view) => (
                <GapDrawing key={view.elementId} project={project} candidateId={candidate.id} view={view} />
              ))}
            {result.ok &&
              result.value.relays.map((view) => {
                const relay = candidate.chain.find((each) => each.id === view.elementId)
                return relay?.kind === 'relay' ? (
                  <Suspense key={relay.id} fallback={null}>
                    <RelayDrawing relay={relay} view={view} candidateId={candidate.id} />
                  </Suspense>
                ) : null
              })}
            {result.ok && (
              <Suspense fallback={null}>
                <BestSettingsTable project={project} candidateId={candidate.id} />
              </Suspense>
            )}
          </div>
          <div>
            {candidate.chain.map((element) => {
              if (element.kind === 'gap') {
                return <GapFields key={element.id} gap={element} candidateId={candidate.id} />
              }
              if (element.kind === 'relay') {
                return (
                  <Suspense key={element.id} fallback={null}>
                    <RelayFields relay={element} candidateId={candidate.id} />
                  </Suspense>
                )
              }
              return null
            })}
            {result.ok &&
              result.value.joints.map((view) => <PointingNote key={view.elementId} view={view} />)}
          </div>
        </div>
        {result.ok && (
          <>
            <div className="budget-and-tolerance">
              <div>
                <BudgetTable evaluation={result.value} />
                <Contributions evaluation={result.value} />
                <WorstCornerSettings evaluation={result.value} />
                <BudgetSteps evaluation={result.value} />
              </div>
              <div>
                <DepthTabs project={project} candidate={candidate} evaluation={result.value} />
              </div>
            </div>
            <ul className="quiet">
              {result.value.validity.map((note) => (
                <li key={`${note.elementId} ${note.message}`}>{note.message}</li>
              ))}
            </ul>
          </>
        )}
        <Suspense fallback={null}>
          <ChainFields project={project} candidate={candidate} />
        </Suspense>
        <UserLines candidate={candidate} />
        <CostFields candidate={candidate} />
        <Cautions />
      </div>
    </div>
  )
}
