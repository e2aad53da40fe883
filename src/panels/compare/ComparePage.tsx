// All candidates against the requirements and against each other.

import { useDeferredValue, useMemo, useState } from 'react'
import { chipCurves } from '../../analysis/compare/chipCurves'
import { CHIP_AXES, type ChipAxis } from '../../analysis/compare/chipWindows'
import { compareCandidates } from '../../analysis/compare/compareCandidates'
import type { Evaluation } from '../../analysis/results/evaluation'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { lossStackFigure } from '../../plots/lossStackFigure'
import { Plot } from '../../plots/Plot'
import { multiplesRows, toleranceMultiplesFigure } from '../../plots/toleranceMultiplesFigure'
import { AXIS_TEXT } from '../../report/figures/axisText'
import { useEvaluations } from '../../store/evaluations'
import { useFreshRuns } from '../../store/runs'
import { useWorkbench } from '../../store/workbench'
import { Cautions } from '../../ui/cautions/Cautions'
import { NoDesign } from '../../ui/controls/NoDesign'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { usePlotTheme } from '../../ui/figures/plotTheme'
import { ComparisonTable } from './ComparisonTable'
import { useCompareView } from './compareView'
import { RunYields } from './RunYields'
import './compare.css'

const BAR_PX = 44
const BARS_MARGIN_PX = 110
const CURVE_ROW_PX = 190

export function ComparePage() {
  const project = useWorkbench((state) => state.project)
  const [axis, setAxis] = useState<ChipAxis>('offsetXUm')
  const theme = usePlotTheme()
  const fresh = useFreshRuns('yield', project)
  const arrays = useFreshRuns('array', project)
  const evaluate = useEvaluations()
  const comparison = compareCandidates(project, evaluate, fresh, arrays)
  const view = useCompareView(comparison)
  // The table moves with every edit; the figures follow when there is time.
  const settled = useDeferredValue(project)
  const shownIds = view.shown.map((at) => comparison.columns[at]?.candidateId ?? '').join(' ')
  const evaluated = useMemo(
    () =>
      shownIds.split(' ').flatMap((id): readonly { name: string; evaluation: Evaluation }[] => {
        const name = settled.candidates.find((each) => each.id === id)?.name
        if (name === undefined) return []
        const result = evaluate(settled, id)
        return result.ok ? [{ name, evaluation: result.value }] : []
      }),
    [settled, shownIds, evaluate],
  )
  const bars = useMemo(
    () =>
      lossStackFigure(
        evaluated.map(({ name, evaluation }) => ({ name, lines: evaluation.lines })),
        leadingLimitDb(settled.requirements),
        theme,
      ),
    [evaluated, settled, theme],
  )
  const curves = useMemo(() => {
    const withJoint = evaluated.flatMap(({ name, evaluation }) => {
      const joint = evaluation.joints.at(-1)?.joint
      return joint === undefined ? [] : [{ name, joint }]
    })
    const sampled = chipCurves(
      withJoint.map(({ joint }) => joint),
      axis,
    )
    return toleranceMultiplesFigure(
      sampled.map((curve, i) => ({ name: withJoint[i]?.name ?? '', ...curve })),
      AXIS_TEXT[axis],
      theme,
    )
  }, [evaluated, axis, theme])
  if (project.candidates.length === 0) {
    return (
      <div className="page">
        <h1>Compare</h1>
        <NoDesign />
      </div>
    )
  }
  return (
    <div className="page compare-page">
      <h1>Compare</h1>
      <p className="quiet compare-hint">
        A row's name sorts by it; the best number of a row is bold. Pinning a baseline shows differences to
        it.{' '}
        <label className="compare-only">
          <input
            type="checkbox"
            checked={view.onlyDiffering}
            onChange={(event) => view.setOnlyDiffering(event.target.checked)}
          />
          Only what differs
        </label>{' '}
        {view.hiddenCount > 0 && (
          <button type="button" onClick={view.showAll}>
            Show {view.hiddenCount} hidden
          </button>
        )}
      </p>
      <RunYields project={project} comparison={comparison} yields={fresh} arrays={arrays} />
      <ComparisonTable comparison={comparison} view={view} />
      <h2>Where the light is lost</h2>
      <Plot figure={bars} heightPx={BARS_MARGIN_PX + BAR_PX * evaluated.length} />
      <h2>Room at the chip</h2>
      <div className="axis-choices">
        <ChoiceField
          label="Displacement"
          value={axis}
          choices={CHIP_AXES.map((value) => ({ value, label: AXIS_TEXT[value].name }))}
          onChoose={(value) => setAxis(CHIP_AXES.find((each) => each === value) ?? axis)}
        />
      </div>
      <Plot figure={curves} heightPx={60 + CURVE_ROW_PX * multiplesRows(evaluated.length)} />
      <Cautions />
    </div>
  )
}
