// What a chart shows, by the names of its series.

import type { Chart } from '../../../src/figures/chart'

type Point = readonly [x: number, y: number | null]

const seriesOf = ({ panes }: Chart) => panes.flatMap(({ series }) => series)

/** The points of the line or the marks of this name; null where the chart has none. */
export function pointsOf(chart: Chart, name: string): readonly Point[] | null {
  const found = seriesOf(chart).find(
    (each) => (each.kind === 'line' || each.kind === 'points') && each.name === name,
  )
  if (found?.kind !== 'line' && found?.kind !== 'points') return null
  const { x, y } = found
  return Array.from(x, (at, i): Point => [Number(at), y[i] ?? null])
}

/** Lengths of the bars of this name: where each begins and ends. */
export function barsOf(chart: Chart, name: string): readonly (readonly [from: number, to: number])[] | null {
  const found = seriesOf(chart).find((each) => each.kind === 'bars' && each.name === name)
  if (found?.kind !== 'bars') return null
  return Array.from(found.from, (from, i) => [from, found.to[i] ?? Number.NaN] as const)
}

/** Where the straight lines lie that have a label. */
export function rulesOf(chart: Chart): Readonly<Record<string, number>> {
  return Object.fromEntries(
    seriesOf(chart).flatMap((each) =>
      each.kind === 'rule' && each.label !== undefined ? [[each.label, each.at]] : [],
    ),
  )
}
