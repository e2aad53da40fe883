// The one component that draws figures. The library comes with the first figure; the sentence stands without it.

import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import { download, fileStem } from './download'
import { FigureNumbers } from './FigureNumbers'
import type { Figure } from './figure'
import { useWidth } from './useWidth'

const CONFIG = { displayModeBar: false, displaylogo: false } as const

const PICTURES = ['svg', 'png'] as const
/** Pictures have two pixels for one of the page. */
const SCALES = { svg: 1, png: 2 } as const

type Plotly = typeof import('./plotlyBundle')['plotly']

export function Plot({ figure, heightPx }: { readonly figure: Figure; readonly heightPx: number }) {
  const [holder, widthPx] = useWidth()
  const [plotly, setPlotly] = useState<Plotly | null>(null)
  const [failed, setFailed] = useState(false)
  const drawn = useRef(false)

  useEffect(() => {
    import('./plotlyBundle').then(
      (bundle) => setPlotly(() => bundle.plotly),
      () => setFailed(true),
    )
  }, [])

  // In the layout phase, so that the figure is painted in the same frame as the numbers beside it.
  useLayoutEffect(() => {
    const element = holder.current
    if (plotly === null || element === null || widthPx === 0) return
    const layout = { ...figure.layout, width: widthPx, height: heightPx }
    // The settings are given once: each time that they are given, the page is measured anew.
    plotly
      .react(element, figure.data, layout, drawn.current ? undefined : CONFIG)
      .catch(() => setFailed(true))
    drawn.current = true
  }, [plotly, figure, holder, widthPx, heightPx])

  useEffect(() => {
    const element = holder.current
    return () => {
      if (plotly !== null && element !== null) plotly.purge(element)
    }
  }, [plotly, holder])

  /** The figure as it stands, on the colour of the page. */
  const savePicture = async (format: (typeof PICTURES)[number]) => {
    if (plotly === null) return
    const paper = getComputedStyle(document.documentElement).backgroundColor
    const layout = { ...figure.layout, width: widthPx, height: heightPx, paper_bgcolor: paper }
    const url = await plotly.toImage(
      { data: figure.data, layout, config: CONFIG },
      { format, scale: SCALES[format] },
    )
    download(url, `${fileStem(figure.sentence)}.${format}`)
  }

  return (
    <figure className="plot">
      <div ref={holder} aria-hidden="true" style={{ minBlockSize: heightPx, overflow: 'hidden' }} />
      <figcaption>
        {failed ? `The drawing could not be loaded. ${figure.sentence}` : figure.sentence}
      </figcaption>
      <FigureNumbers table={figure.table} name={figure.sentence}>
        {PICTURES.map((format) => (
          <button
            key={format}
            type="button"
            aria-label={`Save as ${format.toUpperCase()}`}
            disabled={plotly === null}
            onClick={() => savePicture(format).catch(() => setFailed(true))}
          >
            {format.toUpperCase()}
          </button>
        ))}
      </FigureNumbers>
    </figure>
  )
}
