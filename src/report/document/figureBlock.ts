// A figure as a block of the sheet: its picture on paper, its sentence as caption, its numbers as a table.

import type { Figure, FigureCell, FigureColumn } from '../../figures/figure'
import type { Size } from '../../figures/render/layout'
import { PALETTES } from '../../figures/render/palette'
import { CHART_SIZE, described, svgPicture } from '../../figures/render/picture'
import { fixedText, plainText } from '../../numerics/numberText'
import type { Cell, FigureBlock, Fit, Section } from './blocks'
import { plainBlocks, table } from './blocks'

/** Numbers behind a figure: seven digits are more than it shows. */
const DIGITS = 7

function figureCell(cell: FigureCell, { digits }: Pick<FigureColumn, 'digits'>): Cell {
  if (typeof cell === 'string') return cell
  const text = digits === undefined ? plainText(cell, DIGITS) : fixedText(cell, digits)
  return { value: cell, text }
}

export function figureBlock(
  { id, sentence, picture, table: numbers }: Figure,
  size: Size = CHART_SIZE,
  fit?: Fit,
): FigureBlock {
  return {
    kind: 'figure',
    id,
    caption: sentence,
    ...(fit !== undefined && { fit }),
    drawing: described(svgPicture(picture, { palette: PALETTES.paper, size }), sentence),
    table: table(
      sentence,
      numbers.columns.map(({ label, unit }) => ({ label, ...(unit !== undefined && { unit }) })),
      numbers.rows.map((row) => row.map((cell, i) => figureCell(cell, numbers.columns[i] ?? {}))),
    ),
  }
}

/** All figures of a sheet, in its order. */
export function figuresOf(sections: readonly Section[]): readonly FigureBlock[] {
  return sections.flatMap(({ blocks }) =>
    plainBlocks(blocks).flatMap((block) => (block.kind === 'figure' ? [block] : [])),
  )
}
