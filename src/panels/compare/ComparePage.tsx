// All designs against the requirements and against each other, the best first.

import { memo, useEffect, useMemo, useRef } from 'react'
import { compareCandidates } from '../../analysis/compare/compareCandidates'
import type { Comparison as ComparisonOf } from '../../analysis/compare/comparison'
import type { Evaluation } from '../../analysis/results/evaluation'
import { leadingLimitDb, leadingLoss } from '../../model/project/lossCriteria'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { useEvaluations, useEvaluationsInTurn } from '../../store/evaluations'
import { takeJustBuilt, useStarting } from '../../store/files/starting'
import { useFreshRuns } from '../../store/runs'
import { openAddDesign } from '../../store/view'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { NoDesign } from '../../ui/empty/NoDesign'
import { Progress } from '../../ui/jobs/Progress'
import { ComparisonTable } from './ComparisonTable'
import { meetsText, useCompareView } from './compareView'
import { FamiliesLeftOut } from './FamiliesLeftOut'
import { CauseLegend, type ShownDesign } from './Pictures'
import { RunYields } from './RunYields'
import { SortAndBaseline } from './SortAndBaseline'
import './compare.css'

/** What is shown: one state of the project with everything that was computed of it. */
interface Compared {
  readonly project: Project
  readonly comparison: ComparisonOf
  readonly results: ReadonlyMap<string, Evaluation | null>
  readonly yields: ReturnType<typeof useFreshRuns<'yield'>>
  readonly arrays: ReturnType<typeof useFreshRuns<'array'>>
}

/** Many designs take a while, during which the page can be used and what was there before is shown, greyed. */
export function ComparePage() {
  const project = useWorkbench((state) => state.project)
  const { share } = useEvaluationsInTurn(project, '')
  const yields = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const evaluate = useEvaluations()
  const complete = share === 1
  const now = useMemo((): Compared | null => {
    if (!complete) return null
    const results = project.candidates.map(({ id }) => [id, evaluate(project, id)] as const)
    return {
      project,
      comparison: compareCandidates(project, evaluate, yields, arrays),
      results: new Map(results.map(([id, result]) => [id, result.ok ? result.value : null])),
      yields,
      arrays,
    }
  }, [complete, project, evaluate, yields, arrays])
  const last = useRef(now)
  last.current = now ?? last.current
  if (last.current === null) {
    return (
      <div className="page">
        <h1>Compare</h1>
        <Progress label="Evaluating…" share={share} />
      </div>
    )
  }
  return (
    <>
      {now === null && (
        <div className="compare-waits">
          <Progress label="Evaluating…" share={share} />
        </div>
      )}
      <div className="compare-frame" data-outdated={now === null} inert={now === null}>
        <Comparison {...last.current} />
      </div>
    </>
  )
}

/** The designs that were just built are what the person goes on with: the focus goes to what is said of them. */
function useFocusOnceBuilt(shown: Project) {
  const heading = useRef<HTMLHeadingElement>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another project can be one that was just built
  useEffect(() => {
    if (takeJustBuilt()) heading.current?.focus()
  }, [shown])
  return heading
}

const Comparison = memo(function Comparison({ project, comparison, results, yields, arrays }: Compared) {
  const { basis } = leadingLoss(project.requirements)
  const heading = useFocusOnceBuilt(project)
  const view = useCompareView(comparison, basis)
  const leftOut = useStarting((state) => state.leftOut)
  const shownIds = view.shown.map((at) => comparison.columns[at]?.candidateId ?? '').join(' ')
  const designs = useMemo(
    () =>
      shownIds.split(' ').flatMap((id): readonly ShownDesign[] => {
        const design = byId(project.candidates, id)
        return design === undefined ? [] : [{ design, evaluation: results.get(id) ?? null }]
      }),
    [project, shownIds, results],
  )
  if (project.candidates.length === 0) {
    return (
      <div className="page">
        <h1>Compare</h1>
        <NoDesign shows="All designs side by side against the requirements, with the reason for every failure." />
      </div>
    )
  }
  const count = comparison.columns.length
  return (
    <div className="compare-page">
      <div className="compare-bar">
        <h1 ref={heading} tabIndex={-1}>
          <span className="visually-hidden">Compare: </span>
          <span>{meetsText(count, view.meetsAll)}</span>
        </h1>
        <SortAndBaseline comparison={comparison} view={view} lossBasis={basis} />
        <span className="compare-run">
          <RunYields project={project} comparison={comparison} yields={yields} arrays={arrays} />
          <button type="button" onClick={openAddDesign}>
            Add design…
          </button>
        </span>
      </div>
      <FamiliesLeftOut outcomes={leftOut} />
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
})
