// A figure as plain data: what it states, the numbers behind it, and its picture. Two renderers read the picture: one for
// the plotting library on the page (ui/figure), one to SVG for paper, files and whatever moves with a drag (render/).

import type { Chart } from './chart'
import type { Markup } from './render/markup'
import type { Palette } from './render/palette'

export interface FigureColumn {
  readonly label: string
  /** Of every number of the column. */
  readonly unit?: string
  /** Decimals on paper; without them seven digits in all. */
  readonly digits?: number
}

export type FigureCell = string | number

export interface FigureTable {
  readonly columns: readonly FigureColumn[]
  readonly rows: readonly (readonly FigureCell[])[]
}

/** A drawing to scale, or any other picture that is not a chart. */
export interface Drawing {
  readonly kind: 'drawing'
  readonly widthPx: number
  readonly heightPx: number
  readonly draw: (palette: Palette) => Markup
}

/** Small charts side by side on one scale, each with its name. */
export interface Multiples {
  readonly kind: 'multiples'
  readonly columns: number
  readonly charts: readonly { readonly name: string; readonly chart: Chart }[]
}

export type Picture = Chart | Drawing | Multiples

export interface Figure<P extends Picture = Picture> {
  /** Stable name, also that of its file. */
  readonly id: string
  /** The result in one sentence, for everybody and for those who do not see the picture. */
  readonly sentence: string
  readonly table: FigureTable
  readonly picture: P
}

/** `Loss, dB`. */
export function columnTitle({ label, unit }: Pick<FigureColumn, 'label' | 'unit'>): string {
  return unit === undefined || unit === '' ? label : `${label}, ${unit}`
}
