// The plain shapes of pictures as SVG: what is drawn has its colours and widths with it, so that any program shows it alike.

import type { Dash, Mark, Weight } from '../chart'
import { element, type Markup } from './markup'
import { DASHES, type Palette, type Tone, WIDTH_PX } from './palette'

/** To a hundredth of a pixel; by arithmetic, since a picture of a drag rounds thousands of them in every frame. */
export const px = (value: number): number => Math.round(100 * value) / 100

interface Stroke {
  readonly tone: Tone
  readonly weight?: Weight
  readonly dash?: Dash
}

export function strokeOf(palette: Palette, { tone, weight = 'normal', dash = 'solid' }: Stroke) {
  return {
    fill: 'none',
    stroke: palette[tone],
    'stroke-width': WIDTH_PX[weight],
    'stroke-dasharray': DASHES[dash] === '' ? undefined : DASHES[dash],
  } as const
}

export function line(
  palette: Palette,
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  stroke: Stroke,
): Markup {
  return element('line', { x1: px(x1), y1: px(y1), x2: px(x2), y2: px(y2), ...strokeOf(palette, stroke) })
}

export function rect(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  attributes: Readonly<Record<string, string | number | undefined>>,
): Markup {
  return element('rect', {
    x: px(Math.min(x1, x2)),
    y: px(Math.min(y1, y2)),
    width: px(Math.abs(x2 - x1)),
    height: px(Math.abs(y2 - y1)),
    ...attributes,
  })
}

/** A path through points; null breaks it. */
export function pathOf(points: readonly (readonly [number, number] | null)[]): string {
  let path = ''
  let pen = 'M'
  for (const point of points) {
    if (point === null) {
      pen = 'M'
      continue
    }
    path += `${pen}${px(point[0])} ${px(point[1])}`
    pen = 'L'
  }
  return path
}

export function words(
  palette: Palette,
  x: number,
  y: number,
  content: string,
  { anchor = 'middle', tone = 'ink', halo = false }: { anchor?: string; tone?: Tone; halo?: boolean } = {},
): Markup {
  return element(
    'text',
    {
      x: px(x),
      y: px(y),
      'text-anchor': anchor,
      fill: palette[tone],
      ...(halo && {
        'paint-order': 'stroke',
        stroke: palette.paper,
        'stroke-width': 4,
        'stroke-linejoin': 'round',
      }),
    },
    content,
  )
}

/** A mark of a point, about its middle; its lines are wider by `widerPx`. */
export function markShape(
  palette: Palette,
  mark: Mark,
  x: number,
  y: number,
  sizePx: number,
  tone: Tone,
  widerPx = 0,
): Markup {
  const half = sizePx / 2
  const open = { fill: 'none', stroke: palette[tone], 'stroke-width': 1.5 + widerPx } as const
  const [cx, cy] = [px(x), px(y)]
  switch (mark) {
    case 'circle':
      return element('circle', { cx, cy, r: half, fill: palette[tone] })
    case 'square':
      return rect(x - half, y - half, x + half, y + half, open)
    case 'diamond':
      return element('path', {
        d: `M${cx} ${px(y - half)}l${half} ${half}l${-half} ${half}l${-half} ${-half}z`,
        fill: palette[tone],
      })
    case 'triangle':
      return element('path', { d: `M${cx} ${px(y - half)}l${half} ${sizePx}h${-sizePx}z`, ...open })
    case 'cross':
      return element('path', {
        d: `M${px(x - half)} ${cy}h${sizePx}M${cx} ${px(y - half)}v${sizePx}`,
        ...open,
        'stroke-width': 2 + widerPx,
      })
    case 'x':
      return element('path', {
        d: `M${px(x - half)} ${px(y - half)}l${sizePx} ${sizePx}M${px(x + half)} ${px(y - half)}l${-sizePx} ${sizePx}`,
        ...open,
      })
  }
}
