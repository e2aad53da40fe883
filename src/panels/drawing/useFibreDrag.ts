// Pointer gestures on the drawing: on the fibre they move it, elsewhere they slide the picture along z.

import { type PointerEvent, useRef } from 'react'
import type { ViewFrame } from '../../figures/drawing/scale'
import { type FibreMove, moved } from './fibreMove'

interface Drag {
  readonly what: 'fibre' | 'picture'
  readonly axis: 'x' | 'y'
  readonly startXPx: number
  readonly startYPx: number
  readonly from: FibreMove
  readonly frame: ViewFrame
  readonly screenPxPerUm: number
}

interface DragCallbacks {
  readonly onMove: (to: FibreMove) => void
  readonly onMoveStart: () => void
  readonly onMoveEnd: () => void
  readonly onFrame: (frame: ViewFrame) => void
}

/** Handlers for the view of one axis; `widthPx` is the width of its view box. */
export function useFibreDrag(here: FibreMove, frame: ViewFrame, widthPx: number, callbacks: DragCallbacks) {
  const drag = useRef<Drag | null>(null)
  const end = () => {
    if (drag.current?.what === 'fibre') callbacks.onMoveEnd()
    drag.current = null
  }
  return (axis: 'x' | 'y') => ({
    onPointerDown: (event: PointerEvent<SVGSVGElement>) => {
      if (!(event.target instanceof Element) || event.button !== 0) return
      const onFibre = event.target.closest('[data-drag]') !== null
      const screenWidthPx = event.currentTarget.getBoundingClientRect().width
      drag.current = {
        what: onFibre ? 'fibre' : 'picture',
        axis,
        startXPx: event.clientX,
        startYPx: event.clientY,
        from: here,
        frame,
        screenPxPerUm: (frame.pxPerUm * screenWidthPx) / widthPx,
      }
      event.currentTarget.setPointerCapture(event.pointerId)
      if (onFibre) callbacks.onMoveStart()
    },
    onPointerMove: (event: PointerEvent<SVGSVGElement>) => {
      const { current } = drag
      if (current === null) return
      event.stopPropagation() // whatever else follows the pointer, as the lines between panes, has nothing to do now
      const zUm = (event.clientX - current.startXPx) / current.screenPxPerUm
      const vUm = (current.startYPx - event.clientY) / current.screenPxPerUm
      if (current.what === 'fibre') callbacks.onMove(moved(current.from, current.axis, zUm, vUm))
      else callbacks.onFrame({ ...current.frame, centreZUm: current.frame.centreZUm - zUm })
    },
    onPointerUp: end,
    onPointerCancel: end,
  })
}
