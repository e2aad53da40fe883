// A design as a whole: its name, its elements, additional losses, its cost.

import { quantityOf } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Cost } from '../../model/schema/cost'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { freeId } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { selectElement } from '../../store/view'
import { editProject } from '../../store/workbench'
import { TextField } from '../../ui/fields/TextField'
import { headOf } from './words'

const MOST = 1e9
const COSTS: readonly { readonly field: keyof Cost; readonly label: string }[] = [
  { field: 'perChannel', label: 'Cost per channel' },
  { field: 'perModule', label: 'Fixed cost per module' },
]

function editDesign(designId: string, recipe: (own: Candidate) => void): void {
  editProject((draft) => {
    const own = byId(draft.candidates, designId)
    if (own !== undefined) recipe(own)
  })
}

function addUserLine(design: Candidate): void {
  const id = freeId('line', design.userLines)
  editDesign(design.id, (own) => {
    own.userLines.push({
      id,
      label: 'Additional loss',
      kind: 'user line',
      loss: quantityOf(0.1, 'dB'),
    })
  })
  selectElement(id)
}

export function DesignSection({
  project,
  design,
}: {
  readonly project: Project
  readonly design: Candidate
}) {
  const commitCost = (field: keyof Cost, label: string) => (text: string) => {
    const amount = Number(text.replace(',', '.'))
    if (!(amount >= 0 && amount <= MOST)) return `${label}: "${text}" is not a number from 0 to ${MOST}`
    editDesign(design.id, (own) => {
      const cost = { perChannel: 0, perModule: 0, ...own.cost, [field]: amount }
      // Nothing stated is not the same as costing nothing.
      own.cost = cost.perChannel === 0 && cost.perModule === 0 ? undefined : cost
    })
    return null
  }
  return (
    <div className="inspector-rows">
      <TextField
        label="Name"
        text={design.name}
        onCommit={(name) =>
          editDesign(design.id, (own) => {
            own.name = name
          })
        }
      />
      {COSTS.map(({ field, label }) => (
        <TextField
          numeric
          key={field}
          label={label}
          text={String(design.cost?.[field] ?? 0)}
          onCommit={commitCost(field, label)}
        />
      ))}
      <h3>Optical path</h3>
      <ol className="inspector-list">
        {design.chain.map((element, at) => {
          const { kind, title } = headOf(project, design, { kind: 'element', id: element.id, element, at })
          return (
            <li key={element.id}>
              <button type="button" className="subtle" onClick={() => selectElement(element.id)}>
                {title}
              </button>
              <span className="quiet">{kind === 'Element' ? '' : kind}</span>
            </li>
          )
        })}
      </ol>
      <h3>Additional losses</h3>
      {design.userLines.length > 0 && (
        <ul className="inspector-list">
          {design.userLines.map(({ id, label }) => (
            <li key={id}>
              <button type="button" className="subtle" onClick={() => selectElement(id)}>
                {label}
              </button>
            </li>
          ))}
        </ul>
      )}
      <button
        type="button"
        className="subtle"
        disabled={design.userLines.length >= LIMITS.userLines}
        onClick={() => addUserLine(design)}
      >
        Add loss contribution
      </button>
    </div>
  )
}
