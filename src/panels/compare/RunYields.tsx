// Starts the yield and array runs that are missing or out of date.

import type { Comparison } from '../../analysis/compare/comparison'
import type { Project } from '../../model/schema/project'
import { runAll, runsOf, useRunningAll } from '../../store/runAll'

export function RunYields({
  project,
  comparison,
  yields,
  arrays,
}: {
  readonly project: Project
  readonly comparison: Comparison
  /** Runs that hold for the project as it is, by design. */
  readonly yields: ReadonlyMap<string, unknown>
  readonly arrays: ReadonlyMap<string, unknown>
}) {
  const running = useRunningAll()
  const computed = new Set(
    comparison.columns.flatMap(({ candidateId, issues }) => (issues.length > 0 ? [] : [candidateId])),
  )
  const open = runsOf(project).filter(
    ({ candidateId, kind }) =>
      computed.has(candidateId) && !(kind === 'yield' ? yields : arrays).has(candidateId),
  )
  if (open.length === 0) return <span role="status" className="visually-hidden" />
  return (
    <>
      <span role="status" className="quiet">
        {running === '' ? '' : `Simulating ${running}…`}
      </span>
      <button type="button" className="primary" disabled={running !== ''} onClick={() => void runAll(open)}>
        {project.requirements.channels > 1 ? 'Run yields and arrays' : 'Run yields'} ({open.length})
      </button>
    </>
  )
}
