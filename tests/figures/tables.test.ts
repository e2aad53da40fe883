// Every figure has its numbers: a table with headings, units and a row for every point of the picture.

import { describe, expect, test } from 'vitest'
import { modeCutFigure, modeIntensityFigure, modePhaseFigure } from '../../src/figures/field/modePictures'
import { modeSweepFigure } from '../../src/figures/field/modeSweep'
import { columnTitle, type Figure } from '../../src/figures/figure'
import { imageFigure, rasterFigure } from '../../src/figures/measure/images'
import { fitFigure, readingsFigure } from '../../src/figures/measure/scans'
import { demoFigures } from './support/demoFigures'

const titlesOf = ({ table }: Figure) => table.columns.map(columnTitle)

const figures = demoFigures('cleaved-dry')

test('every figure of a design has a table with a heading for every column and numbers in every row', () => {
  for (const figure of figures) {
    const { columns, rows } = figure.table
    const titles = titlesOf(figure)
    expect(new Set(titles).size, figure.id).toBe(titles.length)
    expect(
      titles.every((title) => title.trim() !== ''),
      figure.id,
    ).toBe(true)
    expect(rows.length, figure.id).toBeGreaterThan(0)
    for (const row of rows) {
      expect(row.length, figure.id).toBe(columns.length)
      expect(
        row.every((cell) => typeof cell === 'string' || Number.isFinite(cell)),
        figure.id,
      ).toBe(true)
    }
  }
})

describe('figures of light', () => {
  const of = (start: string) => {
    const found = figures.find(({ id }) => id.startsWith(start))
    if (found === undefined) throw new Error(`no figure ${start}`)
    return found
  }

  test.each([
    ['spectrum', /nm$/, /dB$/],
    ['polarisation', /nm$/, /dB$/],
    ['ripple', /µm$/, /dB$/],
    ['face-angle', /°$/, /dB$/],
  ])('%s: the unit of its axis and decibels', (start, first, other) => {
    const titles = titlesOf(of(start))
    expect(titles[0]).toMatch(first)
    expect(titles.slice(1).every((title) => other.test(title))).toBe(true)
  })
})

describe('figures of fields', () => {
  const field = {
    wavelengthUm: 1.55,
    index: 1,
    nx: 3,
    ny: 3,
    dxUm: 1,
    dyUm: 2,
    x0Um: -1,
    y0Um: -2,
    re: Float64Array.of(0.1, 0.5, 0.1, 0.5, 1, 0.5, 0.1, 0.5, 0.1),
    im: new Float64Array(9),
  }

  test('have a row for every cell, at its place, in decibels below the peak', () => {
    const figure = modeIntensityFigure('mode', field, 'A mode')
    expect(titlesOf(figure).slice(0, 2)).toEqual(['x, µm', 'y, µm'])
    expect(titlesOf(figure)[2]).toMatch(/dB$/)
    expect(figure.table.rows).toHaveLength(9)
    expect(figure.table.rows[4]).toEqual([0, 0, 0])
    // |E|² of a quarter: 10 lg 0.25 = -6.0206 dB.
    expect(figure.table.rows[3]?.[0]).toBe(-1)
    expect(figure.table.rows[3]?.[2]).toBeCloseTo(10 * Math.log10(0.25), 9)
    expect(titlesOf(modePhaseFigure('phase', field, 'Its phase'))[2]).toBe('Phase, °')
  })

  test('cuts have the position, each mode and its Gaussian', () => {
    const cut = {
      positionsUm: Float64Array.of(-1, 0, 1),
      fieldDb: Float64Array.of(-6, 0, -7),
      gaussianDb: Float64Array.of(-5, 0, -5),
    }
    const figure = modeCutFigure('x', [{ name: 'Fibre', cut }], 'A cut')
    expect(titlesOf(figure)).toEqual(['x, µm', 'Fibre, dB', 'Fibre as a Gaussian, dB'])
    expect(figure.table.rows[2]).toEqual([1, -7, -5])
  })
})

describe('figures of measurements', () => {
  const signal = { label: 'Power', x: [0, 1, 2], y: [1, 3, 2] }
  const titles = { x: 'Offset, µm', y: 'Power, mW', residual: 'Residual, mW' }

  test('readings have every point of every signal, with the titles of the axes', () => {
    const figure = readingsFigure([signal, { ...signal, label: 'Second' }], titles, 'Two signals')
    expect(titlesOf(figure)).toEqual(['Signal', 'Offset, µm', 'Power, mW'])
    expect(figure.table.rows).toHaveLength(6)
    expect(figure.table.rows[4]).toEqual(['Second', 1, 3])
  })

  test('a fit has reading, fit and residual beside each other', () => {
    const figure = fitFigure(
      { ...signal, fitted: [1.1, 2.8, 2.1], residual: [-0.1, 0.2, -0.1] },
      titles,
      'A fit',
    )
    expect(figure.table.rows).toHaveLength(3)
    expect(figure.table.rows[1]).toEqual(expect.arrayContaining([1, 3, 2.8, 0.2]))
    expect(titlesOf(figure)[0]).toBe('Offset, µm')
  })
})

describe('figures of pictures', () => {
  const text = { unit: 'µm', value: 'Power', sentence: 'A spot', signed: false }

  test('an image has a row for every pixel at its place, lines from the top', () => {
    const map = {
      width: 3,
      height: 2,
      xUm: -1,
      yUm: 10,
      stepUm: 0.5,
      values: Float64Array.of(1, 2, 3, 4, 5, 6),
    }
    const figure = imageFigure(map, null, text)
    expect(titlesOf(figure)).toEqual(['x, µm', 'y, µm', 'Power'])
    expect(figure.table.rows).toEqual([
      [-1, 10, 1],
      [-0.5, 10, 2],
      [0, 10, 3],
      [-1, 10.5, 4],
      [-0.5, 10.5, 5],
      [0, 10.5, 6],
    ])
  })

  test('a raster has its points in the order of the file; the picture leaves what was not measured empty', () => {
    const points = { x: [10, 0, 10], y: [-2, -2, 4], value: [0.3, 0.1, 0.7] }
    const figure = rasterFigure(points, null, text)
    expect(figure.table.rows).toEqual([
      [10, -2, 0.3],
      [0, -2, 0.1],
      [10, 4, 0.7],
    ])
    const [map] = figure.picture.panes[0]?.series ?? []
    expect(map?.kind === 'map' && map.rows.map((row) => [...row])).toEqual([
      [0.1, 0.3],
      [Number.NaN, 0.7],
    ])
  })

  test('a sweep has both diameters and both losses of every step, and says where there is no mode', () => {
    const figure = modeSweepFigure(
      {
        name: 'Core width',
        unit: 'nm',
        values: [200, 400],
        mfdXUm: [null, 3.4],
        mfdYUm: [null, 2.8],
        lossDb: [null, 0.4],
        gaussianDb: [null, 0.3],
        chosen: null,
        now: 400,
      },
      'A sweep',
    )
    expect(titlesOf(figure)).toEqual([
      'Core width, nm',
      'MFD x, µm',
      'MFD y, µm',
      'Coupling loss, field, dB',
      'Coupling loss, Gaussian, dB',
    ])
    expect(figure.table.rows).toEqual([
      [200, 'no mode', 'no mode', 'none', 'none'],
      [400, 3.4, 2.8, 0.4, 0.3],
    ])
  })
})
