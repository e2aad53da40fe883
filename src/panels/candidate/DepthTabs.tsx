// What is looked at beside the budget: tolerance, yield, array or temperature, one at a time.

import { lazy, Suspense, useState } from 'react'
import type { Evaluation } from '../../analysis/evaluation'
import type { Candidate } from '../../model/candidate'
import type { Project } from '../../model/project'
import { Tabs } from '../fields/Tabs'
import { TolerancePanel } from '../tolerance/TolerancePanel'

// The first tab comes with the page, the others when they are first looked at.
const YieldPanel = lazy(() => import('../yield/YieldPanel').then((each) => ({ default: each.YieldPanel })))
const ArrayPanel = lazy(() => import('../array/ArrayPanel').then((each) => ({ default: each.ArrayPanel })))
const TemperaturePanel = lazy(() =>
  import('../temperature/TemperaturePanel').then((each) => ({ default: each.TemperaturePanel })),
)

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
  return (
    <Suspense fallback={<p className="quiet">Loading</p>}>
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
                <TolerancePanel key={view.elementId} view={view} station={project.requirements.station} />
              )),
          },
          {
            id: 'yield',
            label: 'Yield',
            view: () => <YieldPanel key={candidate.id} project={project} candidate={candidate} />,
          },
          {
            id: 'array',
            label: 'Array',
            view: () => (
              <ArrayPanel
                key={candidate.id}
                project={project}
                candidate={candidate}
                evaluation={evaluation}
              />
            ),
          },
          {
            id: 'temperature',
            label: 'Temperature',
            view: () => <TemperaturePanel project={project} candidate={candidate} />,
          },
        ]}
      />
    </Suspense>
  )
}
