// Yield runs for every candidate that has none that holds, one after the other.

import { useState } from 'react'
import type { Comparison } from '../../analysis/compare/comparison'
import type { Project } from '../../model/project'
import { startYield } from '../../store/runs'

export function RunYields({
  project,
  comparison,
  known,
}: {
  readonly project: Project
  readonly comparison: Comparison
  /** Runs that hold for the project as it is. */
  readonly known: number
}) {
  const [running, setRunning] = useState('')
  const computable = comparison.columns.filter((column) => column.issues.length === 0)
  const run = async () => {
    for (const { candidateId, name } of computable) {
      setRunning(name)
      await startYield(project, candidateId, {})
    }
    setRunning('')
  }
  if (known >= computable.length) return null
  return (
    <p className="compare-runs">
      <button type="button" disabled={running !== ''} onClick={() => void run()}>
        Run the yields for the percentile
      </button>{' '}
      <span role="status" className="quiet">
        {running === '' ? '' : `drawing assemblies of ${running}`}
      </span>
    </p>
  )
}
