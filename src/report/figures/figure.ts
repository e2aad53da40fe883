// A figure of the sheet and the file that it makes on its own.

import type { Cell, Column, FigureBlock, Section } from '../document/blocks'
import { table } from '../document/blocks'
import { element, type Markup, markupText } from '../document/markup'
import { FIGURE_STYLE } from './figureStyle'

export function figure(
  id: string,
  caption: string,
  drawing: Markup,
  columns: readonly (string | Column)[],
  rows: readonly (readonly Cell[])[],
): FigureBlock {
  return { kind: 'figure', id, caption, drawing, table: table(caption, columns, rows) }
}

/** Numbers behind a figure: seven digits are more than it shows. */
export function plotted(value: number): Cell {
  return { value, text: String(Number(value.toPrecision(7))) }
}

/** All figures of a sheet, in its order. */
export function figuresOf(sections: readonly Section[]): readonly FigureBlock[] {
  return sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'figure' ? [block] : [])))
}

/** A figure's name as part of a file's. */
export function figureFileName({ id }: FigureBlock): string {
  return id.replace(/[^\w-]+/g, '-')
}

/** The drawing as a file that needs nothing else, on white. */
export function svgFile({ drawing }: Pick<FigureBlock, 'drawing'>): string {
  const [, , width = '0', height = '0'] = String(drawing.attributes.viewBox).split(' ')
  const whole: Markup = {
    ...drawing,
    attributes: { ...drawing.attributes, width, height },
    children: [
      element('style', {}, FIGURE_STYLE),
      element('path', { fill: '#ffffff', d: `M0 0h${width}v${height}h-${width}z` }),
      ...drawing.children,
    ],
  }
  return `${markupText(whole)}\n`
}
