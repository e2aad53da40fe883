// What fraction of assemblies will pass, and what to do about it: run, result, ranking, sharing out.

import { useMemo, useState } from 'react'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { yieldHistogramFigure } from '../../figures/loss/yieldHistogram'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { cancelRun, inputsOf, startYield, useRun } from '../../store/runs'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { AssemblyFields } from '../../ui/fields/AssemblyFields'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { RunLine } from '../../ui/jobs/RunLine'
import { RunAssumptions, StaleFrame } from '../../ui/jobs/StaleFrame'
import { stalenessOf } from '../../ui/jobs/staleness'
import { YieldNumbers } from '../../ui/jobs/YieldNumbers'
import { OneChannelNote } from './OneChannelNote'
import { RankingView } from './RankingView'
import { RunSettings } from './RunSettings'
import { ShareOutFields } from './ShareOutFields'
import { WorstSamples } from './WorstSamples'
import { DEFAULT_SETTINGS, optionsOf, type YieldSettings } from './yieldSettings'
import './yield.css'

/** Views, sentence, reading and tools around the histogram. */
const AROUND_PX = 170

export function YieldPanel({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const [settings, setSettings] = useState<YieldSettings>(DEFAULT_SETTINGS)
  const run = useRun('yield', candidate.id)
  const result = run.finished?.result
  const staleness = stalenessOf(run, inputsOf(project, candidate.id))
  const [room, roomPx] = useRoom()
  const settingsView: ViewChoice = {
    id: 'settings',
    label: 'Settings',
    view: () => (
      <>
        <AssemblyFields candidate={candidate} />
        <RunSettings project={project} settings={settings} onSet={setSettings} />
      </>
    ),
  }
  const resultViews = (found: YieldResult): readonly ViewChoice[] =>
    [
      {
        id: 'result',
        label: 'Result',
        view: () => (
          <div className="yield-result">
            <YieldPlot result={found} heightPx={figurePx(roomPx, AROUND_PX)} />
            <div>
              <YieldNumbers result={found} before={run.before?.result ?? null} />
              <OneChannelNote project={project} candidateId={candidate.id} />
              <RunAssumptions texts={found.assumptions} />
            </div>
          </div>
        ),
      },
      {
        id: 'ranking',
        label: 'Tolerance ranking',
        view: () => (
          <RankingView
            candidateId={candidate.id}
            result={found}
            options={optionsOf(settings)}
            stale={staleness.changed}
          />
        ),
      },
      {
        id: 'allocation',
        label: 'Tolerance allocation',
        view: () => <ShareOutFields project={project} candidateId={candidate.id} result={found} />,
      },
      {
        id: 'worst',
        label: 'Worst assemblies',
        view: () => (
          <WorstSamples
            project={project}
            candidateId={candidate.id}
            result={found}
            stale={staleness.changed}
          />
        ),
      },
    ].map((each) => ({
      ...each,
      view: () => <StaleFrame staleness={staleness}>{each.view()}</StaleFrame>,
    }))
  return (
    <section aria-label="Yield" className="yield">
      {room}
      <Views
        label="Views of the yield"
        views={result === undefined ? [settingsView] : [...resultViews(result), settingsView]}
        tools={
          <RunLine
            label="Run yield"
            counted="Samples done"
            progress={run.progress}
            message={run.message}
            first={result === undefined}
            onStart={() => void startYield(project, candidate.id, optionsOf(settings))}
            onCancel={() => cancelRun('yield', candidate.id)}
          />
        }
      />
    </section>
  )
}

function YieldPlot({ result, heightPx }: { readonly result: YieldResult; readonly heightPx: number }) {
  const figure = useMemo(() => yieldHistogramFigure('yield', result), [result])
  return <FigureView figure={figure} heightPx={heightPx} />
}
