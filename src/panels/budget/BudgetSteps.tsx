// The budget as steps from nothing to the total.

import { useMemo } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import { waterfallFigure, waterfallHeightPx } from '../../figures/loss/waterfall'
import { FigureView } from '../../ui/figures/FigureView'
import { useAfterFrame } from '../../ui/figures/useAfterFrame'

export function BudgetSteps({ evaluation }: { readonly evaluation: Evaluation }) {
  // While a number is dragged the table moves in every frame; the bars follow when there is time.
  const { lines } = useAfterFrame(evaluation)
  const figure = useMemo(() => waterfallFigure('budget', 'Loss budget', lines), [lines])
  return (
    <div>
      <FigureView figure={figure} heightPx={waterfallHeightPx(lines.length)} />
    </div>
  )
}
