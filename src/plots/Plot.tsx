// The one component that draws figures. The library comes with the first figure; the sentence stands without it.

import { useEffect, useRef, useState } from 'react'
import type { Figure } from './figure'

const CONFIG = { displayModeBar: false, responsive: true } as const

type Plotly = typeof import('./plotlyBundle')['plotly']

export function Plot({ figure, heightPx }: { readonly figure: Figure; readonly heightPx: number }) {
  const holder = useRef<HTMLDivElement>(null)
  const [plotly, setPlotly] = useState<Plotly | null>(null)
  const [failed, setFailed] = useState(false)

  useEffect(() => {
    import('./plotlyBundle').then(
      (bundle) => setPlotly(() => bundle.plotly),
      () => setFailed(true),
    )
  }, [])

  useEffect(() => {
    const element = holder.current
    if (plotly === null || element === null) return
    void plotly.react(element, figure.data, { ...figure.layout, height: heightPx }, CONFIG)
  }, [plotly, figure, heightPx])

  useEffect(() => {
    const element = holder.current
    return () => {
      if (plotly !== null && element !== null) plotly.purge(element)
    }
  }, [plotly])

  return (
    <figure className="plot">
      <div ref={holder} aria-hidden="true" style={{ minBlockSize: heightPx }} />
      <figcaption>
        {failed ? `The drawing could not be loaded. ${figure.sentence}` : figure.sentence}
      </figcaption>
    </figure>
  )
}
