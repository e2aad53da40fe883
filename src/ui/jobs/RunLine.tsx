// The line of a run: one button that starts it and gives it up, so that it keeps the keyboard's focus; how far it is.

import { fixedText } from '../../numerics/numberText'

export function RunLine({
  label,
  counted,
  progress,
  message,
  first,
  onStart,
  onCancel,
}: {
  readonly label: string
  /** The label of the bar: `Samples done`. */
  readonly counted: string
  /** Share done, 0 to 1; null while nothing runs. */
  readonly progress: number | null
  readonly message: string
  /** True until there is a result: starting the run is then the primary action. */
  readonly first: boolean
  readonly onStart: () => void
  readonly onCancel: () => void
}) {
  const runs = progress !== null
  return (
    <div className="run-line">
      <button
        type="button"
        className={first && !runs ? 'primary' : undefined}
        onClick={runs ? onCancel : onStart}
      >
        {runs ? 'Cancel run' : label}
      </button>
      {runs && (
        <>
          <progress value={progress} aria-label={counted} />
          <span className="number">{fixedText(100 * progress, 0)} %</span>
        </>
      )}
      <span role="status">{runs ? '' : message}</span>
    </div>
  )
}
