// What fraction of assemblies will pass, and what to do about it: run, result, ranking, sharing out.

import { useMemo, useState } from 'react'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { yieldHistogramFigure } from '../../figures/loss/yieldHistogram'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { inputsOf, useRun } from '../../store/runs'
import { AssemblyFields } from '../../ui/fields/AssemblyFields'
import { FigureView } from '../../ui/figures/FigureView'
import { RunAssumptions, StaleFrame } from '../../ui/jobs/StaleFrame'
import { stalenessOf } from '../../ui/jobs/staleness'
import { YieldNumbers } from '../../ui/jobs/YieldNumbers'
import { OneChannelNote } from './OneChannelNote'
import { Ranking } from './Ranking'
import { RunControls } from './RunControls'
import { ShareOutFields } from './ShareOutFields'
import { WorstSamples } from './WorstSamples'
import { DEFAULT_SETTINGS, optionsOf, type YieldSettings } from './yieldSettings'
import './yield.css'

const PLOT_HEIGHT_PX = 320

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
  return (
    <section aria-label="Yield" className="yield">
      <AssemblyFields candidate={candidate} />
      <RunControls project={project} candidateId={candidate.id} settings={settings} onSet={setSettings} />
      {result !== undefined && (
        <StaleFrame staleness={staleness}>
          <YieldNumbers result={result} before={run.before?.result ?? null} />
          <OneChannelNote project={project} candidateId={candidate.id} />
          <YieldPlot result={result} />
          <Ranking
            candidateId={candidate.id}
            result={result}
            options={optionsOf(settings)}
            stale={staleness.changed}
          />
          <ShareOutFields project={project} candidateId={candidate.id} result={result} />
          <WorstSamples
            project={project}
            candidateId={candidate.id}
            result={result}
            stale={staleness.changed}
          />
          <RunAssumptions texts={result.assumptions} />
        </StaleFrame>
      )}
    </section>
  )
}

function YieldPlot({ result }: { readonly result: YieldResult }) {
  const figure = useMemo(() => yieldHistogramFigure('yield', result), [result])
  return <FigureView figure={figure} heightPx={PLOT_HEIGHT_PX} />
}
