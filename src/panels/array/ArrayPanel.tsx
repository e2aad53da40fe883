// All channels at once: the fibre array, the loss of every channel, and the alignment strategies.

import { useMemo, useState } from 'react'
import { ARRAY_DEFAULTS } from '../../analysis/array/arrayDefaults'
import { jointForms, plainArray } from '../../analysis/array/block'
import type { AimResult } from '../../analysis/array/runArray'
import { channelLossesFigure } from '../../figures/loss/channelLosses'
import { jointWords } from '../../model/designs/jointNames'
import type { Path } from '../../model/issue'
import { coreValue } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { cancelRun, inputsOf, startArray, useRun } from '../../store/runs'
import { workbench } from '../../store/workbench'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { narrowTolerance } from '../../ui/jobs/narrowing'
import { RunLine } from '../../ui/jobs/RunLine'
import { RunAssumptions, StaleFrame } from '../../ui/jobs/StaleFrame'
import { stalenessOf } from '../../ui/jobs/staleness'
import { AimTable, blocksText } from './AimTable'
import { ArrayTighten } from './ArrayTighten'
import { turnedRound } from './aimLosses'
import { BlockFields } from './BlockFields'
import { RollTable } from './RollTable'
import './array.css'

/** Views, sentence, reading, tools and the table of the aims around the chart. */
const AROUND_PX = 392
const LEAST_PX = 170

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
  const forms = useMemo(() => jointForms(project, candidate.id), [project, candidate.id])
  const array = candidate.array ?? plainArray(project, candidate)
  const start = (present: Project) => void startArray(present, candidate.id, ARRAY_DEFAULTS.samples)
  const tighten = (path: Path) => {
    narrowTolerance(path)
    start(workbench.getState().project)
  }
  const [room, roomPx] = useRoom()
  const roll: readonly ViewChoice[] =
    forms.length === 0
      ? []
      : [
          {
            id: 'roll',
            label: 'Roll',
            view: () => (
              <RollTable
                joints={forms.map(({ elementId, form }, i) => ({
                  words: jointWords(candidate.chain, elementId),
                  form,
                  pitchUm: coreValue(i === 0 ? array.pitch : project.requirements.pitch, 'pitch'),
                }))}
                channels={project.requirements.channels}
              />
            ),
          },
        ]
  const settings: ViewChoice = {
    id: 'settings',
    label: 'Settings',
    view: () => <BlockFields project={project} candidate={candidate} />,
  }
  const results: readonly ViewChoice[] =
    result === undefined || shown === undefined
      ? []
      : [
          {
            id: 'result',
            label: 'Result',
            view: () => (
              <StaleFrame staleness={staleness}>
                <ChannelPlot
                  aim={shown}
                  limitDb={result.limitDb}
                  atWorstTemperature={result.temperaturesC.length > 0}
                  heightPx={figurePx(roomPx, AROUND_PX, LEAST_PX)}
                />
                <div className="array-aims">
                  <AimTable
                    result={result}
                    before={run.before?.result ?? null}
                    chosen={shown.aim}
                    onChoose={setChosen}
                  />
                  <div>
                    {turnedRound(result.aims) && (
                      <p className="quiet">
                        Residual misalignment and cure shift reverse the ranking of the strategies: aligning
                        for the worst channel gains nothing here.
                      </p>
                    )}
                    <p className="quiet">{blocksText(result)}</p>
                    <RunAssumptions texts={result.assumptions} />
                  </div>
                </div>
              </StaleFrame>
            ),
          },
          {
            id: 'ranking',
            label: 'Tolerance ranking',
            view: () => (
              <StaleFrame staleness={staleness}>
                <ArrayTighten result={result} stale={staleness.changed} onTighten={tighten} />
              </StaleFrame>
            ),
          },
        ]
  return (
    <section aria-label="Array" className="array">
      {room}
      <Views
        label="Views of the array"
        views={results.length === 0 ? [settings, ...roll] : [...results, ...roll, settings]}
        tools={
          <RunLine
            label="Run array"
            counted="Arrays done"
            progress={run.progress}
            message={run.message}
            first={results.length === 0}
            onStart={() => start(project)}
            onCancel={() => cancelRun('array', candidate.id)}
          />
        }
      />
    </section>
  )
}

function ChannelPlot({
  aim,
  limitDb,
  atWorstTemperature,
  heightPx,
}: {
  readonly aim: AimResult
  readonly limitDb: number
  readonly atWorstTemperature: boolean
  readonly heightPx: number
}) {
  const figure = useMemo(
    () => channelLossesFigure(aim, limitDb, atWorstTemperature),
    [aim, limitDb, atWorstTemperature],
  )
  return <FigureView figure={figure} heightPx={heightPx} />
}
