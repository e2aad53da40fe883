// A figure as plain data: what the plotting library is given, and what is said and tabled beside it.

import type { FigureTable } from './figureTable'

export type Trace = Readonly<Record<string, unknown>>

export interface Figure {
  readonly data: readonly Trace[]
  readonly layout: Readonly<Record<string, unknown>>
  /** The result in one sentence, for those who do not see the drawing. */
  readonly sentence: string
  readonly table: FigureTable
}

export interface PlotTheme {
  readonly ink: string
  readonly rule: string
  readonly accent: string
  readonly font: string
}

/** The layout that all figures share. */
export function baseLayout(
  theme: PlotTheme,
  x: string,
  y: string,
): Readonly<Record<string, unknown>> & { readonly xaxis: object; readonly yaxis: object } {
  const axis = (title: string) => ({
    title: { text: title },
    gridcolor: theme.rule,
    zerolinecolor: theme.rule,
    linecolor: theme.ink,
    ticks: 'outside',
    ticklabeloverflow: 'allow', // the margins hold the labels; measuring each one takes half of the drawing time
  })
  return {
    paper_bgcolor: 'transparent',
    plot_bgcolor: 'transparent',
    font: { family: theme.font, size: 13, color: theme.ink },
    margin: { l: 56, r: 24, t: 12, b: 48 },
    showlegend: false,
    // Else the library leaves points out by the pixel, and smooth curves get corners.
    template: { data: { scatter: [{ line: { simplify: false } }] } },
    xaxis: axis(x),
    yaxis: axis(y),
  }
}
