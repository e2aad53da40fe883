// What the reader made of a file, for somebody to agree to: conclusions, questions, refusals, a preview, missing facts.

import { useId, useState } from 'react'
import { type Facts, neededFacts, newMeasurement, type Reading } from '../../bench/index'
import { packedLength } from '../../model/measurement'
import { freeId } from '../../model/newParts'
import { chooseOnBench, clearDesk, type DeskFile } from '../../store/benchDesk'
import { editProject, useWorkbench } from '../../store/workbench'
import { Doubts } from './Doubts'
import { FactField, firstFacts } from './FactField'
import { ImageConclusions } from './ImageConclusions'
import { ReadingPreview } from './ReadingPreview'
import { RefusedLines } from './RefusedLines'
import { TableConclusions } from './TableConclusions'

/** All readings of a project together, in characters; a file of more would not open again. */
const MOST_PACKED = 40_000_000

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

  const take = () => {
    const measurement = newMeasurement(reading, facts, {
      id: freeId('measurement', project.measurements),
      fileName: file.name,
      date: file.date,
    })
    if (measurement === null) return
    if (packedLength([...project.measurements, measurement]) > MOST_PACKED) {
      setComplaint('The project is full of readings: delete a measurement that is no longer needed.')
      return
    }
    editProject((draft) => {
      draft.measurements.push(measurement)
    })
    chooseOnBench(measurement.id)
    clearDesk()
  }
  const obstacle =
    errors.length > 0
      ? 'Nothing can be evaluated as the file is read now.'
      : missing.length > 0
        ? `Still needed: ${missing.map((fact) => fact.label).join(', ')}.`
        : complaint

  return (
    <div className="reading" aria-busy={busy}>
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
              <legend>What the result needs to know</legend>
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
          <div className="decide">
            <button
              type="button"
              className="primary"
              disabled={busy || errors.length > 0 || missing.length > 0}
              aria-describedby={`${id}-obstacle`}
              onClick={take}
            >
              Take these readings
            </button>
            <button type="button" onClick={clearDesk}>
              Discard
            </button>
            <span id={`${id}-obstacle`} className="quiet" role="status">
              {obstacle}
            </span>
          </div>
        </div>
        <ReadingPreview reading={reading} />
      </div>
      {reading.kind !== 'image' && <RefusedLines lines={reading.refusedLines} count={reading.refusedCount} />}
    </div>
  )
}
