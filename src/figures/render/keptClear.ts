// What the labels of contour lines keep clear of, in px: the edges of boxes, and marks.

import type { Series } from '../chart'
import type { LabelBox } from './contourLabels'
import type { Frame } from './layout'

const EDGE_PX = 1.5
const MARK_PX = 7

function boxEdges(
  x: readonly [number, number],
  y: readonly [number, number],
  frame: Frame,
): readonly LabelBox[] {
  const [left, right] = [frame.x(x[0]), frame.x(x[1])]
  const [bottom, top] = [frame.y(y[0]), frame.y(y[1])]
  const level = (yPx: number): LabelBox => ({ left, right, top: yPx - EDGE_PX, bottom: yPx + EDGE_PX })
  const upright = (xPx: number): LabelBox => ({ left: xPx - EDGE_PX, right: xPx + EDGE_PX, top, bottom })
  return [level(top), level(bottom), upright(left), upright(right)]
}

export function keptClear(series: readonly Series[], frame: Frame): readonly LabelBox[] {
  return series.flatMap((each): readonly LabelBox[] => {
    if (each.kind === 'box' && !each.filled && each.x !== null && each.y !== null) {
      return boxEdges(each.x, each.y, frame)
    }
    if (each.kind !== 'points') return []
    return Array.from(each.x, (x, i): LabelBox => {
      const [xPx, yPx] = [frame.x(x), frame.y(each.y[i] ?? 0)]
      return { left: xPx - MARK_PX, right: xPx + MARK_PX, top: yPx - MARK_PX, bottom: yPx + MARK_PX }
    })
  })
}
