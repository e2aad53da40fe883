import { describe, expect, test } from 'vitest'
import type { Figure } from '../../src/figures/figure'
import { waterfallHeightPx } from '../../src/figures/loss/waterfall'
import { PALETTES } from '../../src/figures/render/palette'
import { svgPicture } from '../../src/figures/render/picture'
import { demoProject } from '../../src/model/index'
import { demoFigures } from './support/demoFigures'
import { clipped, collisions, textBoxes } from './support/textBoxes'

const SIZES = [
  { widthPx: 640, heightPx: 300 },
  { widthPx: 380, heightPx: 260 },
  { widthPx: 300, heightPx: 290 },
] as const

/** A budget is as high as its contributions need, wherever it is shown. */
const heightOf = ({ id, table }: Figure, heightPx: number) =>
  id === 'budget' ? Math.max(heightPx, waterfallHeightPx(table.rows.length - 1)) : heightPx

function drawn(figure: Figure, { widthPx: width, heightPx: height }: (typeof SIZES)[number]) {
  const { picture } = figure
  const size = { widthPx: width, heightPx: heightOf(figure, height) }
  const svg = svgPicture(picture, { palette: PALETTES.light, size, mapHref: () => 'data:,' })
  const [, , widthPx = 0, heightPx = 0] = String(svg.attributes.viewBox).split(' ').map(Number)
  return { boxes: textBoxes(svg), widthPx, heightPx }
}

describe.each(demoProject().candidates.map(({ id }) => id))('the figures of %s', (designId) => {
  const figures = demoFigures(designId)

  test.each(SIZES)('have no text over another or out of the picture at $widthPx by $heightPx px', (size) => {
    const faults = figures.flatMap((figure) => {
      const { boxes, widthPx, heightPx } = drawn(figure, size)
      expect(boxes.length).toBeGreaterThan(2)
      return [...collisions(boxes), ...clipped(boxes, widthPx, heightPx)].map(
        (fault) => `${figure.id}: ${fault}`,
      )
    })
    expect(faults).toEqual([])
  })

  test('show no loss axis of less than 0.1 dB, and equal units on two lengths', () => {
    for (const { picture } of figures) {
      if (picture.kind !== 'chart') continue
      for (const { y } of picture.panes) {
        if (y.unit === 'dB') expect(Math.abs(y.to - y.from)).toBeGreaterThanOrEqual(0.1)
        if (y.unit === 'µm' && picture.x.unit === 'µm' && y.title.startsWith('Offset')) {
          expect(picture.equalAxes).toBe(true)
        }
      }
    }
  })

  test('state their result without a number that is none', () => {
    for (const { sentence, table } of figures) {
      expect(sentence).not.toMatch(/NaN|Infinity|undefined|null/)
      for (const row of table.rows) expect(row).toHaveLength(table.columns.length)
    }
  })
})
