// An index map from a file, with what the file leaves open as questions; an answer reads it again.

import { fileOpen } from 'browser-fs-access'
import { useEffect, useState } from 'react'
import { runFieldJob } from '../../../jobs/fieldClient'
import type { Doubt } from '../../../measure/index'
import type { IndexMapEntry } from '../../../model/schema/coreTables'
import { megabytesText } from '../../../numerics/numberText'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import '../modeShape/modeShape.css'

const TABLES = { description: 'Index map as a table', extensions: ['.csv', '.txt', '.dat', '.tsv'] }
const LARGEST_BYTES = 20_000_000

const wasCancelled = (error: unknown) => error instanceof DOMException && error.name === 'AbortError'
const wordsOf = (error: unknown) => (error instanceof Error ? error.message : String(error))

interface OpenFile {
  readonly name: string
  readonly text: string
  readonly answers: Readonly<Record<string, string>>
  readonly doubts: readonly Doubt[]
}

export function IndexMapField({
  map,
  onMap,
}: {
  readonly map: IndexMapEntry | undefined
  readonly onMap: (map: IndexMapEntry) => void
}) {
  const [complaint, setComplaint] = useState('')
  const [file, setFile] = useState<OpenFile | null>(null)
  const [job, setJob] = useState<AbortController | null>(null)
  useEffect(() => () => job?.abort(), [job])
  const read = async (next: Omit<OpenFile, 'doubts'>) => {
    const own = new AbortController()
    setJob(own)
    setComplaint('')
    try {
      const { name, text, answers } = next
      const outcome = await runFieldJob('indexMap', { text, fileName: name, answers }, { signal: own.signal })
      if (own.signal.aborted) return
      if (outcome.ok) {
        setFile({ ...next, doubts: outcome.value.doubts })
        onMap(outcome.value.map)
      } else setComplaint(`${name}: ${outcome.message}`)
    } catch (error) {
      if (!own.signal.aborted) setComplaint(wordsOf(error))
    } finally {
      setJob((present) => (present === own ? null : present))
    }
  }
  const open = async () => {
    const chosen = await fileOpen(TABLES).catch((error: unknown) => {
      if (!wasCancelled(error)) setComplaint(wordsOf(error))
      return null
    })
    if (chosen === null) return
    if (chosen.size > LARGEST_BYTES) {
      setComplaint(
        `${chosen.name} is ${megabytesText(chosen.size)} long; must be at most ${LARGEST_BYTES / 1e6} MB`,
      )
      return
    }
    await read({ name: chosen.name, text: await chosen.text(), answers: {} })
  }
  return (
    <div className="import-field">
      <button type="button" disabled={job !== null} onClick={() => void open()}>
        {map === undefined ? 'Open index map…' : 'Replace index map…'}
      </button>
      {map === undefined ? (
        <p className="quiet">
          Columns x, y and refractive index on a regular grid, or a grid with x along the first row and y down
          the first column.
        </p>
      ) : (
        <details>
          <summary>{map.fileName}</summary>
          <ul className="quiet">
            {map.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      {file?.doubts.map((doubt) => (
        <ChoiceField
          key={doubt.id}
          label={doubt.question}
          value={doubt.assumed}
          choices={[doubt.assumed, ...doubt.alternatives].map((value) => ({
            value,
            label: value === 'um' ? 'µm' : value,
          }))}
          onChoose={(answer) => void read({ ...file, answers: { ...file.answers, [doubt.id]: answer } })}
        />
      ))}
      {job !== null && (
        <p className="import-progress">
          <span role="status">Reading the index map…</span>
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
