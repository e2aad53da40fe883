// What is looked at beside the budget: tolerance, yield, array or temperature, one at a time.

import { useState } from 'react'
import type { Evaluation } from '../../analysis/evaluation'
import type { Candidate } from '../../model/candidate'
import type { Project } from '../../model/project'
import { ArrayPanel } from '../array/ArrayPanel'
import { Tabs } from '../fields/Tabs'
import { TemperaturePanel } from '../temperature/TemperaturePanel'
import { TolerancePanel } from '../tolerance/TolerancePanel'
import { YieldPanel } from '../yield/YieldPanel'

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
            <ArrayPanel key={candidate.id} project={project} candidate={candidate} evaluation={evaluation} />
          ),
        },
        {
          id: 'temperature',
          label: 'Temperature',
          view: () => <TemperaturePanel project={project} candidate={candidate} />,
        },
      ]}
    />
  )
}
