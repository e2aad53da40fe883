// What is looked at beside the budget: tolerance, yield, array or temperature, one at a time.

import { lazy, type ReactNode, Suspense, useState } from 'react'
import type { Evaluation } from '../../analysis/evaluation'
import type { Candidate } from '../../model/candidate'
import type { Project } from '../../model/project'
import { Tabs } from '../fields/Tabs'

// Each comes when it is first looked at; the page, with its numbers and its drawing, does not wait for them.
const TolerancePanel = lazy(() =>
  import('../tolerance/TolerancePanel').then((each) => ({ default: each.TolerancePanel })),
)
const YieldPanel = lazy(() => import('../yield/YieldPanel').then((each) => ({ default: each.YieldPanel })))
const ArrayPanel = lazy(() => import('../array/ArrayPanel').then((each) => ({ default: each.ArrayPanel })))
const ModeFieldsPanel = lazy(() =>
  import('../modeFields/ModeFieldsPanel').then((each) => ({ default: each.ModeFieldsPanel })),
)
const FieldTolerancePanel = lazy(() =>
  import('../tolerance/FieldTolerancePanel').then((each) => ({ default: each.FieldTolerancePanel })),
)
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
            later(
              evaluation.joints.map((view) =>
                view.field === undefined || 'refusal' in view.field.loss ? (
                  <TolerancePanel key={view.elementId} view={view} station={station} />
                ) : (
                  <FieldTolerancePanel
                    key={view.elementId}
                    view={view}
                    field={view.field}
                    station={station}
                  />
                ),
              ),
            ),
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
          id: 'fields',
          label: 'Mode fields',
          view: () =>
            later(<ModeFieldsPanel project={project} candidate={candidate} evaluation={evaluation} />),
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
