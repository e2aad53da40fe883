// What is looked at beside the budget: tolerance, yield, array or temperature, one at a time.

import { lazy, type ReactNode, Suspense, useState } from 'react'
import type { Evaluation } from '../../analysis/evaluation'
import type { Candidate } from '../../model/candidate'
import { jointNames } from '../../model/jointNames'
import type { Project } from '../../model/project'
import { Tabs } from '../fields/Tabs'
import { TolerancePanel } from '../tolerance/TolerancePanel'

// The first tab comes with the page, the others when they are first looked at.
const YieldPanel = lazy(() => import('../yield/YieldPanel').then((each) => ({ default: each.YieldPanel })))
const ArrayPanel = lazy(() => import('../array/ArrayPanel').then((each) => ({ default: each.ArrayPanel })))
const TemperaturePanel = lazy(() =>
  import('../temperature/TemperaturePanel').then((each) => ({ default: each.TemperaturePanel })),
)

/** Inside the tab's panel, so that the tabs stay and keep the focus while it loads. */
const later = (panel: ReactNode) => <Suspense fallback={<p className="quiet">Loading</p>}>{panel}</Suspense>

export function DepthTabs({
  project,
  candidate,
  evaluation,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
}) {
  const [chosen, setChosen] = useState('tolerance')
  const { station } = project.requirements
  const names = jointNames(candidate.chain)
  return (
    <Tabs
      label="In depth"
      chosen={chosen}
      onChoose={setChosen}
      tabs={[
        {
          id: 'tolerance',
          label: 'Tolerance',
          view: () =>
            evaluation.joints.map((view) => (
              <TolerancePanel
                key={view.elementId}
                view={view}
                station={station}
                name={names.get(view.elementId)}
              />
            )),
        },
        {
          id: 'yield',
          label: 'Yield',
          view: () => later(<YieldPanel key={candidate.id} project={project} candidate={candidate} />),
        },
        {
          id: 'array',
          label: 'Array',
          view: () =>
            later(
              <ArrayPanel
                key={candidate.id}
                project={project}
                candidate={candidate}
                evaluation={evaluation}
              />,
            ),
        },
        {
          id: 'temperature',
          label: 'Temperature',
          view: () => later(<TemperaturePanel project={project} candidate={candidate} />),
        },
      ]}
    />
  )
}
