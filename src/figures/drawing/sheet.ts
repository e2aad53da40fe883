// The sheet that a drawing to scale lies on: its size, its scale bar, its words.

import type { Drawing } from '../figure'
import { type Child, element, type Markup } from '../render/markup'
import { FONT_FAMILY, FONT_PX } from '../render/palette'
import { withLook } from './look'
import { scaleBarUm } from './scale'

export const SHEET_WIDTH_PX = 960
const LONGEST_BAR_PX = 160

export const label = (x: number, y: number, content: string, anchor: 'start' | 'middle' | 'end') =>
  element('text', { class: 'drawn-label', x, y, 'text-anchor': anchor }, content)

/** One view in a window of its own, which cuts what runs out of it. */
export function sheetView(
  id: string,
  atPx: number,
  heightPx: number,
  shapes: readonly Markup[],
  widthPx = SHEET_WIDTH_PX,
): Markup {
  return element(
    'svg',
    {
      x: 0,
      y: atPx,
      width: widthPx,
      height: heightPx,
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      'data-view': id,
    },
    element('path', { class: 'drawn-sheet', d: `M0 0h${widthPx}v${heightPx}h-${widthPx}z` }),
    shapes,
  )
}

export function drawn(heightPx: number, views: Child, widthPx = SHEET_WIDTH_PX): Drawing {
  const drawing = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'drawn',
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      role: 'presentation',
      'font-family': FONT_FAMILY,
      'font-size': FONT_PX,
    },
    views,
  )
  return { kind: 'drawing', widthPx, heightPx, draw: (palette) => withLook(drawing, palette) }
}

export function bar(pxPerUm: number, heightPx: number, widthPx = SHEET_WIDTH_PX): readonly Markup[] {
  const lengthUm = scaleBarUm(pxPerUm, LONGEST_BAR_PX)
  const [end, y] = [widthPx - 20, heightPx - 14]
  return [
    element('line', { class: 'drawn-bar', x1: end - lengthUm * pxPerUm, x2: end, y1: y, y2: y }),
    label(end, y - 7, lengthUm >= 1000 ? `${lengthUm / 1000} mm` : `${lengthUm} µm`, 'end'),
  ]
}
