// All designs with their nominal loss, verdicts in numbers and the loss as a small stacked bar; the chosen one is shown in depth.

import { checkRequirements } from '../../analysis/index'
import type { Evaluation } from '../../analysis/results/evaluation'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { useEvaluationsInTurn } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { openAddDesign, selectDesign } from '../../store/view'
import { Cautions } from '../../ui/cautions/Cautions'
import { LossBar } from '../../ui/figures/LossBar'
import { lossText } from '../../ui/text/numbers'
import { DesignMenu } from './DesignMenu'
import './designs.css'

function verdictText(project: Project, evaluation: Evaluation, ...runs: RunsOf): string {
  const verdicts = checkRequirements(project, evaluation, ...runs)
  const count = (status: string) => verdicts.filter((each) => each.status === status).length
  const parts = [
    [count('met'), 'met'],
    [count('not met'), 'not met'],
    [count('not known'), 'not evaluated'],
  ] as const
  return parts
    .filter(([number]) => number > 0)
    .map(([number, word]) => `${number} ${word}`)
    .join(', ')
}

type RunsOf = [Parameters<typeof checkRequirements>[2], Parameters<typeof checkRequirements>[3]]

export function DesignsRail({ project, design }: { readonly project: Project; readonly design: Candidate }) {
  const evaluations = useEvaluationsInTurn(project, design.id)
  const yields = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const rows = project.candidates.map((each) => ({ design: each, result: evaluations.of(each.id) }))
  const mostDb = Math.max(
    ...rows.map(({ result }) => (result?.ok ? Math.min(result.value.nominalDb, MOST_SHOWN_DB) : 0)),
  )
  const full = project.candidates.length >= LIMITS.candidates
  return (
    <div className="designs">
      <ul className="design-list">
        {rows.map(({ design: { id, name }, result }) => (
          <li key={id} data-design={id} data-chosen={id === design.id}>
            <button
              type="button"
              className="design-choice"
              aria-current={id === design.id ? 'true' : undefined}
              onClick={() => selectDesign(id)}
            >
              <span className="design-name">{name}</span>
              <span className="design-loss">{result?.ok ? lossText(result.value.nominalDb) : '–'}</span>
              <span className="design-verdicts">
                {result?.ok
                  ? verdictText(project, result.value, yields.get(id) ?? null, arrays.get(id) ?? null)
                  : result === null
                    ? 'Evaluating…'
                    : 'not evaluated'}
              </span>
              {result?.ok && <LossBar lines={result.value.lines} mostDb={mostDb} />}
            </button>
            <DesignMenu project={project} designId={id} name={name} />
          </li>
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
