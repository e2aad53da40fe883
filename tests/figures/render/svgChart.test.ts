import { describe, expect, test } from 'vitest'
import { type ContourSeries, chart, type MapSeries } from '../../../src/figures/chart'
import { chartLayout, type Size } from '../../../src/figures/render/layout'
import type { Markup } from '../../../src/figures/render/markup'
import { PALETTES } from '../../../src/figures/render/palette'
import { svgChart } from '../../../src/figures/render/svgChart'

const axis = { title: 'Offset', unit: 'µm', from: -1, to: 1 } as const
const palette = PALETTES.light

const mapped = (scale: MapSeries['scale'], from = 0) =>
  chart(axis, axis, [
    {
      kind: 'map',
      scale,
      from,
      to: 4,
      title: 'Loss',
      unit: 'dB',
      digits: 2,
      x: Float64Array.of(-1, 1),
      y: Float64Array.of(-1, 1),
      rows: [Float64Array.of(0, 1), Float64Array.of(2, 3)],
    },
  ])

const all = (node: Markup): readonly Markup[] => [
  node,
  ...node.children.flatMap((child) => (typeof child === 'string' ? [] : all(child))),
]

/** The stripes of the colour bar, from the least value up. */
function stripes(scale: MapSeries['scale'], size: Size) {
  const rects = all(svgChart(mapped(scale), size, { palette, mapHref: '' })).filter(
    ({ tag }) => tag === 'rect',
  )
  return rects.flatMap(({ attributes: { fill, y } }) => (fill === 'none' ? [] : [{ fill, y: Number(y) }]))
}

const SIZE = { widthPx: 400, heightPx: 300 }

describe('the colour bar', () => {
  test('is that of the chart, also after a chart of another scale or size', () => {
    const first = stripes('loss', SIZE)
    expect(new Set(first.map(({ fill }) => fill)).size).toBeGreaterThan(40)
    const signed = stripes('signed', SIZE)
    expect(signed.map(({ fill }) => fill)).not.toEqual(first.map(({ fill }) => fill))
    const higher = stripes('signed', { ...SIZE, heightPx: 310 })
    expect(higher[0]?.y).toBeGreaterThan((signed[0]?.y ?? 0) + 8)
    expect(stripes('loss', SIZE)).toEqual(first)
  })

  test('keeps its element from one picture of a drag to the next, whatever its numbers are', () => {
    const [one, two] = [0, 0.5].map((from) =>
      all(svgChart(mapped('loss', from), SIZE, { palette, mapHref: '' })),
    )
    const stripe = one?.find(({ tag, attributes }) => tag === 'rect' && attributes.fill !== 'none')
    expect(two).toContain(stripe)
  })

  test('is left out where no picture of the map is drawn', () => {
    const plain = all(svgChart(mapped('loss'), SIZE, { palette }))
    expect(plain.filter(({ tag, attributes }) => tag === 'rect' && attributes.fill !== 'none')).toEqual([])
  })
})

test('the label of a contour line has a plate that breaks the line where there is no map, and a halo on one', () => {
  const at = Float64Array.from({ length: 41 }, (_, i) => i / 20 - 1)
  const rings: ContourSeries = {
    kind: 'contours',
    x: at,
    y: at,
    rows: Array.from(at, (y) => at.map((x) => Math.hypot(x, y))),
    levels: [{ value: 0.6, words: '+1 dB' }],
  }
  const labelled = (mapHref: string | null) => {
    const found = all(svgChart(chart(axis, axis, [rings]), SIZE, { palette, mapHref }))
    const label = found.find(({ children }) => children.includes('+1 dB'))
    const plates = found.filter(({ tag, attributes }) => tag === 'rect' && attributes.fill === palette.paper)
    return { label: label?.attributes, plates: plates.map(({ attributes }) => attributes) }
  }
  const { label, plates } = labelled(null)
  expect(label?.stroke).toBeUndefined()
  expect(plates).toHaveLength(1)
  const [{ x, y, width, height } = {}] = plates
  expect(Number(x) + Number(width) / 2).toBeCloseTo(Number(label?.x), 1)
  expect(Number(y)).toBeLessThan(Number(label?.y) - 9)
  expect(Number(y) + Number(height)).toBeGreaterThan(Number(label?.y))
  expect(labelled('')).toMatchObject({ label: { stroke: '#ffffff' }, plates: [] })
})

test('a mark and a box on a map lie on a wider, lighter line, which keeps them in sight where the map is dark', () => {
  const { panes } = mapped('loss')
  const on = chart(axis, axis, [
    ...(panes[0]?.series ?? []),
    { kind: 'box', x: [-0.5, 0.5], y: [-0.5, 0.5], filled: false },
    { kind: 'points', name: 'here', x: [0], y: [0], tone: 'core', mark: 'cross', sizePx: 13 },
  ])
  const strokes = (mapHref: string | null, isWanted: (each: Markup) => boolean) =>
    all(svgChart(on, SIZE, { palette, mapHref }))
      .filter(isWanted)
      .map(({ attributes }) => [attributes.stroke, attributes['stroke-width']])
  const isCross = ({ tag, attributes }: Markup) =>
    tag === 'path' && /^M\S+ \S+h\S+M\S+ \S+v/.test(String(attributes.d))
  expect(strokes('data:,', isCross)).toEqual([
    ['#ffffff', 4.5],
    ['#14171a', 2],
  ])
  expect(strokes(null, isCross)).toEqual([[palette.core, 2]])
  const isBox = ({ tag, attributes }: Markup) =>
    tag === 'rect' && attributes.fill === 'none' && [1.5, 4].includes(Number(attributes['stroke-width']))
  expect(strokes('data:,', isBox)).toEqual([
    ['#ffffff', 4],
    ['#14171a', 1.5],
  ])
})

test('a layout that is known already draws the same picture', () => {
  const shown = mapped('loss')
  const layout = chartLayout(shown, SIZE)
  expect(svgChart(shown, SIZE, { palette, layout })).toEqual(svgChart(shown, SIZE, { palette }))
})

test('the marks of an axis take no other part’s place where their number changes', () => {
  const tagsOf = (to: number) =>
    svgChart({ ...mapped('loss'), x: { ...axis, to } }, SIZE, { palette }).children.map((child) =>
      typeof child === 'string' ? child : child.tag,
    )
  const ticks = (to: number) => chartLayout({ ...mapped('loss'), x: { ...axis, to } }, SIZE).xTicks.length
  expect(ticks(1.7)).not.toBe(ticks(1))
  expect(tagsOf(1.7)).toEqual(tagsOf(1))
})
