import { describe, expect, test } from 'vitest'
import type { BudgetLine } from '../../src/analysis/results/evaluation'
import { LINE_KINDS } from '../../src/analysis/results/evaluation'
import { lossStackFigure } from '../../src/plots/lossStackFigure'
import { sizeCurveFigure } from '../../src/plots/sizeCurveFigure'
import { multiplesRows, toleranceMultiplesFigure } from '../../src/plots/toleranceMultiplesFigure'

const THEME = { ink: '#000', rule: '#ccc', accent: '#06c', font: 'serif' }
const line = (kind: BudgetLine['kind'], lossDb: number) => ({ kind, lossDb })

describe('stacked losses', () => {
  test('hold every kind of line exactly once, so that the bars add up to the nominal loss', () => {
    const { table } = lossStackFigure(
      [{ name: 'all', lines: LINE_KINDS.map((kind) => line(kind, 1)) }],
      2,
      THEME,
    )
    const row = table.rows[0]?.slice(1).map(Number) ?? []
    const total = row.pop()
    expect(total).toBe(LINE_KINDS.length)
    expect(row.reduce((sum, db) => sum + db, 0)).toBe(LINE_KINDS.length)
  })

  test('name the candidate that loses least, and keep two of one name apart', () => {
    const figure = lossStackFigure(
      [
        { name: 'same', lines: [line('gap', 3)] },
        { name: 'same', lines: [line('gap', 1)] },
        { name: 'third', lines: [line('splice', 2)] },
      ],
      2,
      THEME,
    )
    expect(figure.sentence).toContain('same loses least, 1.00 dB')
    expect(figure.data[0]).toMatchObject({ y: [0, 1, 2] })
  })
})

describe('small multiples', () => {
  const curve = (name: string, bend: number) => {
    const displacements = Float64Array.from({ length: 41 }, (_, i) => (i - 20) / 10)
    return { name, displacements, excessDb: displacements.map((x) => bend * x * x) }
  }

  test('share one scale, wide enough for the flattest curve', () => {
    const figure = toleranceMultiplesFigure(
      [curve('steep', 4), curve('flat', 0.5)],
      { name: 'Offset x', unit: 'µm', perCore: 1 },
      THEME,
    )
    expect(figure.layout.xaxis).toMatchObject({ range: [-2, 2] })
    expect(figure.layout.xaxis2).toMatchObject({ range: [-2, 2] })
    expect(figure.layout.yaxis2).toMatchObject({ range: [0, 3] })
  })

  test('stand four in a row', () => {
    expect([1, 4, 5, 8, 9].map(multiplesRows)).toEqual([1, 1, 2, 2, 3])
  })
})

describe('the curve of a size', () => {
  const curve = {
    values: Float64Array.of(2, 3, 4),
    lossesDb: Float64Array.of(2, 1, 3),
    now: 2,
    nowDb: 2,
    best: 3,
    bestDb: 1,
    readings: null,
    band: { from: 2.2, to: 3.5, open: false },
  }
  const text = { name: 'MFD', unit: 'µm', perCore: 1 }

  test('says the optimum and the band, and draws the band', () => {
    const figure = sizeCurveFigure(curve, 1.5, text, THEME)
    expect(figure.sentence).toContain('best at 3 µm with 1.00 dB')
    expect(figure.sentence).toContain('2.2 to 3.5 µm meets the limit of 1.5 dB')
    expect(figure.layout.shapes).toHaveLength(2)
  })

  test('says it where no size meets the limit', () => {
    const figure = sizeCurveFigure({ ...curve, band: null }, 0.5, text, THEME)
    expect(figure.sentence).toContain('no size meets the limit of 0.5 dB')
    expect(figure.layout.shapes).toHaveLength(1)
  })
})
