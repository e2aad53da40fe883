// All channels at once: the block of fibres, the loss of every channel, and what each way of placing the block costs.

import { useMemo, useState } from 'react'
import { ARRAY_DEFAULTS } from '../../analysis/array/arrayDefaults'
import { fibreForm, plainArray } from '../../analysis/array/block'
import type { AimResult } from '../../analysis/array/runArray'
import { channelLossesFigure } from '../../figures/loss/channelLosses'
import type { Path } from '../../model/issue'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { cancelRun, inputsOf, startArray, useRun } from '../../store/runs'
import { workbench } from '../../store/workbench'
import { FigureView } from '../../ui/figures/FigureView'
import { narrowTolerance } from '../../ui/jobs/narrowing'
import { RunLine } from '../../ui/jobs/RunLine'
import { RunAssumptions, StaleFrame } from '../../ui/jobs/StaleFrame'
import { stalenessOf } from '../../ui/jobs/staleness'
import { AimTable, blocksText } from './AimTable'
import { ArrayTighten } from './ArrayTighten'
import { BlockFields } from './BlockFields'
import { RollTable } from './RollTable'

const PLOT_HEIGHT_PX = 320

/** Whether another way of placing ends with the better worst channel than the one that aims at it. */
function turnedRound(aims: readonly AimResult[]): boolean {
  const aimed = aims.find(({ aim }) => aim === 'worst channel')
  return aimed !== undefined && aims.some(({ meanWorstDb }) => meanWorstDb < aimed.meanWorstDb)
}

export function ArrayPanel({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const run = useRun('array', candidate.id)
  const result = run.finished?.result
  const staleness = stalenessOf(run, inputsOf(project, candidate.id))
  const [chosen, setChosen] = useState<string | null>(null)
  const shown = result?.aims.find((each) => each.aim === (chosen ?? result.aim)) ?? result?.aims[0]
  const form = useMemo(() => fibreForm(project, candidate.id), [project, candidate.id])
  const array = candidate.array ?? plainArray(project, candidate)
  const start = (present: Project) => void startArray(present, candidate.id, ARRAY_DEFAULTS.samples)
  const tighten = (path: Path) => {
    narrowTolerance(path)
    start(workbench.getState().project)
  }
  return (
    <section aria-label="Array" className="array">
      <BlockFields project={project} candidate={candidate} />
      {form !== null && (
        <RollTable form={form} channels={project.requirements.channels} pitch={array.pitch} />
      )}
      <RunLine
        label="Run array"
        counted="Arrays done"
        progress={run.progress}
        message={run.message}
        onStart={() => start(project)}
        onCancel={() => cancelRun('array', candidate.id)}
      />
      {result !== undefined && shown !== undefined && (
        <StaleFrame staleness={staleness}>
          <AimTable
            result={result}
            before={run.before?.result ?? null}
            chosen={shown.aim}
            onChoose={setChosen}
          />
          {turnedRound(result.aims) && (
            <p className="quiet">
              Alignment comes before residual misalignment, cure shift and temperature, which reverse the
              order here: aligning for the worst channel does not improve it in the end.
            </p>
          )}
          <ChannelPlot aim={shown} limitDb={result.limitDb} />
          <p className="quiet">{blocksText(result)}</p>
          <ArrayTighten result={result} stale={staleness.changed} onTighten={tighten} />
          <RunAssumptions texts={result.assumptions} />
        </StaleFrame>
      )}
    </section>
  )
}

function ChannelPlot({ aim, limitDb }: { readonly aim: AimResult; readonly limitDb: number }) {
  const figure = useMemo(() => channelLossesFigure(aim, limitDb), [aim, limitDb])
  return <FigureView figure={figure} heightPx={PLOT_HEIGHT_PX} />
}
