// Any picture of a figure as SVG, and as a file of its own.

import type { MapSeries } from '../chart'
import type { Figure, Multiples, Picture } from '../figure'
import type { Size } from './layout'
import { element, type Markup, markupText } from './markup'
import { FONT_FAMILY, FONT_PX, PALETTES, type Palette } from './palette'
import { svgChart, svgRoot } from './svgChart'
import { px, words } from './svgShapes'
import { fittedText } from './textWidth'

/** A chart on paper unless another size is requested. */
export const CHART_SIZE: Size = { widthPx: 640, heightPx: 300 }
const MULTIPLE_PX: Size = { widthPx: 220, heightPx: 170 }
const NAME_PX = 20
const ROW_GAP_PX = 12

interface PictureLook {
  readonly palette: Palette
  /** Makes the picture of a map and returns its address; without it maps are contours alone. */
  readonly mapHref?: (map: MapSeries) => string
  readonly size?: Size
}

export function multiplesSize({ columns, charts }: Multiples, widthPx: number): Size {
  const across = Math.min(columns, Math.max(1, charts.length))
  const rows = Math.ceil(charts.length / across)
  return { widthPx, heightPx: rows * (MULTIPLE_PX.heightPx + NAME_PX) + (rows - 1) * ROW_GAP_PX }
}

function multiples(picture: Multiples, size: Size, palette: Palette): Markup {
  const { charts } = picture
  const across = Math.min(picture.columns, Math.max(1, charts.length))
  const widthPx = size.widthPx / across
  return svgRoot(
    size,
    'chart',
    charts.map(({ name, chart }, i) => {
      const [left, top] = [
        (i % across) * widthPx,
        Math.floor(i / across) * (MULTIPLE_PX.heightPx + NAME_PX + ROW_GAP_PX),
      ]
      const inner = svgChart(chart, { widthPx: widthPx - 12, heightPx: MULTIPLE_PX.heightPx }, { palette })
      return [
        words(palette, left + 3, top + FONT_PX, fittedText(name, widthPx - 16), { anchor: 'start' }),
        {
          ...inner,
          attributes: {
            ...inner.attributes,
            x: px(left),
            y: top + NAME_PX,
            width: px(widthPx - 12),
            height: MULTIPLE_PX.heightPx,
          },
        },
      ]
    }),
  )
}

function sizeOf(picture: Picture, asked: Size | undefined): Size {
  if (picture.kind === 'drawing') return picture
  if (picture.kind === 'multiples') return multiplesSize(picture, asked?.widthPx ?? 4 * MULTIPLE_PX.widthPx)
  return asked ?? CHART_SIZE
}

export function svgPicture(picture: Picture, { palette, mapHref, size }: PictureLook): Markup {
  const shown = sizeOf(picture, size)
  if (picture.kind === 'drawing') return picture.draw(palette)
  if (picture.kind === 'multiples') return multiples(picture, shown, palette)
  const map = picture.panes
    .flatMap(({ series }) => series)
    .find((each): each is MapSeries => each.kind === 'map')
  const href = map === undefined || mapHref === undefined ? null : mapHref(map)
  return svgChart(picture, shown, { palette, mapHref: href })
}

/** The drawing with a name and a description inside, for those who do not see it: in the page and in every file. */
export function described(drawing: Markup, sentence: string): Markup {
  const [name = sentence] = sentence.split(/(?<=[^\d])[:.](?=\s|$)/)
  return {
    ...drawing,
    attributes: { ...drawing.attributes, role: 'img' },
    children: [element('title', {}, name), element('desc', {}, sentence), ...drawing.children],
  }
}

/** A drawing as a file that needs nothing else, on the ground of its palette; `fontFace` holds the typeface. */
export function svgFile(drawing: Markup, fontFace: string, ground: string = PALETTES.paper.paper): string {
  const [, , width = '0', height = '0'] = String(drawing.attributes.viewBox).split(' ')
  const whole: Markup = {
    ...drawing,
    attributes: { 'font-family': FONT_FAMILY, 'font-size': FONT_PX, ...drawing.attributes, width, height },
    children: [
      ...drawing.children.filter(isWords),
      ...(fontFace === '' ? [] : [element('style', {}, fontFace)]),
      element('path', { fill: ground, d: `M0 0h${width}v${height}h-${width}z` }),
      ...drawing.children.filter((child) => !isWords(child)),
    ],
  }
  return `${markupText(whole)}\n`
}

/** Name and description come before everything that is drawn (SVG 2, 5.7). */
const isWords = (child: Markup | string): boolean =>
  typeof child !== 'string' && (child.tag === 'title' || child.tag === 'desc')

/** A figure's name as part of a file's. */
export function figureFileName({ id }: Pick<Figure, 'id'>): string {
  return id.replace(/[^\w-]+/g, '-')
}
