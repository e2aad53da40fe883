// A chart that moves in every frame of a drag: SVG over a canvas, without the plotting library. A click or the arrow keys
// move the working point, where the screen allows it.

import { type KeyboardEvent, type PointerEvent, useLayoutEffect, useMemo, useRef } from 'react'
import type { Chart } from '../../figures/chart'
import { readAt } from '../../figures/readout'
import { chartLayout, type Frame, type Size } from '../../figures/render/layout'
import { svgChart } from '../../figures/render/svgChart'
import { MarkupView } from './MarkupView'
import { mapOf, paintMap } from './mapCanvas'
import { typeScale } from './typeScale'
import { usePalette } from './usePalette'
import './figure.css'

interface ChartPosition {
  readonly x: number
  readonly y: number
}

/** A place that can be moved to, in the units of the axes. */
export interface Movable {
  readonly at: ChartPosition
  /** One press of an arrow key. */
  readonly step: ChartPosition
  readonly onMove: (position: ChartPosition) => void
}

const ARROWS: Readonly<Record<string, ChartPosition>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}
const COARSE = 10
/** No address: the map is on the canvas behind the SVG, and nothing is to be fetched for it. */
const BEHIND = ''

function positionIn(chart: Chart, frame: Frame, atX: number, atY: number): ChartPosition | null {
  const y = chart.panes[0]?.y
  if (y === undefined) return null
  const across = (atX - frame.leftPx) / (frame.rightPx - frame.leftPx)
  const up = (frame.bottomPx - atY) / (frame.bottomPx - frame.topPx)
  if (across < 0 || across > 1 || up < 0 || up > 1) return null
  return { x: chart.x.from + across * (chart.x.to - chart.x.from), y: y.from + up * (y.to - y.from) }
}

export function LiveChart({
  chart,
  size: room,
  name,
  movable,
  onRead,
}: {
  readonly chart: Chart
  readonly size: Size
  readonly name: string
  readonly movable?: Movable | undefined
  readonly onRead: (words: string) => void
}) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const palette = usePalette()
  // Laid out for the smallest type, and shown as much larger as the page's type is.
  const scale = typeScale()
  const size = useMemo(
    () => ({ widthPx: room.widthPx / scale, heightPx: room.heightPx / scale }),
    [room, scale],
  )
  const layout = useMemo(() => chartLayout(chart, size), [chart, size])
  const map = mapOf(chart)
  const drawn = useMemo(
    () => [svgChart(chart, size, { palette, layout, mapHref: map === undefined ? null : BEHIND })],
    [chart, size, palette, layout, map],
  )
  const [frame] = layout.frames
  const y = chart.panes[0]?.y

  const ratio = scale * (window.devicePixelRatio || 1)
  const widthPx = frame === undefined ? 0 : Math.max(1, Math.round((frame.rightPx - frame.leftPx) * ratio))
  const heightPx = frame === undefined ? 0 : Math.max(1, Math.round((frame.bottomPx - frame.topPx) * ratio))
  // In the layout phase, so that the colours are painted in the same frame as the numbers next to them.
  useLayoutEffect(() => {
    const { current } = canvas
    if (current === null || map === undefined || y === undefined) return
    // To be given a size, even the same, costs a canvas its pixels.
    if (current.width !== widthPx) current.width = widthPx
    if (current.height !== heightPx) current.height = heightPx
    paintMap(current, map, chart.x, y)
  }, [map, chart, y, widthPx, heightPx])

  const positionOf = ({ currentTarget, clientX, clientY }: PointerEvent) => {
    const { left, top } = currentTarget.getBoundingClientRect()
    return frame === undefined
      ? null
      : positionIn(chart, frame, (clientX - left) / scale, (clientY - top) / scale)
  }
  const read = (event: PointerEvent) => {
    const position = positionOf(event)
    onRead(position === null ? '' : readAt(chart, 0, position.x, position.y))
  }
  const press = (event: PointerEvent) => {
    const position = positionOf(event)
    if (position !== null && event.button === 0) movable?.onMove(position)
  }
  const key = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key]
    if (arrow === undefined || movable === undefined || event.altKey || event.ctrlKey || event.metaKey) return
    event.preventDefault()
    const times = event.shiftKey ? COARSE : 1
    const { at, step, onMove } = movable
    onMove({ x: at.x + times * arrow.x * step.x, y: at.y + times * arrow.y * step.y })
  }
  const interactive =
    movable === undefined
      ? { role: 'img' as const, 'aria-label': name }
      : {
          role: 'application' as const,
          'aria-label': name,
          tabIndex: 0,
          onKeyDown: key,
          onPointerUp: press,
          'data-movable': '',
        }
  return (
    <div
      className="figure-chart"
      style={{ blockSize: room.heightPx }}
      onPointerMove={read}
      onPointerLeave={() => onRead('')}
      {...interactive}
    >
      {map !== undefined && frame !== undefined && (
        <canvas
          ref={canvas}
          style={{
            insetInlineStart: scale * frame.leftPx,
            insetBlockStart: scale * frame.topPx,
            inlineSize: scale * (frame.rightPx - frame.leftPx),
            blockSize: scale * (frame.bottomPx - frame.topPx),
          }}
        />
      )}
      <MarkupView nodes={drawn} />
    </div>
  )
}
