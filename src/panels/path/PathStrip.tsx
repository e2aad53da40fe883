// The Path strip: the picture, and a button over each element that selects it. Arrows go along the path; Alt with arrows or
// the pointer moves a stub or SSC chip, Delete removes it.

import { type KeyboardEvent, useMemo } from 'react'
import type { EvaluatedDesign } from '../../analysis/results/evaluatedDesign'
import { mountStacks } from '../../figures/path/pathMount'
import { pathStops } from '../../figures/path/pathStops'
import { drawPathStrip } from '../../figures/path/pathStrip'
import { placedStops } from '../../figures/path/stripLayout'
import { useSelection } from '../../store/selection'
import { selectElement } from '../../store/view'
import { MarkupView } from '../../ui/figures/MarkupView'
import { typeScale } from '../../ui/figures/typeScale'
import { usePalette } from '../../ui/figures/usePalette'
import { useSize } from '../../ui/figures/useSize'
import { makePathEdit } from '../../ui/path/PathActions'
import { pathEdits } from '../../ui/path/pathEdits'
import { useStopDrag } from './useStopDrag'
import './path.css'

const LEAST_PX = 84
const MOST_PX = 190

export function PathStrip({ project, design, evaluation }: EvaluatedDesign) {
  const [holder, { widthPx, heightPx: roomPx }] = useSize()
  const palette = usePalette()
  const selection = useSelection(design)
  const selectedId = selection.kind === 'element' ? selection.id : undefined
  const stops = useMemo(() => pathStops(project, design, evaluation), [project, design, evaluation])
  const mount = useMemo(() => mountStacks(design), [design])
  // Drawn at the size of the smallest type, and shown as much larger as the page's type is.
  const scale = typeScale()
  const drawn = {
    widthPx: widthPx / scale,
    heightPx: Math.min(MOST_PX, Math.max(LEAST_PX, roomPx / scale)),
  }
  const placed = placedStops(stops, drawn.widthPx).map((placedStop) => ({
    ...placedStop,
    leftPx: scale * placedStop.leftPx,
    rightPx: scale * placedStop.rightPx,
  }))

  const focus = (strip: Element | null, at: number) => {
    const button = strip?.querySelectorAll('button')[at]
    if (button === undefined) return
    button.focus()
    const id = stops[at]?.id
    if (id !== undefined) selectElement(id)
  }
  const editOf = (at: number, id: string) => {
    const chainAt = design.chain.findIndex((each) => each.id === stops[at]?.id)
    return pathEdits(project, design, chainAt).find((each) => each.id === id && each.edit !== null)
  }
  const make = (at: number, id: string) => {
    const edit = editOf(at, id)
    if (edit !== undefined) makePathEdit(design.id, edit)
  }
  const { offsetOf, handlers } = useStopDrag(placed, (at, towards) => make(at, towards < 0 ? 'back' : 'on'))
  const key = (event: KeyboardEvent<HTMLButtonElement>, at: number) => {
    const strip = event.currentTarget.parentElement
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0
    if (event.key === 'Delete' || event.key === 'Backspace') make(at, 'remove')
    else if (step !== 0 && event.altKey) make(at, step < 0 ? 'back' : 'on')
    else if (step !== 0) focus(strip, at + step)
    else if (event.key === 'Home') focus(strip, 0)
    else if (event.key === 'End') focus(strip, stops.length - 1)
    else return
    event.preventDefault()
  }

  const current = Math.max(
    0,
    stops.findIndex(({ id }) => id === selectedId),
  )
  return (
    <div ref={holder} className="path-holder">
      {widthPx > 0 && (
        <div className="path-frame" style={{ blockSize: scale * drawn.heightPx }}>
          <div aria-hidden="true">
            <MarkupView nodes={[drawPathStrip(stops, { ...drawn, selectedId, mount }, palette)]} />
          </div>
          {placed.map(({ stop, leftPx, rightPx }, at) => {
            const offsetPx = offsetOf(stop.id)
            const movable = stop.kind === 'stub' || stop.kind === 'taper chip'
            return (
              <button
                key={stop.id}
                type="button"
                className="path-stop"
                aria-pressed={stop.id === selectedId}
                tabIndex={at === current ? 0 : -1}
                title={`${stop.name}: ${stop.detail}`}
                aria-label={`${stop.name}, ${stop.detail}`}
                style={{
                  insetInlineStart: leftPx,
                  inlineSize: rightPx - leftPx,
                  transform: offsetPx === 0 ? undefined : `translateX(${offsetPx}px)`,
                }}
                data-movable={movable ? '' : undefined}
                data-dragged={offsetPx === 0 ? undefined : ''}
                onClick={() => selectElement(stop.id)}
                onKeyDown={(event) => key(event, at)}
                {...(movable ? handlers(at) : {})}
              />
            )
          })}
        </div>
      )}
    </div>
  )
}
