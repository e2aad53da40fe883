// How the design is assembled: run through its steps, yield, cost per good part, where scrap occurs; and the steps themselves.

import { useMemo } from 'react'
import { assemblySamples } from '../../analysis/assembly/assemblyEffort'
import type { AssemblyResult } from '../../analysis/assembly/assemblyResult'
import { sequenceOf } from '../../analysis/assembly/usualSequence'
import { assemblyScrapFigure } from '../../figures/build/assemblyScrap'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { cancelRun, inputsOf, startAssembly, useRun } from '../../store/runs'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { RunLine } from '../../ui/jobs/RunLine'
import { StaleFrame } from '../../ui/jobs/StaleFrame'
import { stalenessOf } from '../../ui/jobs/staleness'
import { AssemblyNumbers, CostTable, ImprovementTable } from './AssemblyNumbers'
import { StepsEditor } from './StepsEditor'
import './assembly.css'

/** Views, sentence, reading and tools around the chart. */
const AROUND_PX = 200

function ScrapPlot({ result, heightPx }: { readonly result: AssemblyResult; readonly heightPx: number }) {
  const figure = useMemo(() => assemblyScrapFigure(result), [result])
  return <FigureView figure={figure} heightPx={heightPx} />
}

export function AssemblyPanel({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const run = useRun('assembly', candidate.id)
  const result = run.finished?.result
  const staleness = stalenessOf(run, inputsOf(project, candidate.id, 'assembly'))
  const [room, roomPx] = useRoom()
  const sequence = useMemo(() => sequenceOf(project, candidate), [project, candidate])
  const steps: ViewChoice = {
    id: 'steps',
    label: 'Steps',
    view: () => <StepsEditor project={project} candidate={candidate} sequence={sequence} />,
  }
  const results: readonly ViewChoice[] =
    result === undefined
      ? []
      : [
          {
            id: 'result',
            label: 'Result',
            view: () => (
              <StaleFrame staleness={staleness}>
                <div className="depth-columns">
                  <ScrapPlot result={result} heightPx={figurePx(roomPx, AROUND_PX)} />
                  <AssemblyNumbers result={result} />
                </div>
              </StaleFrame>
            ),
          },
          {
            id: 'cost',
            label: 'Cost by step',
            view: () => (
              <StaleFrame staleness={staleness}>
                <CostTable result={result} />
              </StaleFrame>
            ),
          },
          {
            id: 'improve',
            label: 'Step to improve',
            view: () => (
              <StaleFrame staleness={staleness}>
                <ImprovementTable result={result} />
              </StaleFrame>
            ),
          },
        ]
  return (
    <section aria-label="Assembly" className="assembly-tab views-below">
      {room}
      <Views
        label="Views of the assembly"
        views={[...results, steps]}
        tools={
          <RunLine
            label="Run assembly"
            counted="Assemblies done"
            progress={run.progress}
            message={run.message}
            first={result === undefined}
            onStart={() => void startAssembly(project, candidate.id, assemblySamples(project, candidate))}
            onCancel={() => cancelRun('assembly', candidate.id)}
          />
        }
      />
    </section>
  )
}
