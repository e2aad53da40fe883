import { expect, test } from 'vitest'
import type { PlotTheme } from '../../src/plots/figure'
import { cutFigure, modeMapFigure, modeSweepFigure } from '../../src/plots/modeFigures'

const theme: PlotTheme = { ink: '#000', rule: '#ccc', accent: '#06c', font: 'sans-serif' }

test('the map shows intensity with four contours, the cores, the layers within it and the best Gaussian', () => {
  const { data, table } = modeMapFigure(
    {
      xUm: [-1, 0, 1],
      yUm: [0, 1, 2],
      rowsDb: [
        [-60, -20, -60],
        [-20, 0, -20],
        [-60, -20, -60],
      ],
      cores: [{ x: [-0.2, 0.2, 0.2, -0.2], y: [0.9, 0.9, 1.1, 1.1] }],
      layerHeightsUm: [-1, 0.9, 5],
      gaussian: { centreX: 0, centreY: 1, mfdX: 1, mfdY: 0.8 },
    },
    'A mode.',
    theme,
  )
  expect(data.map(({ type }) => type)).toEqual([
    'heatmap',
    'contour',
    'contour',
    'contour',
    'contour',
    'scatter',
    'scatter',
    'scatter',
  ])
  // 1/e^2 of intensity is -8.686 dB (-20 / ln 10).
  expect((data[2]!.contours as { start: number }).start).toBeCloseTo(-8.685889638, 8)
  expect(table.rows).toHaveLength(9)
  expect(table.rows[0]).toEqual([-1, 0, -60])
})

test('a cut shows the mode over its best Gaussian, in decibels down to -40', () => {
  const { layout, data } = cutFigure(
    {
      name: 'x',
      positionUm: [-5, -1, 0, 1, 5],
      db: [-90, -10, 0, -10, -90],
      gaussianDb: [-200, -8.7, 0, -8.7, -200],
    },
    'A cut.',
    theme,
  )
  expect(data).toHaveLength(2)
  expect((layout.xaxis as { range: number[] }).range).toEqual([-1, 1])
})

test('a sweep leaves gaps where there is no mode, and says so in its table', () => {
  const { data, table } = modeSweepFigure(
    {
      name: 'Width of Tip',
      unit: 'µm',
      values: [0.1, 0.2],
      mfdXUm: [null, 5],
      mfdYUm: [null, 4],
      lossDb: [null, 1.2],
      gaussianDb: [null, 1],
      chosen: 0.2,
      now: 0.15,
    },
    'A sweep.',
    theme,
  )
  expect(data).toHaveLength(4)
  expect(data.every((trace) => trace.connectgaps === false)).toBe(true)
  expect(table.rows[0]).toEqual([0.1, 'no mode', 'no mode', 'none', 'none'])
})
