// What can be inserted into the path at an element, moved or removed. What cannot be built says why.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { editChain } from '../../store/elementEdits'
import { selectElement } from '../../store/view'
import { Menu } from '../controls/Menu'
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
  label = 'Change path',
}: {
  readonly project: Project
  readonly design: Candidate
  readonly at: number
  readonly label?: string
}) {
  const entries = pathEdits(project, design, at).map((each) => ({
    id: each.id,
    label: each.label,
    disabled: each.edit === null,
    ...(each.edit === null ? { note: each.why } : {}),
    onChoose: () => makePathEdit(design.id, each),
  }))
  if (entries.length === 0) return null
  return (
    <Menu className="subtle" entries={entries} align="end">
      {label} <span aria-hidden="true">▾</span>
    </Menu>
  )
}
