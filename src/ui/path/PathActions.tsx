// What can be inserted into the path at an element, moved, removed or replaced. What cannot be built says why.

import { fittingRelay } from '../../analysis/tolerance/relayLenses'
import { addParts } from '../../model/parts/addParts'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editChain } from '../../store/elementEdits'
import { selectElement } from '../../store/view'
import { editProject, workbench } from '../../store/workbench'
import { Menu, type MenuEntry } from '../controls/Menu'
import { partChoices, replacePart } from './partChoices'
import { type ChainEdit, type PathEdit, pathEdits } from './pathEdits'

/** Applies an edit to the path and deselects an element that it removes. */
export function makePathEdit(designId: string, { id, edit, lenses }: PathEdit): void {
  if (edit === null) return
  if (lenses.length > 0) insertRelay(designId, edit, lenses)
  else editChain(designId, edit)
  if (id === 'remove') selectElement('')
}

/** A relay with the pair of the given lenses that suits it best, at its optimum; the rest of the path stays. One undo step. */
function insertRelay(designId: string, edit: ChainEdit, lenses: PathEdit['lenses']): void {
  const { project } = workbench.getState()
  const design = project.candidates.find(({ id }) => id === designId)
  if (design === undefined) return
  const chain = structuredClone(design.chain)
  edit(chain)
  const at = chain.findIndex(({ kind }, i) => kind === 'relay' && design.chain[i]?.kind !== 'relay')
  const relay = fittingRelay({ ...project, lenses: [...lenses] }, { ...design, chain }, chain[at]?.id ?? '')
  if (relay === null) return
  editProject((draft) => {
    const own = draft.candidates.find(({ id }) => id === designId)
    if (own === undefined) return
    const missing = lenses.filter(
      ({ id }) =>
        (id === relay.lens1Id || id === relay.lens2Id) && !draft.lenses.some((each) => each.id === id),
    )
    addParts(draft, { lenses: missing })
    own.chain[at] = structuredClone(relay)
  })
}

export function PathActions({
  project,
  design,
  at,
}: {
  readonly project: Project
  readonly design: Candidate
  readonly at: number
}) {
  const element = design.chain[at]
  if (element === undefined) return null
  const edits = () =>
    pathEdits(project, design, at).map((each) => ({
      id: each.id,
      label: each.label,
      disabled: each.edit === null,
      ...(each.edit === null ? { note: each.why } : {}),
      onChoose: () => makePathEdit(design.id, each),
    }))
  const replacements = () =>
    partChoices(project, element).flatMap(({ field, label, partId, options }): readonly MenuEntry[] => [
      {
        id: field,
        break: true,
        label: `Replace ${label.replace(/^[A-Z](?=[a-z])/, (letter) => letter.toLowerCase())}`,
      },
      ...options.map((option) => ({
        id: `${field} ${option.value}`,
        label: option.label,
        checked: option.value === partId,
        onChoose: () => replacePart(design.id, element.id, field, option.value),
      })),
    ])
  return (
    <Menu className="subtle" entries={() => [...edits(), ...replacements()]} align="end">
      Insert, move, remove, replace <span aria-hidden="true">▾</span>
    </Menu>
  )
}
