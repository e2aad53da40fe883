// What fraction of assemblies will pass, and what to do about it: run, result, ranking, sharing out.

import { useMemo, useState } from 'react'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import type { Candidate } from '../../model/candidate'
import type { Project } from '../../model/project'
import { Plot } from '../../plots/Plot'
import { yieldFigure } from '../../plots/yieldFigure'
import { inputsOf, useRun } from '../../store/runs'
import { usePlotTheme } from '../tolerance/plotTheme'
import { AssemblyFields } from './AssemblyFields'
import { Ranking } from './Ranking'
import { RunControls } from './RunControls'
import { ShareOutFields } from './ShareOutFields'
import { WorstSamples } from './WorstSamples'
import { YieldNumbers } from './YieldNumbers'
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
  const stale = run.finished !== null && run.finished.inputs !== inputsOf(project, candidate.id)
  return (
    <section aria-label="Yield" className="yield">
      <AssemblyFields candidate={candidate} />
      <RunControls project={project} candidateId={candidate.id} settings={settings} onSet={setSettings} />
      {result !== undefined && (
        <div className={stale ? 'stale' : undefined}>
          {stale && (
            <p className="stale-note">
              Out of date: numbers have changed since this run. Run again for the present ones.
            </p>
          )}
          <YieldNumbers result={result} before={run.before?.result ?? null} />
          <YieldPlot result={result} />
          <Ranking
            project={project}
            candidateId={candidate.id}
            result={result}
            options={optionsOf(settings)}
            stale={stale}
          />
          <ShareOutFields project={project} candidateId={candidate.id} result={result} />
          <WorstSamples project={project} candidateId={candidate.id} result={result} stale={stale} />
          <details>
            <summary>What this run assumes</summary>
            <ul>
              {result.assumptions.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </details>
        </div>
      )}
    </section>
  )
}

function YieldPlot({ result }: { readonly result: YieldResult }) {
  const theme = usePlotTheme()
  const figure = useMemo(() => yieldFigure(result, theme), [result, theme])
  return <Plot figure={figure} heightPx={PLOT_HEIGHT_PX} />
}
