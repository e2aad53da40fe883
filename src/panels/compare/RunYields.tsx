// Yield and array runs for every candidate that has none that holds, one after the other.

import { useState } from 'react'
import { ARRAY_DEFAULTS } from '../../analysis/array/runArray'
import type { Comparison } from '../../analysis/compare/comparison'
import type { Project } from '../../model/schema/project'
import { startArray, startYield } from '../../store/runs'

export function RunYields({
  project,
  comparison,
  yields,
  arrays,
}: {
  readonly project: Project
  readonly comparison: Comparison
  /** Runs that hold for the project as it is, by candidate. */
  readonly yields: ReadonlyMap<string, unknown>
  readonly arrays: ReadonlyMap<string, unknown>
}) {
  const [running, setRunning] = useState('')
  const wantsArrays = project.requirements.channels > 1
  const open = comparison.columns.flatMap(({ candidateId, name, issues }) => {
    if (issues.length > 0) return []
    const chain = project.candidates.find((each) => each.id === candidateId)?.chain
    return [
      ...(yields.has(candidateId) ? [] : [{ candidateId, name, kind: 'yield' as const }]),
      ...(arrays.has(candidateId) || !wantsArrays || chain?.at(-2)?.kind !== 'gap'
        ? []
        : [{ candidateId, name, kind: 'array' as const }]),
    ]
  })
  const run = async () => {
    for (const { candidateId, name, kind } of open) {
      setRunning(kind === 'yield' ? `assemblies of ${name}` : `arrays of ${name}`)
      await (kind === 'yield'
        ? startYield(project, candidateId, {})
        : startArray(project, candidateId, ARRAY_DEFAULTS.samples))
    }
    setRunning('')
  }
  if (open.length === 0) return null
  return (
    <>
      <span role="status" className="quiet">
        {running === '' ? '' : `Simulating ${running}…`}
      </span>
      <button type="button" className="primary" disabled={running !== ''} onClick={() => void run()}>
        {wantsArrays ? 'Run yields and arrays' : 'Run yields'} ({open.length})
      </button>
    </>
  )
}
