// The drift of a design over its service: the answer with its figure, all laws side by side, and what it rests on.

import { useMemo } from 'react'
import { serviceDrift } from '../../analysis/lifetime/serviceDrift'
import { driftFigure } from '../../figures/build/drift'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { type ViewChoice, Views } from '../../ui/controls/Views'
import { Warnings } from '../../ui/figures/FactTable'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { DriftFacts, LawTable } from './DriftTables'
import { LifetimeFields } from './LifetimeFields'
import { StressTestChoice } from './StressTestChoice'
import './lifetime.css'

/** Views, sentence, reading and tools around the picture. */
const AROUND_PX = 210

export function LifetimePanel({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const [room, roomPx] = useRoom()
  const outcome = useMemo(() => serviceDrift(project, candidate), [project, candidate])
  const drift = outcome?.ok ? outcome.value : null
  const figure = useMemo(
    () =>
      drift === null ? null : driftFigure({ test: drift.test, fit: drift.fit, exposure: drift.exposure }),
    [drift],
  )
  if (candidate.lifetime === undefined)
    return (
      <section aria-label="Lifetime" className="lifetime-tab views-below">
        {room}
        <StressTestChoice project={project} candidate={candidate} />
      </section>
    )
  const { lifetime } = candidate
  const basis: ViewChoice = {
    id: 'basis',
    label: 'Law and service',
    view: () => <LifetimeFields project={project} candidate={candidate} lifetime={lifetime} />,
  }
  const results: readonly ViewChoice[] =
    drift === null || figure === null
      ? []
      : [
          {
            id: 'result',
            label: 'Result',
            view: () => (
              <div className="depth-columns">
                <div>
                  <p className="depth-answer">
                    {drift.meanDb <= 0
                      ? 'The test shows no mean drift towards higher loss.'
                      : `The budget includes ${fixedText(drift.meanDb, 2)} ± ${fixedText(drift.onePlusMinusDb, 2)} dB of drift at the end of service life.`}
                  </p>
                  <FigureView figure={figure} heightPx={figurePx(roomPx, AROUND_PX)} />
                </div>
                <div>
                  <Warnings messages={drift.warnings} />
                  <DriftFacts drift={drift} />
                </div>
              </div>
            ),
          },
          { id: 'laws', label: 'Laws compared', view: () => <LawTable drift={drift} /> },
        ]
  return (
    <section aria-label="Lifetime" className="lifetime-tab views-below">
      {room}
      {outcome !== null && !outcome.ok && (
        <p className="complaint" role="alert">
          {outcome.message}
        </p>
      )}
      <Views label="Views of lifetime" views={[...results, basis]} />
    </section>
  )
}
