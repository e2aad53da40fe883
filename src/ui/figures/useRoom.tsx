// How high the tab is that a figure may fill. In one column a tab is as high as what it holds, so the figure has its own height.

import type { ReactNode } from 'react'
import { PANES_FIT, useMedia } from '../controls/useMedia'
import { typeScale } from './typeScale'
import { useSize } from './useSize'

/** An element to set within a positioned one, and the height of the tab in px: 0 until known, null in one column. */
export function useRoom(): readonly [ReactNode, number | null] {
  const [holder, { heightPx }] = useSize()
  const fits = useMedia(PANES_FIT)
  return [<div key="room" className="room" ref={holder} aria-hidden="true" />, fits ? heightPx : null]
}

/** The height of a figure next to or above `aroundPx` of other things, within what a picture needs and what suits it. */
export function figurePx(roomPx: number | null, aroundPx: number, leastPx = 190, mostPx = 760): number {
  const scale = typeScale()
  return Math.min(scale * mostPx, Math.max(leastPx, (roomPx ?? 0) - scale * aroundPx))
}
