// Bringing a field: a table from a file, or an image among the measurements.

import { fileOpen } from 'browser-fs-access'
import { useEffect, useState } from 'react'
import { runFieldJob } from '../../../jobs/fieldClient'
import type { ImportedShape } from '../../../model/schema/modeShape'
import type { Project } from '../../../model/schema/project'
import { megabytesText } from '../../../numerics/numberText'
import type { Outcome } from '../../../numerics/outcome'
import { ChoiceField } from '../../../ui/fields/ChoiceField'

const TABLES = { description: 'Field as a table', extensions: ['.csv', '.txt', '.dat', '.tsv'] }
const LARGEST_BYTES = 50_000_000

const wasCancelled = (error: unknown) => error instanceof DOMException && error.name === 'AbortError'

export function ImportField({
  shape,
  project,
  wavelengthUm,
  onImport,
}: {
  /** The field that is in place, or null. */
  readonly shape: ImportedShape | null
  readonly project: Project
  readonly wavelengthUm: number
  readonly onImport: (shape: ImportedShape) => void
}) {
  const [complaint, setComplaint] = useState('')
  /** The reading under way; null while none is. */
  const [job, setJob] = useState<AbortController | null>(null)
  useEffect(() => () => job?.abort(), [job])
  const busy = job !== null
  const images = project.measurements.filter((each) => each.method === 'image')
  const take = async (work: (signal: AbortSignal) => Promise<Outcome<ImportedShape>>) => {
    const own = new AbortController()
    setJob(own)
    setComplaint('')
    try {
      const outcome = await work(own.signal)
      if (own.signal.aborted) return
      if (outcome.ok) onImport(outcome.value)
      else setComplaint(outcome.message)
    } catch (error) {
      if (!own.signal.aborted) setComplaint(error instanceof Error ? error.message : String(error))
    } finally {
      setJob((present) => (present === own ? null : present))
    }
  }
  const open = async () => {
    const file = await fileOpen(TABLES).catch((error: unknown) => {
      if (!wasCancelled(error)) setComplaint(error instanceof Error ? error.message : String(error))
      return null
    })
    if (file === null) return
    await take(async (signal) => {
      if (file.size > LARGEST_BYTES) {
        return {
          ok: false,
          message: `${file.name} is ${megabytesText(file.size)} long; must be at most ${LARGEST_BYTES / 1e6} MB`,
        }
      }
      const input = { text: await file.text(), fileName: file.name, wavelengthUm }
      return runFieldJob('table', input, { signal })
    })
  }
  const fromImage = (id: string) => {
    const measurement = images.find((each) => each.id === id)
    if (measurement === undefined) return
    void take((signal) => runFieldJob('image', { measurement, wavelengthUm }, { signal }))
  }
  return (
    <div className="import-field">
      <button type="button" disabled={busy} onClick={() => void open()}>
        {shape === null ? 'Open field table…' : 'Replace with a table…'}
      </button>
      {images.length > 0 && (
        <ChoiceField
          label="Image in Measurements"
          value=""
          choices={[
            { value: '', label: 'choose' },
            ...images.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChoose={fromImage}
        />
      )}
      {shape === null ? (
        <p className="quiet">
          Columns x and y with amplitude and phase, real and imaginary, or intensity (a flat phase is then
          assumed), on a regular grid.
        </p>
      ) : (
        <details>
          <summary>{shape.fileName}</summary>
          <ul className="quiet">
            {shape.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      {busy && (
        <p className="import-progress">
          <span role="status">Reading the field</span>
          <button type="button" onClick={() => job.abort()}>
            Cancel
          </button>
        </p>
      )}
      {complaint !== '' && (
        <p className="complaint" role="alert">
          {complaint}
        </p>
      )}
    </div>
  )
}
