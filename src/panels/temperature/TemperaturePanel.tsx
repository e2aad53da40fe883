// What temperature does: the mount that holds both sides, how the joint moves, the loss over the range.

import { useDeferredValue, useMemo, useState } from 'react'
import { temperatureSweep } from '../../analysis/temperature/temperatureSweep'
import { temperatureFigure } from '../../figures/loss/temperature'
import { chipJoint } from '../../model/designs/jointNames'
import { leadingLimit } from '../../model/project/lossCriteria'
import { requirementFaults } from '../../model/project/requirementFaults'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useWithSolvedFields } from '../../store/solvedFields'
import { Views } from '../../ui/controls/Views'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { MountFields } from './MountFields'
import { MovementTable } from './MovementTable'
import './temperature.css'

/** Views, sentence, reading and tools around the chart. */
const AROUND_PX = 170

export function TemperaturePanel({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const settled = useDeferredValue(project)
  const withModes = useWithSolvedFields()
  const sweep = useMemo(() => {
    const result = temperatureSweep(withModes(settled), candidate.id)
    return result.ok ? result.value : null
  }, [settled, candidate.id, withModes])
  const { mount } = candidate
  // A mount that is described now is shown with its layers.
  const [began] = useState(mount)
  const [room, roomPx] = useRoom()
  const faults = requirementFaults(project.requirements).filter(({ path }) => path[1] === 'temperatureMin')
  const limit = useMemo(() => leadingLimit(project.requirements), [project.requirements])
  const figure = useMemo(() => (sweep === null ? null : temperatureFigure(sweep, limit)), [sweep, limit])
  const result = (
    <div className="depth-columns">
      <div>{figure !== null && <FigureView figure={figure} heightPx={figurePx(roomPx, AROUND_PX)} />}</div>
      <div>
        {faults.map((fault) => (
          <p key={fault.message} className="complaint">
            {fault.message}
          </p>
        ))}
        {mount === undefined && <MountFields candidate={candidate} />}
        {sweep?.mounted && <MovementTable movements={sweep.movements} joint={chipJoint(candidate.chain)} />}
        <p className="quiet">
          Lengths change by linear thermal expansion (CTE), indices by dn/dT where given. Stress, bending and
          the glass transition of adhesives are not modelled. Band: 256 simulated assemblies.{' '}
          {sweep?.models.join(' ')}
        </p>
      </div>
    </div>
  )
  return (
    <section aria-label="Temperature" className="temperature">
      {room}
      <Views
        label="Views of temperature"
        opensAt={began === undefined && mount !== undefined ? 'mount' : 'result'}
        views={[
          { id: 'result', label: 'Result', view: () => result },
          ...(mount === undefined
            ? []
            : [{ id: 'mount', label: 'Mount', view: () => <MountFields candidate={candidate} /> }]),
        ]}
      />
    </section>
  )
}
