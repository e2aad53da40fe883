// A stub or SSC chip dragged along the path: past the middle of its neighbour it changes places with it.

import { type PointerEvent, useState } from 'react'
import type { PlacedStop } from '../../figures/path/stripLayout'

/** A press that moves less than this is a click. */
const CLICK_PX = 5

interface Drag {
  readonly id: string
  readonly fromPx: number
  readonly byPx: number
}

const middleOf = ({ leftPx, rightPx }: PlacedStop) => (leftPx + rightPx) / 2

interface StopDrag {
  /** How far a stop is dragged, px. */
  readonly offsetOf: (id: string) => number
  /** What a button of a stop that can be moved listens to. */
  readonly handlers: (at: number) => {
    readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void
    readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void
    readonly onPointerUp: () => void
    readonly onPointerCancel: () => void
  }
}

/** `onMove` is called once, when the pointer is let go, with the stop and its way along the path. */
export function useStopDrag(
  placed: readonly PlacedStop[],
  onMove: (at: number, towards: -1 | 1) => void,
): StopDrag {
  const [drag, setDrag] = useState<Drag | null>(null)
  const end = () => setDrag(null)
  return {
    offsetOf: (id) => (drag?.id === id && Math.abs(drag.byPx) > CLICK_PX ? drag.byPx : 0),
    handlers: (at) => ({
      onPointerDown: (event) => {
        const placedStop = placed[at]
        if (placedStop === undefined || event.button !== 0) return
        event.currentTarget.setPointerCapture(event.pointerId)
        setDrag({ id: placedStop.stop.id, fromPx: event.clientX, byPx: 0 })
      },
      onPointerMove: (event) => {
        if (drag !== null) setDrag({ ...drag, byPx: event.clientX - drag.fromPx })
      },
      onPointerUp: () => {
        end()
        const placedStop = placed[at]
        if (drag === null || placedStop === undefined || Math.abs(drag.byPx) <= CLICK_PX) return
        const towards = drag.byPx < 0 ? -1 : 1
        // Guides alternate with joints.
        const other = placed[at + 2 * towards]
        if (other === undefined) return
        const passed = towards * (middleOf(placedStop) + drag.byPx - middleOf(other)) > 0
        if (passed) onMove(at, towards)
      },
      onPointerCancel: end,
    }),
  }
}
