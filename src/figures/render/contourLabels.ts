// Labels of contour lines: each on a spoke from the extreme of the grid, on the first one that crosses the line clear of the
// rim, of the labels before it and of what else is drawn; failing that, just outside of the line, and then over what is
// drawn. A line without such a place has no label.

import type { GridValues } from '../chart'

interface ContourLabel {
  /** Of the level in the list that was given. */
  readonly index: number
  readonly xPx: number
  readonly yPx: number
}

const SPOKES = 16
const STEPS = 120
const HEIGHT_PX = 15
const RIM_PX = 6

export interface LabelBox {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

const apart = (a: LabelBox, b: LabelBox) =>
  a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top

function extreme({ rows }: GridValues): {
  readonly column: number
  readonly row: number
} {
  let best = { column: 0, row: 0 }
  let least = Number.POSITIVE_INFINITY
  for (const [row, values] of rows.entries()) {
    for (let column = 0; column < values.length; column++) {
      const value = values[column] as number
      if (value < least) {
        least = value
        best = { column, row }
      }
    }
  }
  return best
}

/**
 * Places of labels in px. `toPx` places a point of the grid in the picture; `widthsPx` are the widths of the words, one a
 * level, and no label reaches out of the frame. `drawn` are places that labels keep clear of where they can. Levels rise from the grid's least value.
 */
export function contourLabels(
  grid: GridValues,
  levels: readonly number[],
  toPx: (x: number, y: number) => readonly [number, number],
  widthsPx: readonly number[],
  frame: LabelBox,
  drawn: readonly LabelBox[] = [],
): readonly ContourLabel[] {
  const { x, y, rows } = grid
  const from = extreme(grid)
  const [columns, lines] = [x.length - 1, y.length - 1]
  const taken: LabelBox[] = []
  const reach = Math.hypot(columns, lines)

  /** Where a spoke first crosses a level. */
  const crossing = (angle: number, level: number): readonly [number, number] | null => {
    const [across, up] = [(Math.cos(angle) * reach) / STEPS, (Math.sin(angle) * reach) / STEPS]
    for (let step = 1; step <= STEPS; step++) {
      const column = from.column + across * step
      const row = from.row + up * step
      if (column < 0 || row < 0 || column > columns || row > lines) return null
      const [i, j] = [Math.round(column), Math.round(row)]
      if ((rows[j]?.[i] ?? 0) >= level) return toPx(x[i] ?? 0, y[j] ?? 0)
    }
    return null
  }

  const fits = (box: LabelBox) =>
    box.left > frame.left + RIM_PX &&
    box.right < frame.right - RIM_PX &&
    box.top > frame.top + RIM_PX &&
    box.bottom < frame.bottom - RIM_PX &&
    taken.every((other) => apart(box, other))

  const [fromXPx, fromYPx] = toPx(x[from.column] ?? 0, y[from.row] ?? 0)

  return levels.flatMap((level, index) => {
    const half = (widthsPx[index] ?? 0) / 2
    const boxed = ([xPx, yPx]: readonly [number, number]) => {
      const [top, bottom] = [yPx - HEIGHT_PX / 2, yPx + HEIGHT_PX / 2]
      return {
        xPx,
        yPx,
        box: { left: xPx - half, right: xPx + half, top, bottom },
      }
    }
    /** The place moved outwards, until the label touches the line only. */
    const outside = ([xPx, yPx]: readonly [number, number]): readonly [number, number] => {
      const [dx, dy] = [xPx - fromXPx, yPx - fromYPx]
      const part = Math.min(half / Math.abs(dx), HEIGHT_PX / 2 / Math.abs(dy))
      return [xPx + part * dx, yPx + part * dy]
    }
    const isClear = ({ box }: { readonly box: LabelBox }) => drawn.every((other) => apart(box, other))
    const crossings: (readonly [number, number])[] = []
    const bestPosition = () => {
      let onLine: ReturnType<typeof boxed> | undefined
      for (let turn = 0; turn < SPOKES; turn++) {
        // Above and below first, where the words lie along the line and cover little of what is inside of it.
        const spoke = (4 + 8 * (index % 2) + turn * 3) % SPOKES
        const position = crossing((spoke * 2 * Math.PI) / SPOKES, level)
        if (position === null) continue
        crossings.push(position)
        const label = boxed(position)
        if (!fits(label.box)) continue
        if (isClear(label)) return label
        onLine ??= label
      }
      const beside = crossings.map((position) => boxed(outside(position)))
      return beside.find((label) => fits(label.box) && isClear(label)) ?? onLine
    }
    const best = bestPosition()
    if (best === undefined) return []
    taken.push(best.box)
    return [{ index, xPx: best.xPx, yPx: best.yPx }]
  })
}
