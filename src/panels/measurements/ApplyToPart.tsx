// Applying a result to a part, with a look at what it does to the loss before it is done.

import { produce } from 'immer'
import { useState } from 'react'
import type { MfdValue } from '../../measure/index'
import { candidatesUsing } from '../../model/project/references'
import { lossText } from '../../model/quantity/lossText'
import type { Measurement } from '../../model/schema/measurement'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { unbroken } from '../../numerics/numberText'
import { evaluationOf } from '../../store/evaluations'
import { useView } from '../../store/view'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { mfdText } from './measurementText'
import { applyDiameters, type Destination, measuredEntry } from './partDiameters'

const LEAVE = ''

function destinations(project: Project): readonly (Destination & { readonly name: string })[] {
  return [
    ...project.facets.map(({ id, name }) => ({ list: 'facets' as const, id, name })),
    ...project.fibres.map(({ id, name }) => ({ list: 'fibres' as const, id, name })),
  ]
}

const keyOf = ({ list, id }: Destination) => `${list}/${id}`

/** A far field is mostly a fibre's, everything else a facet's. */
function likely(measurement: Measurement, project: Project): string {
  const list = measurement.method === 'far-field' ? 'fibres' : 'facets'
  const found = destinations(project).find((each) => each.list === list) ?? destinations(project)[0]
  return found === undefined ? '' : keyOf(found)
}

function likelyIds(mfds: readonly MfdValue[]): { readonly x: string; readonly y: string } {
  const along = (axis: 'x' | 'y') => mfds.find((mfd) => mfd.axis === axis)?.id
  const [x, y] = [along('x'), along('y')]
  const round = mfds[0]?.id ?? LEAVE
  // A scan along one axis says nothing about the other; a result without an axis is that of a round mode.
  if (x !== undefined || y !== undefined) return { x: x ?? LEAVE, y: y ?? LEAVE }
  return { x: round, y: round }
}

export function ApplyToPart({
  project,
  measurement,
  mfds,
}: {
  readonly project: Project
  readonly measurement: Measurement
  readonly mfds: readonly MfdValue[]
}) {
  const chosenId = useView((state) => state.designId)
  const [target, setTarget] = useState(() => likely(measurement, project))
  const [ids, setIds] = useState(() => likelyIds(mfds))
  const [said, setSaid] = useState('')
  const parts = destinations(project)
  const part = parts.find((each) => keyOf(each) === target)
  if (part === undefined) return <p className="quiet">The project has no fibre or facet to apply this to.</p>

  const pick = (id: string) => {
    const mfd = byId(mfds, id)
    return mfd === undefined ? null : measuredEntry(mfd, measurement)
  }
  const x = pick(ids.x)
  const y = ids.y === ids.x ? x : pick(ids.y)
  const refused = [x, y].find((each) => each?.ok === false)
  const diameters = { x: x?.ok ? x.value : null, y: y?.ok ? y.value : null }
  const nothing = diameters.x === null && diameters.y === null
  const users = candidatesUsing(project, part.list, part.id)
  const candidate =
    project.candidates.find((each) => each.id === chosenId && users.includes(each.name)) ??
    project.candidates.find((each) => users.includes(each.name))
  const choices = [
    { value: LEAVE, label: 'keep current' },
    ...mfds.map((mfd) => ({ value: mfd.id, label: `${mfd.label}: ${mfdText(mfd)}` })),
  ]
  const take = () => {
    editProject((draft) => applyDiameters(draft, part, diameters))
    setSaid(`Applied to ${part.name}. Undo restores the previous value.`)
  }

  return (
    <section aria-label="Apply to part">
      <h2>Apply to part</h2>
      <div className="take-over">
        <ChoiceField
          label="Part"
          value={target}
          choices={parts.map((each) => ({ value: keyOf(each), label: each.name }))}
          onChoose={(value) => {
            setTarget(value)
            setSaid('')
          }}
        />
        <ChoiceField
          label="Set MFD x to"
          value={ids.x}
          choices={choices}
          onChoose={(x) => setIds({ ...ids, x })}
        />
        <ChoiceField
          label="Set MFD y to"
          value={ids.y}
          choices={choices}
          onChoose={(y) => setIds({ ...ids, y })}
        />
      </div>
      {refused?.ok === false && <p className="complaint">{refused.message}</p>}
      {candidate !== undefined && !nothing && (
        <Consequence
          before={project}
          after={produce(project, (draft) => applyDiameters(draft, part, diameters))}
          candidate={candidate}
        />
      )}
      <button type="button" className="primary" disabled={nothing || refused !== undefined} onClick={take}>
        Apply
      </button>{' '}
      <span role="status" className="quiet">
        {said}
      </span>
    </section>
  )
}

function Consequence({
  before,
  after,
  candidate,
}: {
  readonly before: Project
  readonly after: Project
  readonly candidate: { readonly id: string; readonly name: string }
}) {
  const [old, now] = [evaluationOf(before, candidate.id), evaluationOf(after, candidate.id)]
  if (!old.ok || !now.ok) return null
  return (
    <p>
      Nominal loss of {candidate.name}: {unbroken(`${lossText(old.value.nominalDb)} dB now,`)}{' '}
      <strong>{lossText(now.value.nominalDb)} dB</strong> with these values.
    </p>
  )
}
