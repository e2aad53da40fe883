// All designs with their nominal loss, verdicts in numbers and the loss as a small stacked bar; the chosen one is shown in depth.

import { memo } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import type { Verdict } from '../../analysis/results/verdict'
import type { Result } from '../../model/issue'
import { lossText } from '../../model/quantity/lossText'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { rememberedVerdicts, useEvaluationsInTurn } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { openAddDesign, selectDesign } from '../../store/view'
import { Cautions } from '../../ui/cautions/Cautions'
import { rove } from '../../ui/controls/roving'
import { LossBar } from '../../ui/figures/LossBar'
import { DesignMenu } from './DesignMenu'
import './designs.css'

/** The verdicts of a design, counted in one line of the rail. */
function countText(verdicts: readonly Verdict[]): string {
  const count = (status: Verdict['status']) => verdicts.filter((each) => each.status === status).length
  const open = count('not known')
  return `${count('met')} of ${verdicts.length} met${open === 0 ? '' : `, ${open} not evaluated`}`
}

interface DesignRowProps {
  readonly id: string
  readonly name: string
  readonly chosen: boolean
  /** Null where it cannot be evaluated, or not yet. */
  readonly evaluation: Evaluation | null
  readonly verdicts: string
  /** Whether it is from before the last change, and waits for its turn. */
  readonly outdated: boolean
  readonly mostDb: number
  readonly at: number
  readonly count: number
}

/** Drawn again only when something of it has changed: a project may have a hundred. */
const DesignRow = memo(function DesignRow({
  id,
  name,
  chosen,
  evaluation,
  verdicts,
  outdated,
  mostDb,
  at,
  count,
}: DesignRowProps) {
  return (
    <li data-design={id} data-chosen={chosen}>
      <button
        type="button"
        className="design-choice"
        data-outdated={outdated}
        aria-current={chosen ? 'true' : undefined}
        tabIndex={chosen ? 0 : -1}
        onClick={() => selectDesign(id)}
      >
        <span className="design-name">{name}</span>
        <span className="design-loss">{evaluation === null ? '–' : lossText(evaluation.nominalDb)}</span>
        <span className="design-verdicts">
          {verdicts}
          {outdated && <span className="visually-hidden">, out of date</span>}
        </span>
        {evaluation !== null && <LossBar lines={evaluation.lines} mostDb={mostDb} />}
      </button>
      <DesignMenu designId={id} name={name} at={at} count={count} isStop={chosen} />
    </li>
  )
})

export function DesignsRail({ project, design }: { readonly project: Project; readonly design: Candidate }) {
  const evaluations = useEvaluationsInTurn(project, design.id)
  const yields = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const rows = project.candidates.map(({ id, name }) => {
    const now = evaluations.of(id)
    return { id, name, result: now ?? evaluations.before(id), outdated: now === null }
  })
  const mostDb = Math.max(
    ...rows.map(({ result }) => (result?.ok ? Math.min(result.value.nominalDb, MOST_SHOWN_DB) : 0)),
  )
  const verdictsOf = (id: string, result: Result<Evaluation> | null) => {
    if (result === null) return 'Evaluating…'
    if (!result.ok) return 'not evaluated'
    return countText(
      rememberedVerdicts(project, result.value, yields.get(id) ?? null, arrays.get(id) ?? null),
    )
  }
  const full = project.candidates.length >= LIMITS.candidates
  return (
    <div className="designs">
      <ul className="design-list" onKeyDown={(event) => rove(event, '.design-choice')}>
        {rows.map(({ id, name, result, outdated }, at) => (
          <DesignRow
            key={id}
            id={id}
            name={name}
            chosen={id === design.id}
            evaluation={result?.ok ? result.value : null}
            verdicts={verdictsOf(id, result)}
            outdated={outdated}
            mostDb={mostDb}
            at={at}
            count={rows.length}
          />
        ))}
      </ul>
      <button type="button" className="add-design" disabled={full} onClick={openAddDesign}>
        Add a design
      </button>
      <details className="designs-cautions">
        <summary>Cautions: laser light, glass shards, UV</summary>
        <Cautions />
      </details>
      {full && <p className="quiet">A project holds at most {LIMITS.candidates} designs.</p>}
    </div>
  )
}

/** A design that loses nearly everything must not make the bars of the others vanish. */
const MOST_SHOWN_DB = 8
