// The losses of several candidates as stacked bars on one scale, by what causes them.

import type { BudgetLine, LineKind } from '../analysis/results/evaluation'
import { baseLayout, type Figure, type PlotTheme } from './figure'

/** Okabe and Ito's colours for colour-blind readers, with kinds that belong together in one. */
const CAUSES: readonly {
  readonly name: string
  readonly colour: string
  readonly kinds: readonly LineKind[]
}[] = [
  { name: 'mode mismatch', colour: '#0072b2', kinds: ['mode mismatch', 'mode shape', 'aberration'] },
  { name: 'misalignment', colour: '#56b4e9', kinds: ['gap', 'lateral offset', 'tilt', 'roll', 'combined'] },
  { name: 'reflection', colour: '#e69f00', kinds: ['fresnel'] },
  { name: 'clipping', colour: '#d55e00', kinds: ['clipping'] },
  { name: 'splice, connector', colour: '#009e73', kinds: ['splice', 'connector'] },
  { name: 'taper, device', colour: '#cc79a7', kinds: ['taper', 'device', 'propagation', 'absorption'] },
  { name: 'own lines', colour: '#999999', kinds: ['user line'] },
]

export interface StackedCandidate {
  readonly name: string
  readonly lines: readonly Pick<BudgetLine, 'kind' | 'lossDb'>[]
}

const MARGIN_DB = 1.08

/** One bar a candidate, in the order given; `limitDb` is drawn across all of them. */
export function lossStackFigure(
  candidates: readonly StackedCandidate[],
  limitDb: number,
  theme: PlotTheme,
): Figure {
  const parts = candidates.map(({ lines }) =>
    CAUSES.map(({ kinds }) =>
      lines.reduce((sum, line) => sum + (kinds.includes(line.kind) ? line.lossDb : 0), 0),
    ),
  )
  const totals = parts.map((own) => own.reduce((sum, db) => sum + db, 0))
  // Places are numbers, because two candidates may have one name.
  const places = candidates.map((_, i) => i)
  const names = candidates.map(({ name }) => name)
  const least = totals.indexOf(Math.min(...totals))
  const widest = Math.max(limitDb, ...totals) * MARGIN_DB
  return {
    data: [
      ...CAUSES.map(({ name, colour }, cause) => ({
        type: 'bar',
        orientation: 'h',
        name,
        y: places,
        x: parts.map((own) => own[cause] ?? 0),
        marker: { color: colour },
        customdata: names,
        hovertemplate: `%{customdata}, ${name}: %{x:.2f} dB<extra></extra>`,
      })),
      {
        type: 'scatter',
        mode: 'text',
        y: places,
        x: totals,
        text: totals.map((db) => ` ${db.toFixed(2)} dB`),
        textposition: 'middle right',
        cliponaxis: false,
        hoverinfo: 'skip',
        showlegend: false,
      },
    ],
    layout: {
      ...baseLayout(theme, 'Nominal loss, dB', ''),
      barmode: 'relative',
      bargap: 0.35,
      showlegend: true,
      legend: { orientation: 'h', x: 0, y: 1.02, yanchor: 'bottom', traceorder: 'normal' },
      xaxis: {
        title: { text: 'Nominal loss, dB', standoff: 8 },
        range: [Math.min(0, ...totals), widest],
        gridcolor: theme.rule,
        linecolor: theme.ink,
        ticks: 'outside',
      },
      yaxis: {
        autorange: 'reversed',
        automargin: true,
        tickvals: places,
        ticktext: names,
      },
      shapes: [
        {
          type: 'line',
          xref: 'x',
          yref: 'paper',
          x0: limitDb,
          x1: limitDb,
          y0: 0,
          y1: 1,
          line: { color: theme.ink, width: 1.5, dash: 'dash' },
        },
      ],
    },
    sentence:
      candidates.length === 0
        ? 'No candidate to compare.'
        : `${names[least] ?? ''} loses least, ${(totals[least] ?? 0).toFixed(2)} dB; the dashed line is the limit of ${limitDb} dB.`,
    table: {
      head: ['Candidate', ...CAUSES.map(({ name }) => `${name}, dB`), 'Nominal, dB'],
      rows: candidates.map(({ name }, i) => [name, ...(parts[i] ?? []), totals[i] ?? 0]),
    },
  }
}
