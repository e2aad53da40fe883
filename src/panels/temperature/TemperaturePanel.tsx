// What temperature does: the mount that holds both sides, how the joint moves, the loss over the range.

import { useDeferredValue, useMemo, useState } from 'react'
import { temperatureSweep } from '../../analysis/temperature/temperatureSweep'
import { temperatureFigure } from '../../figures/loss/temperature'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { requirementFaults } from '../../model/project/requirementFaults'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { useWithSolvedFields } from '../../store/solvedFields'
import { FigureView } from '../../ui/figures/FigureView'
import { MountFields } from './MountFields'
import { MovementTable } from './MovementTable'
import './temperature.css'

const PLOT_HEIGHT_PX = 320

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
  const [startsOpen] = useState(candidate.mount === undefined)
  const faults = requirementFaults(project.requirements).filter(({ path }) => path[1] === 'temperatureMin')
  const limitDb = leadingLimitDb(project.requirements)
  const figure = useMemo(() => (sweep === null ? null : temperatureFigure(sweep, limitDb)), [sweep, limitDb])
  return (
    <section aria-label="Temperature" className="temperature">
      <div className="depth-columns">
        <div>{figure !== null && <FigureView figure={figure} heightPx={PLOT_HEIGHT_PX} />}</div>
        <div>
          {faults.map((fault) => (
            <p key={fault.message} className="complaint">
              {fault.message}
            </p>
          ))}
          {sweep?.mounted && <MovementTable movements={sweep.movements} />}
          <p className="quiet">
            Lengths change by linear thermal expansion (CTE), indices by dn/dT where given. Stress, bending
            and the glass transition of adhesives are not modelled. Band: 256 simulated assemblies.
          </p>
        </div>
      </div>
      <details open={startsOpen}>
        <summary>Mount</summary>
        <MountFields candidate={candidate} />
      </details>
    </section>
  )
}
