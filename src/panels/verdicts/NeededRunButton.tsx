// Makes the run that would answer a verdict; while it goes, says how far it is.

import type { Verdict } from '../../analysis/index'
import { startNeeded } from '../../store/idleRuns'
import { useRun } from '../../store/runs'

export function NeededRunButton({
  verdict,
  designId,
}: {
  readonly verdict: Verdict
  readonly designId: string
}) {
  const kind = verdict.needs ?? 'yield'
  const { progress } = useRun(kind, designId)
  const run = () => startNeeded(kind, designId)
  if (progress !== null) return <span className="verdict-running">{Math.round(100 * progress)} %</span>
  return (
    <button
      type="button"
      className="subtle verdict-run"
      aria-label={`Run ${kind} for ${verdict.label}`}
      onClick={() => void run()}
    >
      Run
    </button>
  )
}
