// The budget as steps from nothing to the total.

import { useMemo } from 'react'
import type { Evaluation } from '../../analysis/results/evaluation'
import { Plot } from '../../plots/Plot'
import { useAfterFrame } from '../../plots/useAfterFrame'
import { waterfallFigure } from '../../plots/waterfallFigure'
import { usePlotTheme } from '../../ui/figures/plotTheme'

const LEAST_HEIGHT_PX = 300
const LINE_PX = 21
const AXIS_PX = 70

export function BudgetSteps({ evaluation }: { readonly evaluation: Evaluation }) {
  const theme = usePlotTheme()
  // While a number is dragged the table moves in every frame; the bars follow when there is time.
  const { lines } = useAfterFrame(evaluation)
  const figure = useMemo(() => waterfallFigure(lines, theme), [lines, theme])
  return (
    <div>
      <Plot figure={figure} heightPx={Math.max(LEAST_HEIGHT_PX, AXIS_PX + LINE_PX * (lines.length + 1))} />
    </div>
  )
}
