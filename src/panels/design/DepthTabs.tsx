// What is looked at beside the budget, one at a time: tolerance, yield, array, temperature, and what light does.

import { lazy, type ReactNode, Suspense, useState } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import { jointNames } from '../../model/designs/jointNames'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
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

const ReflectionsPanel = lazy(() =>
  import('../light/ReflectionsPanel').then((each) => ({ default: each.ReflectionsPanel })),
)
const SpectrumPanel = lazy(() =>
  import('../light/SpectrumPanel').then((each) => ({ default: each.SpectrumPanel })),
)
const PolarisationPanel = lazy(() =>
  import('../light/PolarisationPanel').then((each) => ({ default: each.PolarisationPanel })),
)
const PowerPanel = lazy(() => import('../light/PowerPanel').then((each) => ({ default: each.PowerPanel })))

/** Inside the tab's panel, so that the tabs stay and keep the focus while it loads. */
function later(panel: ReactNode, key?: string) {
  return (
    <Suspense key={key} fallback={<p className="quiet">Loading</p>}>
      {panel}
    </Suspense>
  )
}

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
  // Choices and refused texts in a panel are those of its candidate.
  const own = (panel: ReactNode) => later(panel, candidate.id)
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
                  <TolerancePanel
                    key={view.elementId}
                    view={view}
                    station={station}
                    name={names.get(view.elementId)}
                  />
                ) : (
                  <FieldTolerancePanel
                    key={view.elementId}
                    view={view}
                    field={view.field}
                    station={station}
                    name={names.get(view.elementId)}
                  />
                ),
              ),
            ),
        },
        {
          id: 'yield',
          label: 'Yield',
          view: () => own(<YieldPanel project={project} candidate={candidate} />),
        },
        {
          id: 'array',
          label: 'Array',
          view: () => own(<ArrayPanel project={project} candidate={candidate} />),
        },
        {
          id: 'temperature',
          label: 'Temperature',
          view: () => own(<TemperaturePanel project={project} candidate={candidate} />),
        },
        {
          id: 'fields',
          label: 'Mode fields',
          view: () =>
            own(<ModeFieldsPanel project={project} candidate={candidate} evaluation={evaluation} />),
        },
        {
          id: 'reflections',
          label: 'Reflections',
          view: () =>
            own(<ReflectionsPanel project={project} candidate={candidate} evaluation={evaluation} />),
        },
        {
          id: 'spectrum',
          label: 'Spectrum',
          view: () => later(<SpectrumPanel project={project} candidate={candidate} />),
        },
        {
          id: 'polarisation',
          label: 'Polarisation',
          view: () =>
            own(<PolarisationPanel project={project} candidate={candidate} evaluation={evaluation} />),
        },
        {
          id: 'power',
          label: 'Power',
          view: () => later(<PowerPanel project={project} evaluation={evaluation} />),
        },
      ]}
    />
  )
}
