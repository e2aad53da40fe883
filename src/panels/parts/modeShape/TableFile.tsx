// A table opened from a file: the button, what is in place, and how the reading goes.

import type { ReactNode } from 'react'
import { useState } from 'react'
import { chooseFile } from '../../../store/files/chooseFile'
import { Complaint } from '../../../ui/controls/Complaint'
import type { StartedJob } from '../../../ui/jobs/useStartedJob'
import './modeShape.css'

const EXTENSIONS = ['.csv', '.txt', '.dat', '.tsv']

export function TableFile({
  open,
  kind,
  inPlace,
  columns,
  reading,
  job,
  onFile,
  children,
}: {
  /** Label of the button. */
  readonly open: string
  readonly kind: { readonly description: string; readonly largestBytes: number }
  /** What has been read before. */
  readonly inPlace: { readonly fileName: string; readonly notes: readonly string[] } | undefined
  /** What the table must hold, shown while nothing is in place. */
  readonly columns: string
  /** What is being done, while it is. */
  readonly reading: string
  readonly job: StartedJob
  readonly onFile: (file: File) => void
  /** Other ways and questions, below the button. */
  readonly children?: ReactNode
}) {
  const [refusal, setRefusal] = useState('')
  const busy = job.progress !== null
  const choose = async () => {
    const chosen = await chooseFile({ ...kind, extensions: EXTENSIONS })
    if (chosen === null) return
    setRefusal(chosen.ok ? '' : chosen.message)
    if (chosen.ok) onFile(chosen.value)
  }
  const complaint = busy ? '' : refusal || job.message
  return (
    <div className="import-field">
      <button type="button" disabled={busy} onClick={() => void choose()}>
        {open}
      </button>
      {inPlace === undefined ? (
        <p className="quiet">{columns}</p>
      ) : (
        <details>
          <summary>{inPlace.fileName}</summary>
          <ul className="quiet">
            {inPlace.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      {children}
      {busy && (
        <p className="import-progress">
          <span role="status">{reading}</span>
          <button type="button" onClick={job.cancel}>
            Cancel
          </button>
        </p>
      )}
      <Complaint text={complaint} />
    </div>
  )
}
