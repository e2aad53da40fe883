// The budget as steps from nothing to the total.

import { useMemo } from 'react'
import type { Evaluation } from '../../analysis/evaluation'
import { Plot } from '../../plots/Plot'
import { waterfallFigure } from '../../plots/waterfallFigure'
import { usePlotTheme } from '../tolerance/plotTheme'

const HEIGHT_PX = 300

export function BudgetSteps({ evaluation }: { readonly evaluation: Evaluation }) {
  const theme = usePlotTheme()
  const figure = useMemo(() => waterfallFigure(evaluation.lines, theme), [evaluation, theme])
  return (
    <div className="budget-steps">
      <Plot figure={figure} heightPx={HEIGHT_PX} />
    </div>
  )
}
