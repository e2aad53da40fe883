// Start, progress, cancel and last message of a solution or a sweep.

import { fixedText } from '../../../numerics/numberText'
import { cancelModeRun, type ModeRunKind, useModeRun } from '../../../store/modeRuns'

export function ModeRunLine({
  kind,
  facetId,
  label,
  onStart,
}: {
  readonly kind: ModeRunKind
  readonly facetId: string
  readonly label: string
  readonly onStart: () => void
}) {
  const { progress, message, finished } = useModeRun(kind, facetId)
  const shown = message !== '' && finished !== null ? `${message} Showing the previous result.` : message
  return (
    <div className="run-line">
      {progress === null ? (
        <button type="button" className={finished === null ? 'primary' : undefined} onClick={onStart}>
          {label}
        </button>
      ) : (
        <>
          <button type="button" onClick={() => cancelModeRun(kind, facetId)}>
            Cancel
          </button>
          <progress value={progress} aria-label={`Progress: ${label}`} />
          <span className="number">{fixedText(100 * progress, 0)} %</span>
        </>
      )}
      <span role="status" className={message.startsWith('Cancelled') ? 'quiet' : 'complaint'}>
        {progress === null ? shown : ''}
      </span>
    </div>
  )
}
