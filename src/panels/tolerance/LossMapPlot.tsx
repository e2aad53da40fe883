// A map on the page: colours on a canvas, contours and letters over them, and the loss under the pointer. It is drawn
// without the plotting library, because it moves in every frame of a drag.

import { type PointerEvent, useLayoutEffect, useMemo, useRef, useState } from 'react'
import type { LossMap } from '../../analysis/tolerance/toleranceMap'
import { download, fileStem } from '../../plots/download'
import { FigureNumbers } from '../../plots/FigureNumbers'
import type { LossMapFigure } from '../../plots/lossMapFigure'
import { mapPixels } from '../../plots/mapPixels'
import { useWidth } from '../../plots/useWidth'
import { type Places, placesOf } from '../../report/figures/chart'
import { svgFile } from '../../report/figures/figure'
import { lossMapDrawing, mapFrame } from '../../report/figures/lossMap'
import { pngOf } from '../../ui/figures/figureFiles'
import { MarkupView } from '../../ui/figures/MarkupView'

const FORMATS = ['svg', 'png'] as const
/** Narrower than this the axes leave no room for a map. */
const LEAST_WIDTH_PX = 120

/** Cells blend into each other; those of the rim are cut at their middles, where the axes end. */
function paint(canvas: HTMLCanvasElement, map: LossMap): void {
  const [columns, rows] = [map.x.length, map.y.length]
  const cells = new OffscreenCanvas(columns, rows)
  cells.getContext('2d')?.putImageData(new ImageData(mapPixels(map), columns, rows), 0, 0)
  const context = canvas.getContext('2d')
  context?.drawImage(cells, 0.5, 0.5, columns - 1, rows - 1, 0, 0, canvas.width, canvas.height)
}

/** The cell of the map at a place of the drawing, or null beside the frame. */
function cellAt({ x, y }: LossMap, { leftPx, rightPx, topPx, bottomPx }: Places, atX: number, atY: number) {
  const [across, up] = [(atX - leftPx) / (rightPx - leftPx), (bottomPx - atY) / (bottomPx - topPx)]
  if (across < 0 || across > 1 || up < 0 || up > 1) return null
  return { column: Math.round(across * (x.length - 1)), row: Math.round(up * (y.length - 1)) }
}

export function LossMapPlot({
  figure,
  heightPx,
}: {
  readonly figure: LossMapFigure
  readonly heightPx: number
}) {
  const [holder, widthPx] = useWidth()
  const canvas = useRef<HTMLCanvasElement>(null)
  const [failed, setFailed] = useState(false)
  const [pointer, setPointer] = useState<{ readonly x: number; readonly y: number } | null>(null)
  const parts = useMemo(() => ({ ...figure.parts, widthPx, heightPx }), [figure, widthPx, heightPx])
  const drawing = useMemo(() => lossMapDrawing(parts), [parts])
  const places = placesOf(mapFrame(parts))
  const { map, x, y } = parts

  // In the layout phase, so that the colours are painted in the same frame as the numbers beside them.
  useLayoutEffect(() => {
    if (canvas.current !== null && widthPx >= LEAST_WIDTH_PX) paint(canvas.current, map)
  }, [map, widthPx])

  const save = async (format: (typeof FORMATS)[number]) => {
    const whole = { drawing: lossMapDrawing({ ...parts, picture: canvas.current?.toDataURL() ?? '' }) }
    const file = format === 'svg' ? new Blob([svgFile(whole)], { type: 'image/svg+xml' }) : await pngOf(whole)
    const url = URL.createObjectURL(file)
    download(url, `${fileStem(figure.sentence)}.${format}`)
    URL.revokeObjectURL(url)
  }

  const follow = ({ currentTarget, clientX, clientY }: PointerEvent) => {
    const { left, top } = currentTarget.getBoundingClientRect()
    setPointer({ x: clientX - left, y: clientY - top })
  }
  const cell = pointer === null ? null : cellAt(map, places, pointer.x, pointer.y)

  return (
    <figure className="plot">
      <div
        ref={holder}
        className="loss-map"
        aria-hidden="true"
        style={{ blockSize: heightPx }}
        onPointerMove={follow}
        onPointerLeave={() => setPointer(null)}
      >
        {widthPx >= LEAST_WIDTH_PX && (
          <>
            <canvas
              ref={canvas}
              width={Math.round(places.rightPx - places.leftPx)}
              height={Math.round(places.bottomPx - places.topPx)}
              style={{ insetInlineStart: places.leftPx, insetBlockStart: places.topPx }}
            />
            <MarkupView nodes={[drawing]} />
          </>
        )}
        {pointer !== null && cell !== null && (
          <p
            className="under-pointer"
            data-side={pointer.x > widthPx / 2 ? 'left' : 'right'}
            style={{ insetInlineStart: pointer.x, insetBlockStart: pointer.y }}
          >
            {`${x.name} ${((map.x[cell.column] ?? 0) * x.perCore).toFixed(2)} ${x.unit}, ${y.name} ${((map.y[cell.row] ?? 0) * y.perCore).toFixed(2)} ${y.unit}: ${(map.rowsDb[cell.row]?.[cell.column] ?? 0).toFixed(2)} dB`}
          </p>
        )}
      </div>
      <figcaption>
        {failed ? `The picture could not be made by this browser. ${figure.sentence}` : figure.sentence}
      </figcaption>
      <FigureNumbers table={figure.table} name={figure.sentence}>
        {FORMATS.map((format) => (
          <button
            key={format}
            type="button"
            aria-label={`Save as ${format.toUpperCase()}`}
            onClick={() => save(format).catch(() => setFailed(true))}
          >
            {format.toUpperCase()}
          </button>
        ))}
      </FigureNumbers>
    </figure>
  )
}
