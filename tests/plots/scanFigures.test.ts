import { describe, expect, test } from 'vitest'
import { imageFigure, rasterFigure } from '../../src/plots/imageFigures'
import { fitFigure, pointsAndLinesFigure, readingsFigure } from '../../src/plots/scanFigures'

const theme = { ink: '#000000', rule: '#cccccc', accent: '#0000ff', font: 'sans-serif' }
const titles = { x: 'Position, µm', y: 'Power, µW' }

describe('figures of scans', () => {
  test('signals are told apart by symbol, and every point stands in the table with its signal', () => {
    const signals = ['a', 'b'].map((label) => ({ label, x: [1, 2], y: [3, 4] }))
    const figure = readingsFigure(signals, titles, 'Two signals.', theme)
    const symbols = figure.data.map((trace) => (trace.marker as { symbol: string }).symbol)
    expect(new Set(symbols).size).toBe(2)
    expect(figure.table.rows).toEqual([
      ['a', 1, 3],
      ['a', 2, 4],
      ['b', 1, 3],
      ['b', 2, 4],
    ])
  })

  test('residuals share the coordinate and have an axis of their own below the fit', () => {
    const signal = { label: 'a', x: [0, 1], y: [5, 6], fitted: [5.5, 5.5], residual: [-0.5, 0.5] }
    const figure = fitFigure(signal, { ...titles, residual: 'Left over' }, 'A fit.', theme)
    const [, , residual] = figure.data
    expect(residual).toMatchObject({ x: [0, 1], y: [-0.5, 0.5], yaxis: 'y2' })
    const domain = (name: string) => (figure.layout[name] as { domain: number[] }).domain
    expect(domain('yaxis2')[1]).toBeLessThan(domain('yaxis')[0]!)
    expect(figure.table.rows[0]).toEqual([0, 5, 5.5, -0.5])
  })

  test('a reading that stands out has a symbol of its own', () => {
    const points = { label: 'readings', x: [1, 2], y: [3, 9], flagged: [false, true] }
    const figure = pointsAndLinesFigure(points, [], titles, 'Readings.', theme)
    expect(figure.data[0]).toMatchObject({ marker: { symbol: ['circle', 'diamond-open'] } })
  })
})

describe('figures of images', () => {
  const map = { width: 2, height: 2, xUm: 1, yUm: 10, stepUm: 0.5, values: Float64Array.of(1, 2, 3, -4) }
  const text = { unit: 'µm', value: 'counts', sentence: 'An image.', signed: false }

  test('rows of the image run down the picture, to one scale in x and y', () => {
    const figure = imageFigure(map, null, text, theme)
    expect(figure.data[0]).toMatchObject({
      x: [1, 1.5],
      y: [10, 10.5],
      z: [
        [1, 2],
        [3, -4],
      ],
    })
    expect(figure.layout.yaxis).toMatchObject({ autorange: 'reversed', scaleanchor: 'x' })
    expect(figure.table.rows[3]).toEqual([1.5, 10.5, -4])
  })

  test('a residual map has a scale that is even about zero', () => {
    expect(imageFigure(map, null, { ...text, signed: true }, theme).data[0]).toMatchObject({
      zmin: -4,
      zmax: 4,
    })
    expect(imageFigure(map, null, text, theme).data[0]).not.toHaveProperty('zmin')
  })

  test('the ellipse reaches half its major width from its centre along its azimuth', () => {
    const ellipse = { centreX: 2, centreY: 3, major: 4, minor: 2, azimuthRad: Math.PI / 2 }
    const points = { x: [0, 1], y: [0, 1], value: [1, 2] }
    const outline = rasterFigure(points, ellipse, text, theme).data[1] as { x: number[]; y: number[] }
    expect(Math.max(...outline.y)).toBeCloseTo(5, 9)
    expect(Math.min(...outline.x)).toBeCloseTo(1, 9)
  })
})
