// What misalignment costs as its tab shows it, whatever it is computed from: map, alignment tolerances, curve and table.

import type { ReactNode } from 'react'
import type { AxisWindow } from '../../analysis/tolerance/toleranceCurve'
import type { Chart } from '../../figures/chart'
import type { Figure } from '../../figures/figure'
import { withoutStation } from '../../figures/loss/lossMap'
import type { GaussianJoint } from '../../optics/index'
import { FigureView } from '../../ui/figures/FigureView'
import { WhenSeen } from '../../ui/figures/WhenSeen'
import { AxisChoice } from './AxisChoice'
import { ToleranceFrame } from './ToleranceFrame'
import type { ShownAxes } from './useShownAxes'
import { WindowTable } from './WindowTable'
import { movableOn } from './workingPoint'

export function ToleranceView({
  axes: { x, y, setX, setY },
  windows,
  figures,
  target,
  about,
  note,
  isProvisional = false,
}: {
  readonly axes: ShownAxes
  readonly windows: readonly AxisWindow[]
  /** Null while those of other axes are known only. */
  readonly figures: { readonly map: Figure<Chart>; readonly curve: Figure<Chart> | null } | null
  /** What a click moves: the joint as the map shows it. */
  readonly target: { readonly designId: string; readonly elementId: string; readonly joint: GaussianJoint }
  readonly about: string
  readonly note?: ReactNode
  /** Whether the numbers are about to be replaced by those of real lenses. */
  readonly isProvisional?: boolean
}) {
  const map = figures?.map ?? null
  const curve = figures?.curve ?? null
  return (
    <ToleranceFrame
      windows={windows}
      isProvisional={isProvisional}
      map={(heightPx, terse) =>
        map !== null && (
          <FigureView
            live
            figure={terse ? withoutStation(map) : map}
            heightPx={heightPx}
            movable={movableOn(map.picture, target, x, y)}
          />
        )
      }
      choices={
        <>
          <AxisChoice label="Horizontal axis" axis={x} other={y} onChoose={setX} />
          <AxisChoice label="Vertical axis" axis={y} other={x} onChoose={setY} />
        </>
      }
      note={note}
    >
      {(curvePx) => (
        <>
          <WhenSeen heightPx={curvePx}>
            {curve !== null && (
              <FigureView
                live
                figure={curve}
                heightPx={curvePx}
                movable={movableOn(curve.picture, target, x, null)}
              />
            )}
          </WhenSeen>
          <WindowTable windows={windows} about={about} isProvisional={isProvisional} />
        </>
      )}
    </ToleranceFrame>
  )
}
