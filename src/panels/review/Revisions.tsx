// Saved states of the design: save one, restore one, compare with one or with another file, print one.

import { useState } from 'react'
import { readProjectText } from '../../model/index'
import { INPUT_LIMITS } from '../../model/project/hostileInput'
import { designOf, keepRevision, restoredProject } from '../../model/project/revisions'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import type { EarlierState } from '../../report/sheet'
import { editProject, workbench } from '../../store/workbench'
import { Complaint } from '../../ui/controls/Complaint'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { TextArea } from '../../ui/fields/TextArea'
import { TextField } from '../../ui/fields/TextField'

export interface Compared {
  /** Revision that the sheet shows; empty for the working state. */
  readonly shownId: string
  readonly before: EarlierState | null
}

const FILE = 'another file'

async function readEarlier(file: File): Promise<EarlierState | string> {
  if (file.size > INPUT_LIMITS.textBytes) return `${file.name} is too large`
  const result = readProjectText(await file.text())
  if (result.ok) return { name: file.name, project: result.value }
  return result.issues.map(({ message }) => message).join('; ')
}

function KeepRevision({ project, today }: { readonly project: Project; readonly today: string }) {
  const [name, setName] = useState('')
  const [remark, setRemark] = useState('')
  const [said, setSaid] = useState('')
  const keep = () => {
    let refused: string | null = null
    editProject((draft) => {
      refused = keepRevision(draft, designOf(project), { name, date: today, remark })
    })
    setSaid(refused ?? `${name} saved`)
    if (refused === null) {
      setName('')
      setRemark('')
    }
  }
  return (
    <>
      <TextField label="Name of the new revision" text={name} onCommit={setName} />
      <TextArea label="Description" text={remark} longest={10_000} rows={2} onCommit={setRemark} />
      <div className="sheet-buttons">
        <button type="button" disabled={name === ''} onClick={keep}>
          Save revision
        </button>
        <span role="status">{said}</span>
      </div>
    </>
  )
}

export function Revisions({
  project,
  today,
  compared,
  onCompare,
}: {
  readonly project: Project
  readonly today: string
  readonly compared: Compared
  readonly onCompare: (compared: Compared) => void
}) {
  const [complaint, setComplaint] = useState('')
  const revisions = project.revisions ?? []
  const named = revisions.map(({ id, name }) => ({ value: id, label: name }))
  const earlier = (id: string): EarlierState | null => {
    const state = restoredProject(project, id)
    const revision = byId(revisions, id)
    return state === null || revision === undefined ? null : { name: revision.name, project: state }
  }
  const beforeId =
    revisions.find(({ name }) => name === compared.before?.name)?.id ?? (compared.before === null ? '' : FILE)
  const restore = (id: string) => {
    const state = restoredProject(workbench.getState().project, id)
    if (state !== null) workbench.getState().replaceProject(state)
  }
  const openEarlier = async (file: File | undefined) => {
    if (file === undefined) return
    const read = await readEarlier(file)
    setComplaint(typeof read === 'string' ? read : '')
    if (typeof read !== 'string') onCompare({ ...compared, before: read })
  }
  return (
    <section aria-label="Revisions" className="revisions">
      <h2>Revisions</h2>
      <KeepRevision project={project} today={today} />
      {revisions.length > 0 && (
        <ul>
          {revisions.map(({ id, name, date, remark }) => (
            <li key={id}>
              <span>
                <strong>{name}</strong> <span className="quiet">{date}</span>
              </span>
              <button type="button" onClick={() => restore(id)}>
                Restore<span className="visually-hidden"> {name}</span>
              </button>
              {remark !== undefined && <span className="quiet revision-remark">{remark}</span>}
            </li>
          ))}
        </ul>
      )}
      <ChoiceField
        label="Revision shown"
        value={compared.shownId}
        choices={[{ value: '', label: 'current state' }, ...named]}
        onChoose={(shownId) => onCompare({ ...compared, shownId })}
      />
      <ChoiceField
        label="Compare with"
        value={beforeId}
        choices={[
          { value: '', label: 'none' },
          ...named,
          ...(beforeId === FILE ? [{ value: FILE, label: compared.before?.name ?? FILE }] : []),
        ]}
        onChoose={(id) => onCompare({ ...compared, before: earlier(id) })}
      />
      <label className="file-choice">
        Compare with another file
        <input type="file" accept=".json" onChange={(event) => void openEarlier(event.target.files?.[0])} />
      </label>
      <Complaint text={complaint} />
    </section>
  )
}
