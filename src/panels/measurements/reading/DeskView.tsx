// The opened file: being read, refused, or waiting to be imported.

import { clearDesk, type DeskStage, useDesk } from '../../../store/benchDesk'
import { ReadingView } from './ReadingView'

export function DeskView({ stage }: { readonly stage: DeskStage }) {
  const waiting = useDesk((state) => state.waiting.length)
  if (stage.at === 'empty') return null
  const { file } = stage
  const reading = stage.at === 'read' ? stage.reading : stage.at === 'reading' ? stage.before : null
  return (
    <>
      <div className="candidate-head">
        <h2 className="measurement-title">{file.name}</h2>
        <span className="quiet">
          {file.date}
          {waiting > 0 && `; ${waiting} more waiting`}
        </span>
      </div>
      {stage.at === 'reading' && (
        <p role="status" className="reading-progress">
          <label>
            Reading… <progress max={1} value={stage.share} />
          </label>
          <button type="button" onClick={clearDesk}>
            Cancel
          </button>
        </p>
      )}
      {stage.at === 'refused' && (
        <>
          <p className="complaint" role="alert">
            {stage.message}
          </p>
          <button type="button" onClick={clearDesk}>
            Dismiss
          </button>
        </>
      )}
      {reading !== null && <ReadingView file={file} reading={reading} busy={stage.at === 'reading'} />}
    </>
  )
}
