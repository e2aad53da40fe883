import { describe, expect, test } from 'vitest'
import { centredGrid, gaussianProfile, sampleProfile } from '../../src/optics/index'
import { modeCutFigure, modeIntensityFigure, modePhaseFigure } from '../../src/plots/fieldFigures'
import type { PlotTheme } from '../../src/plots/figure'
import { lossCurveFigure } from '../../src/plots/lossCurveFigure'
import { lossMapFigure } from '../../src/plots/lossMapFigure'
import { markupText } from '../../src/report/document/markup'
import { lossMapDrawing } from '../../src/report/figures/lossMap'

const THEME: PlotTheme = { ink: '#000', rule: '#ccc', accent: '#00f', font: 'x' }
const MEDIUM = { wavelengthUm: 1.55, index: 1 }
const field = sampleProfile(
  gaussianProfile({ ...MEDIUM, mfdXUm: 6, mfdYUm: 4, waistXUm: 15, waistYUm: 15 }),
  centredGrid(32, 32, 0.5, 0.5),
  MEDIUM,
)

describe('figures of fields', () => {
  test('intensity is 0 dB on the axis and never below the floor', () => {
    const { table, data } = modeIntensityFigure(field, 'said', THEME)
    const values = table.rows.map((row) => Number(row[2]))
    expect(Math.max(...values)).toBeCloseTo(0, 9)
    expect(Math.min(...values)).toBe(-30)
    expect(data[0]).toMatchObject({ type: 'contour' })
  })

  test('phase is 0 on the axis and follows the wavefront: exp(i turn x^2) of the profile', () => {
    const rows = modePhaseFigure(field, 'said', THEME).table.rows
    const at = (x: number, y: number) => Number(rows.find((row) => row[0] === x && row[1] === y)?.[2])
    expect(at(0, 0)).toBeCloseTo(0, 9)
    const out = { re: 0, im: 0 }
    gaussianProfile({ ...MEDIUM, mfdXUm: 6, mfdYUm: 4, waistXUm: 15, waistYUm: 15 }).at(2, 1, out)
    expect(at(2, 1)).toBeCloseTo((Math.atan2(out.im, out.re) * 180) / Math.PI, 6)
  })

  test('cuts show each mode with its Gaussian thin', () => {
    const cut = {
      positionsUm: Float64Array.of(-1, 0, 1),
      fieldDb: Float64Array.of(-3, 0, -3),
      gaussianDb: Float64Array.of(-2, 0, -2),
    }
    const { data, table } = modeCutFigure('x', [{ name: 'emitted', cut }], 'said', THEME)
    expect(data).toHaveLength(2)
    expect(table.rows[0]).toEqual([-1, -3, -2])
  })
})

describe('Gaussians beside fields', () => {
  const text = { name: 'Offset x', unit: 'µm', perCore: 1 }
  const curve = {
    axis: 'offsetXUm' as const,
    positions: Float64Array.of(0, 1),
    lossesDb: Float64Array.of(1, 2),
  }
  const window = { axis: 'offsetXUm' as const, at: 0, marks: [], slopeDbPerUnit: 0 }
  const map = {
    x: Float64Array.of(-1, 0, 1),
    y: Float64Array.of(-1, 0, 1),
    rowsDb: [2, 1, 2].map((loss) => Float64Array.of(loss + 1, loss, loss + 1)),
    atX: 0,
    atY: 0,
    hereDb: 1,
    leastDb: 1,
  }
  const box = { halfX: 0.1, halfY: 0.1 }

  test('are one thin curve more, and none where there are no fields', () => {
    const plain = lossCurveFigure(curve, window, 1, text, THEME)
    const both = lossCurveFigure(curve, window, 1, text, THEME, curve)
    expect(both.data).toHaveLength(plain.data.length + 1)
    expect(both.data[0]).toMatchObject({ name: 'Gaussians', line: { width: 1 } })
  })

  test('are contours of their own on the map, and said', () => {
    const drawn = (figure: ReturnType<typeof lossMapFigure>) =>
      markupText(lossMapDrawing({ ...figure.parts, heightPx: 300 }))
    const both = lossMapFigure(map, text, { ...text, name: 'Offset y' }, box, map)
    expect(drawn(both)).toContain('class="chart-contour-beside"')
    expect(both.sentence).toContain('by Gaussians')
    const plain = lossMapFigure(map, text, text, box)
    expect(drawn(plain)).not.toContain('chart-contour-beside')
    expect(plain.sentence).not.toContain('Gaussians')
  })
})
