// A figure on the page: its sentence, its picture, the values under the pointer next to it, and its numbers.

import { type ReactNode, useMemo, useState } from 'react'
import type { Chart } from '../../figures/chart'
import type { Figure } from '../../figures/figure'
import { multiplesSize, svgPicture } from '../../figures/render/picture'
import { unbroken } from '../../numerics/numberText'
import { FigureTools } from './FigureTools'
import { LiveChart, type Movable } from './LiveChart'
import { MarkupView } from './MarkupView'
import { PlotlyChart } from './plotly/PlotlyChart'
import { usePalette } from './usePalette'
import { useWidth } from './useWidth'
import './figure.css'

/** Narrower than this the axes leave no room for a picture. */
const LEAST_WIDTH_PX = 120

function ChartPicture({
  chart,
  name,
  heightPx,
  widthPx,
  live,
  movable,
  onRead,
  onFail,
}: {
  readonly chart: Chart
  readonly name: string
  readonly heightPx: number
  readonly widthPx: number
  readonly live: boolean
  readonly movable: Movable | undefined
  readonly onRead: (words: string) => void
  readonly onFail: () => void
}) {
  const size = useMemo(() => ({ widthPx, heightPx }), [widthPx, heightPx])
  return live ? (
    <LiveChart chart={chart} size={size} name={name} movable={movable} onRead={onRead} />
  ) : (
    <PlotlyChart chart={chart} size={size} onRead={onRead} onFail={onFail} />
  )
}

function StillPicture({ figure, widthPx }: { readonly figure: Figure; readonly widthPx: number }) {
  const palette = usePalette()
  const { picture } = figure
  const size = picture.kind === 'multiples' ? { size: multiplesSize(picture, widthPx) } : {}
  return <MarkupView nodes={[svgPicture(picture, { palette, ...size })]} />
}

export function FigureView({
  figure,
  heightPx,
  live = false,
  movable,
  beside,
}: {
  readonly figure: Figure
  readonly heightPx: number
  /** True for pictures that move with a drag. */
  readonly live?: boolean
  readonly movable?: Movable
  /** What is read next to the picture. */
  readonly beside?: ReactNode
}) {
  const [holder, widthPx] = useWidth()
  const [failed, setFailed] = useState(false)
  const [reading, setReading] = useState('')
  const { picture, sentence } = figure
  return (
    <figure className="plot" data-figure={figure.id}>
      <figcaption>{unbroken(failed ? `The chart could not be loaded. ${sentence}` : sentence)}</figcaption>
      <div className="figure-body">
        <div ref={holder} className="figure-picture" style={{ minBlockSize: heightPx }}>
          {widthPx >= LEAST_WIDTH_PX &&
            (picture.kind === 'chart' ? (
              <ChartPicture
                chart={picture}
                name={sentence}
                heightPx={heightPx}
                widthPx={widthPx}
                live={live}
                movable={movable}
                onRead={setReading}
                onFail={() => setFailed(true)}
              />
            ) : (
              <StillPicture figure={figure} widthPx={widthPx} />
            ))}
        </div>
        {beside !== undefined && <div className="figure-beside">{beside}</div>}
      </div>
      <p className="figure-reading">{reading}</p>
      <FigureTools figure={figure} />
    </figure>
  )
}
