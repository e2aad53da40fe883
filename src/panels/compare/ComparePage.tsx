// All designs against the requirements and against each other, the best first.

import { useMemo } from 'react'
import { compareCandidates } from '../../analysis/compare/compareCandidates'
import { leadingLimitDb, leadingLoss } from '../../model/project/lossCriteria'
import type { Project } from '../../model/schema/project'
import { useEvaluations, useEvaluationsInTurn } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { openAddDesign } from '../../store/view'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { NoDesign } from '../../ui/controls/NoDesign'
import { Progress } from '../../ui/jobs/Progress'
import { ComparisonTable } from './ComparisonTable'
import { useCompareView } from './compareView'
import { CauseLegend, type ShownDesign } from './Pictures'
import { RunYields } from './RunYields'
import { SortAndBaseline } from './SortAndBaseline'
import './compare.css'

/** Many designs take a while, during which the page can be used. */
export function ComparePage() {
  const project = useWorkbench((state) => state.project)
  const { share } = useEvaluationsInTurn(project, '')
  if (share === 1) return <Comparison project={project} />
  return (
    <div className="page">
      <h1>Compare</h1>
      <Progress label="Evaluating…" share={share} />
    </div>
  )
}

function Comparison({ project }: { readonly project: Project }) {
  const fresh = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const evaluate = useEvaluations()
  const comparison = compareCandidates(project, evaluate, fresh, arrays)
  const { basis } = leadingLoss(project.requirements)
  const view = useCompareView(comparison, basis)
  const shownIds = view.shown.map((at) => comparison.columns[at]?.candidateId ?? '').join(' ')
  const designs = useMemo(
    () =>
      shownIds.split(' ').flatMap((id): readonly ShownDesign[] => {
        const design = project.candidates.find((each) => each.id === id)
        if (design === undefined) return []
        const result = evaluate(project, id)
        return [{ design, evaluation: result.ok ? result.value : null }]
      }),
    [project, shownIds, evaluate],
  )
  if (project.candidates.length === 0) {
    return (
      <div className="page">
        <h1>Compare</h1>
        <NoDesign />
      </div>
    )
  }
  const count = comparison.columns.length
  return (
    <div className="compare-page">
      <h1 className="visually-hidden">Compare</h1>
      <div className="compare-bar">
        <strong>
          {count} {count === 1 ? 'design' : 'designs'}, {view.meetsAll}{' '}
          {view.meetsAll === 1 ? 'meets' : 'meet'} every requirement
        </strong>
        <SortAndBaseline comparison={comparison} view={view} lossBasis={basis} />
        <span className="compare-run">
          <RunYields project={project} comparison={comparison} yields={fresh} arrays={arrays} />
          <button type="button" onClick={openAddDesign}>
            Add design…
          </button>
        </span>
      </div>
      <ComparisonTable
        project={project}
        comparison={comparison}
        view={view}
        designs={designs}
        limitDb={leadingLimitDb(project.requirements)}
      />
      <CauseLegend />
      <div className="compare-cautions">
        <Cautions />
      </div>
    </div>
  )
}
