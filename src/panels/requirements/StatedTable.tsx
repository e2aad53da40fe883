// Every stated requirement in one table: mandatory or desirable, and whether another one suffices in its place.

import {
  addAlternative,
  alternativesOf,
  setWish,
  withoutAlternative,
} from '../../model/project/requirementGroups'
import { statedRequirements } from '../../model/project/statedRequirements'
import type { Requirements } from '../../model/schema/requirements'
import { byId } from '../../model/words/byId'
import { editRequirements } from './editRequirements'

const NONE = ''

export function StatedTable({ requirements }: { readonly requirements: Requirements }) {
  const stated = statedRequirements(requirements)
  const labelOf = (id: string) => byId(stated, id)?.label
  return (
    <div className="wide-table">
      <table>
        <caption>Stated requirements</caption>
        <thead>
          <tr>
            <th scope="col">Requirement</th>
            <th scope="col">Priority</th>
            <th scope="col">Alternative to</th>
          </tr>
        </thead>
        <tbody>
          {stated.map(({ id, label }) => {
            const others = alternativesOf(requirements, id)
            return (
              <tr key={id} data-requirement={id}>
                <th scope="row">{label}</th>
                <td>
                  <select
                    aria-label={`Priority: ${label}`}
                    value={requirements.wishes?.includes(id) ? 'wish' : 'must'}
                    onChange={(event) =>
                      editRequirements((own) => setWish(own, id, event.target.value === 'wish'))
                    }
                  >
                    <option value="must">mandatory</option>
                    <option value="wish">desirable</option>
                  </select>
                </td>
                <td>
                  <select
                    aria-label={`Alternative to: ${label}`}
                    value={others[0] ?? NONE}
                    onChange={(event) =>
                      editRequirements((own) => {
                        if (event.target.value === NONE) withoutAlternative(own, id)
                        else addAlternative(own, id, event.target.value)
                      })
                    }
                  >
                    <option value={NONE}>–</option>
                    {stated
                      .filter((each) => each.id !== id)
                      .map((each) => (
                        <option key={each.id} value={each.id}>
                          {each.label}
                        </option>
                      ))}
                  </select>
                  {others.length > 1 && (
                    <span className="quiet"> also {others.slice(1).map(labelOf).join(', ')}</span>
                  )}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}
