// The left pane: the measurements of the project with a search, the comparison with a design, and how readings come in.

import { useState } from 'react'
import { matchesSearch } from '../../model/parts/partSearch'
import type { Measurement, MeasurementMethod } from '../../model/schema/measurement'
import { METHOD_NAMES } from '../../model/words/measurement'
import { chooseOnBench, DIFFERENCE } from '../../store/benchDesk'
import { Pane } from '../../ui/controls/Panes'
import { AddReadings } from './reading/AddReadings'

/** From so many on a search is worth its place. */
const SEARCHED = 6

export function MeasurementList({
  measurements,
  shownId,
  busy,
}: {
  readonly measurements: readonly Measurement[]
  /** Id of the measurement in detail, or DIFFERENCE. */
  readonly shownId: string
  /** True while a file is being looked at: it is imported or discarded first. */
  readonly busy: boolean
}) {
  const [search, setSearch] = useState('')
  const [method, setMethod] = useState<MeasurementMethod | ''>('')
  const methods = [...new Set(measurements.map((each) => each.method))]
  const shown = measurements.filter(
    ({ name, fileName, date, notes, method: own }) =>
      (method === '' || own === method) &&
      (search.trim() === '' || matchesSearch({ name, fileName, date, notes }, search)),
  )
  const current = (id: string) => (!busy && id === shownId ? 'true' : undefined)
  return (
    <Pane name="Measurement list" headless>
      {measurements.length >= SEARCHED && (
        <search className="measurement-filters">
          <input
            type="search"
            aria-label="Search the measurements"
            placeholder="Name, file or date"
            value={search}
            onChange={(event) => setSearch(event.target.value)}
          />
          <select
            aria-label="Kind"
            value={method}
            onChange={(event) => setMethod(methods.find((each) => each === event.target.value) ?? '')}
          >
            <option value="">All kinds</option>
            {methods.map((each) => (
              <option key={each} value={each}>
                {METHOD_NAMES[each]}
              </option>
            ))}
          </select>
        </search>
      )}
      <nav className="measurement-choices" aria-label="Measurements">
        {shown.map(({ id, name, method: own, date }) => (
          <button
            key={id}
            type="button"
            aria-current={current(id)}
            disabled={busy}
            onClick={() => chooseOnBench(id)}
          >
            <span className="measurement-name">{name}</span>
            <span className="quiet">{METHOD_NAMES[own]}</span> <span className="quiet">{date}</span>
          </button>
        ))}
        {measurements.length > 0 && shown.length === 0 && (
          <p className="quiet">No measurements match the filters.</p>
        )}
        <button
          type="button"
          aria-current={current(DIFFERENCE)}
          disabled={busy}
          onClick={() => chooseOnBench(DIFFERENCE)}
        >
          <span className="measurement-name">Measured vs predicted loss</span>
          <span className="quiet">Explain a difference</span>
        </button>
      </nav>
      <AddReadings first={measurements.length === 0 && !busy} />
    </Pane>
  )
}
