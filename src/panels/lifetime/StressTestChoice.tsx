// Before a design has a lifetime: which stress test it takes, or readings to enter.

import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { offerText } from '../../store/benchDesk'
import { useDraft } from '../../ui/fields/useDraft'
import { editLifetime } from './editLifetime'

const HEADING = 'Assembly, Hours, Loss dB\n'

export function StressTestChoice({
  project,
  candidate,
}: {
  readonly project: Project
  readonly candidate: Candidate
}) {
  const [text, setText] = useDraft('stress readings', HEADING)
  const tests = project.measurements.filter(({ method }) => method === 'stress')
  return (
    <div className="depth-columns">
      <div>
        <p className="depth-answer">Drift over service life is not in the budget of this design.</p>
        {tests.map(({ id, name }) => (
          <p key={id}>
            <button
              type="button"
              className="primary"
              onClick={() =>
                editLifetime(candidate.id, (own) => {
                  own.measurementId = id
                })
              }
            >
              Use {name}
            </button>
          </p>
        ))}
        <p className="quiet">
          {tests.length === 0 && 'The project has no stress test yet. '}
          Drop a table (assembly, hours or cycles, loss) on the window, or enter one here.
        </p>
      </div>
      <div>
        <div className="field">
          <label htmlFor="stress-readings">Readings, one per line</label>
          <textarea
            id="stress-readings"
            className="stress-readings"
            rows={7}
            value={text}
            spellCheck={false}
            onChange={(event) => setText(event.target.value)}
          />
        </div>
        <p>
          <button
            type="button"
            disabled={text.trim() === HEADING.trim() || text.trim() === ''}
            onClick={() => offerText(text)}
          >
            Read the table
          </button>
        </p>
      </div>
    </div>
  )
}
