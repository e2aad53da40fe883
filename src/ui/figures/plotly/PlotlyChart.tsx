// A chart on the page by the plotting library: zoom by dragging, back by a double click. Titles, names and the legend are the
// same as in files; they lie over the library's drawing. The library comes with the first chart.

import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import type { Chart } from '../../../figures/chart'
import { readAt } from '../../../figures/readout'
import { chartLayout, type Size } from '../../../figures/render/layout'
import { svgChart } from '../../../figures/render/svgChart'
import { MarkupView } from '../MarkupView'
import { typeScale } from '../typeScale'
import { usePalette } from '../usePalette'
import { plotlyFigure } from './plotlyFigure'
import '../figure.css'

const CONFIG = { displayModeBar: false, displaylogo: false, doubleClick: 'reset' } as const

type Plotly = typeof import('./plotlyBundle')['plotly']

interface HoverEvent {
  readonly xvals?: readonly number[]
  readonly yvals?: readonly number[]
  readonly points?: readonly { readonly data?: { readonly meta?: unknown }; readonly x?: unknown }[]
}

interface Hovered {
  on?(event: 'plotly_hover' | 'plotly_unhover', react: (event: HoverEvent) => void): void
}

function paneOf(event: HoverEvent): number {
  const meta = event.points?.[0]?.data?.meta
  return typeof meta === 'number' ? meta : 0
}

export function PlotlyChart({
  chart,
  size: room,
  onRead,
  onFail,
}: {
  readonly chart: Chart
  readonly size: Size
  /** The values under the pointer in words; empty where it has left. */
  readonly onRead: (words: string) => void
  readonly onFail: () => void
}) {
  const holder = useRef<HTMLDivElement>(null)
  const [plotly, setPlotly] = useState<Plotly | null>(null)
  const drawn = useRef(false)
  const latest = useRef({ chart, onRead, onFail })
  latest.current = { chart, onRead, onFail }
  const palette = usePalette()
  // Laid out for the smallest type, and shown as much larger as the page's type is.
  const scale = typeScale()
  const size = useMemo(
    () => ({ widthPx: room.widthPx / scale, heightPx: room.heightPx / scale }),
    [room, scale],
  )
  const layout = useMemo(() => chartLayout(chart, size), [chart, size])

  useEffect(() => {
    import('./plotlyBundle').then(
      (bundle) => setPlotly(() => bundle.plotly),
      () => latest.current.onFail(),
    )
  }, [])

  // In the layout phase, so that the figure is painted in the same frame as the numbers next to it.
  useLayoutEffect(() => {
    const element = holder.current
    if (plotly === null || element === null) return
    const figure = plotlyFigure(chart, layout, palette)
    // The settings are given once: each time that they are given, the page is measured anew.
    plotly
      .react(element, figure.data, figure.layout, drawn.current ? undefined : CONFIG)
      .then(() => {
        if (drawn.current) return
        drawn.current = true
        const hovered = element as HTMLDivElement & Hovered
        hovered.on?.('plotly_hover', (event) => {
          const own = latest.current
          own.onRead(readAt(own.chart, paneOf(event), event.xvals?.[0] ?? 0, event.yvals?.[0] ?? 0))
        })
        hovered.on?.('plotly_unhover', () => latest.current.onRead(''))
      })
      .catch(() => latest.current.onFail())
  }, [plotly, chart, layout, palette])

  useEffect(() => {
    const element = holder.current
    return () => {
      if (plotly !== null && element !== null) plotly.purge(element)
    }
  }, [plotly])

  return (
    <div className="figure-chart" style={{ blockSize: room.heightPx }}>
      <div className="figure-scaled" style={{ inlineSize: size.widthPx, transform: `scale(${scale})` }}>
        <div ref={holder} aria-hidden="true" />
        <div className="figure-furniture" aria-hidden="true">
          <MarkupView nodes={[svgChart(chart, size, { palette, furnitureOnly: true })]} />
        </div>
      </div>
    </div>
  )
}
