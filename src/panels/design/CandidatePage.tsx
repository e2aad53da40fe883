// One candidate in depth: verdicts, budget, tolerances, and the numbers of its gaps.

import { lazy, Suspense } from 'react'
import { checkRequirements } from '../../analysis/index'
import { jointNames } from '../../model/designs/jointNames'
import { issueText } from '../../model/issue'
import type { Candidate } from '../../model/schema/candidate'
import { useEvaluations } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../app/Cautions'
import { GapDrawing } from '../drawing/GapDrawing'
import { AddCandidate } from './AddCandidate'
import { BudgetTable } from './BudgetTable'
import { CandidateActions } from './CandidateActions'
import { CandidateList } from './CandidateList'
import { CautionList } from './CautionList'
import { Contributions } from './Contributions'
import { DepthTabs } from './DepthTabs'
import { GapFields } from './GapFields'
import { PointingNote } from './PointingNote'
import { VerdictList } from './VerdictList'
import { WorstCornerSettings } from './WorstCornerSettings'
import './candidate.css'

// What the first candidate on screen does not need comes a moment later.
const RelayDrawing = lazy(async () => ({ default: (await import('../drawing/RelayDrawing')).RelayDrawing }))
const BudgetSteps = lazy(async () => ({ default: (await import('./BudgetSteps')).BudgetSteps }))
const ChainFields = lazy(async () => ({ default: (await import('./ChainFields')).ChainFields }))
const UserLines = lazy(async () => ({ default: (await import('./UserLines')).UserLines }))
const CostFields = lazy(async () => ({ default: (await import('./CostFields')).CostFields }))
const RelayFields = lazy(async () => ({ default: (await import('./RelayFields')).RelayFields }))
const ModeAlongChain = lazy(async () => ({
  default: (await import('../drawing/ModeAlongChain')).ModeAlongChain,
}))
const BestSettingsTable = lazy(async () => ({
  default: (await import('./BestSettingsTable')).BestSettingsTable,
}))

/** A relay is long and has many numbers, two joints are seen side by side; one joint has its numbers beside it. */
function layoutOf({ chain }: Candidate): 'relay' | 'joints' | 'joint' {
  if (chain.some(({ kind }) => kind === 'relay')) return 'relay'
  return chain.filter(({ kind }) => kind === 'gap').length > 1 ? 'joints' : 'joint'
}

export function CandidatePage() {
  const project = useWorkbench((state) => state.project)
  const chosenId = useWorkbench((state) => state.candidateId)
  // Undo may have taken the chosen candidate away; the first one then stands in.
  const candidate = project.candidates.find((each) => each.id === chosenId) ?? project.candidates[0]
  const candidateId = candidate?.id ?? ''
  const result = useEvaluations()(project, candidateId)
  const run = useFreshRuns('yield', project).get(candidateId) ?? null
  const array = useFreshRuns('array', project).get(candidateId) ?? null
  const names = jointNames(candidate?.chain ?? [])
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
          <>
            <VerdictList verdicts={checkRequirements(project, result.value, run, array)} />
            <CautionList notes={result.value.validity} />
          </>
        ) : (
          <ul className="complaints">
            {result.issues.map((issue) => (
              <li key={issue.message}>{issueText(issue)}</li>
            ))}
          </ul>
        )}
        <div className="drawing-and-numbers" data-layout={layoutOf(candidate)}>
          <div className="joint-drawings">
            {result.ok &&
              result.value.joints.map((view) => (
                <GapDrawing
                  key={`${candidate.id} ${view.elementId}`}
                  project={project}
                  candidateId={candidate.id}
                  view={view}
                  name={names.get(view.elementId)}
                  reflections={result.value.reflections}
                />
              ))}
            {result.ok &&
              result.value.relays.map((view) => {
                const relay = candidate.chain.find((each) => each.id === view.elementId)
                return relay?.kind === 'relay' ? (
                  <Suspense key={`${candidate.id} ${relay.id}`} fallback={null}>
                    <RelayDrawing
                      relay={relay}
                      view={view}
                      candidateId={candidate.id}
                      name={names.get(relay.id)}
                      reflections={result.value.reflections}
                    />
                  </Suspense>
                ) : null
              })}
            {result.ok && (
              <Suspense fallback={null}>
                <BestSettingsTable project={project} candidateId={candidate.id} />
              </Suspense>
            )}
          </div>
          <div className="joint-numbers">
            {candidate.chain.map((element) => {
              if (element.kind === 'gap') {
                return (
                  <GapFields
                    key={`${candidate.id} ${element.id}`}
                    project={project}
                    gap={element}
                    last={element === candidate.chain.at(-2)}
                    candidateId={candidate.id}
                    name={names.get(element.id)}
                  />
                )
              }
              if (element.kind === 'relay') {
                return (
                  <Suspense key={`${candidate.id} ${element.id}`} fallback={null}>
                    <RelayFields relay={element} candidateId={candidate.id} name={names.get(element.id)} />
                  </Suspense>
                )
              }
              return null
            })}
            {result.ok &&
              result.value.joints.map((view) => (
                <PointingNote key={view.elementId} view={view} name={names.get(view.elementId)} />
              ))}
          </div>
        </div>
        {result.ok && (
          <>
            <div className="budget-and-tolerance">
              <div>
                <BudgetTable evaluation={result.value} run={run} />
                <Contributions evaluation={result.value} />
                <WorstCornerSettings evaluation={result.value} />
                <Suspense fallback={null}>
                  <BudgetSteps evaluation={result.value} />
                </Suspense>
              </div>
              <div>
                <DepthTabs project={project} candidate={candidate} evaluation={result.value} />
              </div>
            </div>
            <ul className="quiet validity">
              {result.value.validity
                .filter((note) => note.caution !== true)
                .map((note) => (
                  <li key={`${note.elementId} ${note.message}`}>{note.message}</li>
                ))}
            </ul>
          </>
        )}
        <Suspense fallback={null}>
          {result.ok && <ModeAlongChain project={project} candidate={candidate} evaluation={result.value} />}
          <ChainFields
            project={project}
            candidate={candidate}
            notes={result.ok ? result.value.validity : []}
          />
          <UserLines candidate={candidate} />
          <CostFields candidate={candidate} />
        </Suspense>
        <Cautions />
      </div>
    </div>
  )
}
