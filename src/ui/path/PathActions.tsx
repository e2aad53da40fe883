// What can be inserted into the path at an element, moved, removed or replaced. What cannot be built says why.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editChain } from '../../store/elementEdits'
import { selectElement } from '../../store/view'
import { Menu, type MenuEntry } from '../controls/Menu'
import { partChoices, replacePart } from './partChoices'
import { type PathEdit, pathEdits } from './pathEdits'

/** Makes an edit of the path; the element that was removed is no longer selected. */
export function makePathEdit(designId: string, { id, edit }: PathEdit): void {
  if (edit === null) return
  editChain(designId, edit)
  if (id === 'remove') selectElement('')
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
  const edits = pathEdits(project, design, at).map((each) => ({
    id: each.id,
    label: each.label,
    disabled: each.edit === null,
    ...(each.edit === null ? { note: each.why } : {}),
    onChoose: () => makePathEdit(design.id, each),
  }))
  const element = design.chain[at]
  const choices = element === undefined ? [] : partChoices(project, element)
  const replacements = choices.flatMap(({ field, label, partId, options }): readonly MenuEntry[] => [
    { id: field, break: true, label: `Replace ${label}` },
    ...options.map((option) => ({
      id: `${field} ${option.value}`,
      label: option.label,
      checked: option.value === partId,
      onChoose: () => replacePart(design.id, element?.id ?? '', field, option.value),
    })),
  ])
  const entries = [...edits, ...replacements]
  if (entries.length === 0) return null
  return (
    <Menu className="subtle" entries={entries} align="end">
      Insert, move, remove, replace <span aria-hidden="true">▾</span>
    </Menu>
  )
}
