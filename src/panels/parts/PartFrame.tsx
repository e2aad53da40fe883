// What every part shares on screen: its name, its fields, copying and deleting.

import type { ReactNode } from 'react'
import { candidatesUsing, type PartList } from '../../model/project/references'
import type { Project } from '../../model/schema/project'
import { freeId, freeName } from '../../model/words/freeName'
import { LIMITS } from '../../model/words/limits'
import { editProject } from '../../store/workbench'
import { TextField } from '../../ui/fields/TextField'

interface PartFrameProps {
  readonly project: Project
  readonly list: PartList
  readonly kind: string
  readonly part: { readonly id: string; readonly name: string; readonly remark?: string | undefined }
  readonly children: ReactNode
}

/** Entries of one list, seen as what all lists have in common. */
function entriesOf(
  draft: Project,
  list: PartList,
): { id: string; name: string; remark?: string | undefined }[] {
  return draft[list]
}

export function PartFrame({ project, list, kind, part, children }: PartFrameProps) {
  const users = candidatesUsing(project, list, part.id)
  const rename = (name: string) =>
    editProject((draft) => {
      const own = entriesOf(draft, list).find((each) => each.id === part.id)
      if (own !== undefined) own.name = name
    })
  const note = (remark: string) =>
    editProject((draft) => {
      const own = entriesOf(draft, list).find((each) => each.id === part.id)
      if (own !== undefined) own.remark = remark === '' ? undefined : remark
    })
  const copy = () =>
    editProject((draft) => {
      const entries = entriesOf(draft, list)
      const own = project[list].find((each) => each.id === part.id)
      if (own === undefined) return
      const name = freeName(`${own.name}, copy`, entries)
      entries.push({ ...structuredClone(own), id: freeId(list, entries), name })
    })
  const remove = () =>
    editProject((draft) => {
      const entries = entriesOf(draft, list)
      const at = entries.findIndex((each) => each.id === part.id)
      if (at >= 0) entries.splice(at, 1)
    })
  return (
    <fieldset className="part">
      <legend>
        {part.name} <span className="quiet">{kind}</span>
      </legend>
      <div className="field-grid">
        <div className="name-field">
          <TextField label="Name" text={part.name} onCommit={rename} />
        </div>
        {children}
        <div className="part-remark">
          <TextField label="Remark" text={part.remark ?? ''} emptyAllowed longest={2000} onCommit={note} />
        </div>
      </div>
      <p className="part-actions">
        <button type="button" onClick={copy} disabled={project[list].length >= LIMITS.parts}>
          Copy {part.name}
        </button>
        {users.length === 0 ? (
          <button type="button" onClick={remove}>
            Delete {part.name}
          </button>
        ) : (
          <span className="quiet">In use by {users.join(', ')}; cannot be deleted.</span>
        )}
      </p>
    </fieldset>
  )
}
