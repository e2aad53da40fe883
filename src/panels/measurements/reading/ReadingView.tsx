// How the reader understood a file, to be confirmed: interpretation, questions, skipped lines, a preview, required inputs.

import { useId, useState } from 'react'
import { type Facts, neededFacts, newMeasurement, type Reading } from '../../../measure/index'
import { issueText } from '../../../model/issue'
import { packedLength } from '../../../model/parts/packedLength'
import { freeId, freeName } from '../../../model/words/freeName'
import { LIMITS } from '../../../model/words/limits'
import { chooseOnBench, clearDesk, clearImported, type DeskFile } from '../../../store/benchDesk'
import { loadReadBack } from '../../../store/readBack'
import { tryEdit, useWorkbench } from '../../../store/workbench'
import { Doubts } from './Doubts'
import { FactField, firstFacts } from './FactField'
import { ImageConclusions } from './ImageConclusions'
import { ReadingPreview } from './ReadingPreview'
import { RefusedLines } from './RefusedLines'
import { TableConclusions } from './TableConclusions'

export function ReadingView({
  file,
  reading,
  busy,
}: {
  readonly file: DeskFile
  readonly reading: Reading
  /** True while an answer is being worked in. */
  readonly busy: boolean
}) {
  const project = useWorkbench((state) => state.project)
  const id = useId()
  const needed = neededFacts(reading)
  const [typed, setTyped] = useState<Facts>({})
  const [complaint, setComplaint] = useState('')
  const facts: Facts = { ...firstFacts(needed, project), ...typed }
  const missing = needed.filter((fact) => facts[fact.name] === undefined)
  const errors = reading.findings.filter((finding) => finding.severity === 'error')

  const take = async () => {
    const measurement = newMeasurement(reading, facts, {
      id: freeId('measurement', project.measurements),
      fileName: file.name,
      date: file.date,
    })
    if (measurement === null) return
    const all = [...project.measurements, measurement]
    if (all.length > LIMITS.measurements || packedLength(all) > LIMITS.packedReadings) {
      setComplaint(
        `A project holds at most ${LIMITS.measurements} measurements of ${LIMITS.packedReadings / 1e6} million characters in total: delete one first.`,
      )
      return
    }
    await loadReadBack()
    const issues = tryEdit((draft) => {
      draft.measurements.push({ ...measurement, name: freeName(measurement.name, draft.measurements) })
    })
    if (issues.length > 0) {
      setComplaint(issues.map(issueText).join(' '))
      return
    }
    chooseOnBench(measurement.id)
    clearImported()
  }
  const obstacle =
    errors.length > 0
      ? 'Nothing can be evaluated with the current interpretation of the file.'
      : missing.length > 0
        ? `Missing: ${missing.map((fact) => fact.label).join(', ')}.`
        : complaint

  return (
    <div className="reading" aria-busy={busy}>
      <div className="decide">
        <button
          type="button"
          className="primary"
          disabled={busy || errors.length > 0 || missing.length > 0}
          aria-describedby={`${id}-obstacle`}
          onClick={() => void take()}
        >
          Import
        </button>
        <button type="button" onClick={clearDesk}>
          Discard
        </button>
        <span id={`${id}-obstacle`} className="quiet" role="status">
          {obstacle}
        </span>
      </div>
      <div className="reading-columns">
        <div>
          <ul className="findings">
            {reading.findings.map((finding) => (
              <li key={finding.message} className={finding.severity === 'error' ? 'complaint' : undefined}>
                {finding.message}
              </li>
            ))}
          </ul>
          {reading.kind === 'image' ? (
            <ImageConclusions reading={reading} />
          ) : (
            <TableConclusions reading={reading} />
          )}
          {reading.kind !== 'image' && <Doubts doubts={reading.doubts} />}
          {needed.length > 0 && (
            <fieldset className="questions">
              <legend>Required inputs</legend>
              {needed.map((fact) => (
                <FactField
                  key={fact.name}
                  fact={fact}
                  value={facts[fact.name]}
                  project={project}
                  onSet={(value) =>
                    setTyped(({ [fact.name]: _, ...rest }) =>
                      value === undefined ? rest : { ...rest, [fact.name]: value },
                    )
                  }
                />
              ))}
            </fieldset>
          )}
        </div>
        <ReadingPreview reading={reading} />
      </div>
      {reading.kind !== 'image' && <RefusedLines lines={reading.refusedLines} count={reading.refusedCount} />}
    </div>
  )
}
