// The list of tolerances that would be brought to what the station holds; those that are ticked change in one undo step.

import { useState } from 'react'
import { applyStation, type StationChange } from '../../model/designs/stationTolerances'
import { editProject } from '../../store/workbench'
import { Dialog } from '../../ui/controls/Dialog'

const keyOf = ({ path }: StationChange) => path.join('/')

export function StationUpdate({
  changes,
  shown,
  onClose,
}: {
  readonly changes: readonly StationChange[]
  readonly shown: boolean
  readonly onClose: () => void
}) {
  return (
    <Dialog
      title="Update designs to match the alignment station"
      shown={shown}
      onClose={onClose}
      className="station-update"
    >
      <ChangeList changes={changes} onDone={onClose} />
    </Dialog>
  )
}

function ChangeList({
  changes,
  onDone,
}: {
  readonly changes: readonly StationChange[]
  readonly onDone: () => void
}) {
  // An axis without a tolerance stays without one unless it is wanted.
  const [kept, setKept] = useState<ReadonlySet<string>>(
    () => new Set(changes.filter(({ now }) => now === '').map(keyOf)),
  )
  const chosen = changes.filter((each) => !kept.has(keyOf(each)))
  const toggle = (keys: readonly string[], on: boolean) =>
    setKept((before) => {
      const after = new Set(before)
      for (const key of keys) {
        if (on) after.delete(key)
        else after.add(key)
      }
      return after
    })
  const apply = () => {
    editProject((draft) => applyStation(draft, chosen))
    onDone()
  }
  const designs = [...new Map(changes.map((each) => [each.designId, each.designName]))]
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        apply()
      }}
    >
      <div className="wide-table">
        <table>
          <caption>Tolerances that differ from the alignment-station accuracy</caption>
          <thead>
            <tr>
              <th scope="col">Axis</th>
              <th scope="col">Alignment</th>
              <th scope="col" className="number">
                Current
              </th>
              <th scope="col" className="number">
                Updated
              </th>
            </tr>
          </thead>
          {designs.map(([id, name]) => {
            const own = changes.filter(({ designId }) => designId === id)
            const on = own.some((each) => !kept.has(keyOf(each)))
            return (
              <tbody key={id}>
                <tr>
                  <th scope="rowgroup" colSpan={4}>
                    <label>
                      <input type="checkbox" checked={on} onChange={() => toggle(own.map(keyOf), !on)} />{' '}
                      {name}
                    </label>
                  </th>
                </tr>
                {own.map((each) => (
                  <tr key={keyOf(each)}>
                    <th scope="row">
                      <label>
                        <input
                          type="checkbox"
                          aria-label={`${each.label}, ${name}`}
                          checked={!kept.has(keyOf(each))}
                          onChange={() => toggle([keyOf(each)], kept.has(keyOf(each)))}
                        />{' '}
                        {each.label}
                      </label>
                    </th>
                    <td>{each.setting}</td>
                    <td className="number">{each.now === '' ? 'none' : each.now}</td>
                    <td className="number">{each.next}</td>
                  </tr>
                ))}
              </tbody>
            )
          })}
        </table>
      </div>
      <div className="dialog-actions">
        <button type="button" onClick={onDone}>
          Leave unchanged
        </button>
        <button type="submit" className="primary" disabled={chosen.length === 0}>
          Update {chosen.length} {chosen.length === 1 ? 'tolerance' : 'tolerances'}
        </button>
      </div>
    </form>
  )
}
