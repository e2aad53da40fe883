// What every part shares on screen: its name and kind, where it is used, copying and deleting, its fields, its remark.

import type { ReactNode } from 'react'
import { partOf } from '../../model/parts/partEdits'
import { KIND_LABELS, type PartKind, refKey } from '../../model/parts/partKinds'
import { type PartList, usersOf } from '../../model/project/references'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { openDesign } from '../../store/view'
import { editProject } from '../../store/workbench'
import { TextField } from '../../ui/fields/TextField'
import { copyPicked, deletePicked } from './list/pickedActions'

interface PartFrameProps {
  readonly project: Project
  readonly list: PartList
  readonly kind: PartKind
  readonly part: {
    readonly id: string
    readonly name: string
    readonly remark?: string | undefined
  }
  /** Places the fields among other views, where a part has more than one. */
  readonly tabs?: (fields: ReactNode) => ReactNode
  readonly children: ReactNode
}

/** Entries of one list, seen as what all lists have in common. */
function entryOf(
  draft: Project,
  list: PartList,
  id: string,
): { name: string; remark?: string | undefined } | undefined {
  return partOf(draft, { list, id })
}

export function PartFrame({ project, list, kind, part, tabs, children }: PartFrameProps) {
  const users = usersOf(project, list, part.id)
  const key = refKey({ list, id: part.id })
  const edit = (recipe: (own: { name: string; remark?: string | undefined }) => void) =>
    editProject((draft) => {
      const own = entryOf(draft, list, part.id)
      if (own !== undefined) recipe(own)
    })
  const fields = (
    <div className="field-grid part-fields">
      {children}
      <div className="part-remark">
        <TextField
          label="Remark"
          text={part.remark ?? ''}
          emptyAllowed
          longest={2000}
          onCommit={(remark) =>
            edit((own) => {
              own.remark = remark === '' ? undefined : remark
            })
          }
        />
      </div>
    </div>
  )
  return (
    <article className="part" aria-label={part.name}>
      <header className="part-head">
        <h2 className="visually-hidden">{part.name}</h2>
        <TextField
          label="Name"
          title
          text={part.name}
          onCommit={(name) =>
            edit((own) => {
              own.name = name
            })
          }
        />
        <span className="quiet">{KIND_LABELS[kind].one}</span>
        <span className="part-head-actions">
          <button
            type="button"
            className="subtle"
            aria-label={`Copy ${part.name}`}
            onClick={() => copyPicked(project, [key])}
            disabled={project[list].length >= LIMITS.parts}
          >
            Copy
          </button>
          <button
            type="button"
            className="subtle"
            aria-label={`Delete ${part.name}`}
            aria-describedby={`${key}-users`}
            onClick={() => deletePicked(project, [key])}
            disabled={users.length > 0}
          >
            Delete
          </button>
        </span>
      </header>
      <p className="part-users quiet" id={`${key}-users`}>
        {users.length === 0 ? (
          'Not used in any design.'
        ) : (
          <>
            Used in{' '}
            {users.map(({ id, name }, at) => (
              <span key={id}>
                {at > 0 && ' · '}
                <button type="button" className="subtle" onClick={() => openDesign(id)}>
                  {name}
                </button>
              </span>
            ))}
            ; cannot be deleted.
          </>
        )}
      </p>
      {tabs === undefined ? fields : tabs(fields)}
    </article>
  )
}
