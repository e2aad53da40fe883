import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { offsetCurvesFigure } from '../../../src/figures/loss/offsetCurves'
import { group, text } from '../../../src/report/document/blocks'
import { figureBlock, figuresOf } from '../../../src/report/document/figureBlock'
import { matchedProject } from '../../analysis/yield/cases'

const [joint] = evaluateCandidate(matchedProject(10.4, 1), 'matched').joints
const figure = {
  ...offsetCurvesFigure(joint!, 'the joint'),
  ...{ id: 'f', sentence: 'It rises.' },
  table: {
    columns: [{ label: 'x', unit: 'µm', digits: 2 }, { label: 'y' }],
    rows: [
      [1.256, 'none'],
      [2, 0.123456789],
    ],
  },
} as unknown as Parameters<typeof figureBlock>[0]

test('a figure has its numbers as a table, with its digits or seven, and its units where there are some', () => {
  const { id, caption, table, drawing, ...more } = figureBlock(figure)
  expect([id, caption, more]).toEqual(['f', 'It rises.', { kind: 'figure' }])
  expect(drawing).toBeDefined()
  expect(table.columns).toEqual([{ label: 'x', unit: 'µm' }, { label: 'y' }])
  expect(table.rows.map(({ cells }) => cells)).toEqual([
    [{ value: 1.256, text: '1.26' }, 'none'],
    [
      { value: 2, text: '2.00' },
      { value: 0.123456789, text: '0.1234568' },
    ],
  ])
  const fit = { widthPx: 100, sizePx: 12, cut: 'end' } as const
  expect(figureBlock(figure, undefined, fit).fit).toEqual(fit)
})

test('the figures of sections are those in their groups too, in order', () => {
  const block = (name: string) => ({ ...figureBlock(figure), id: name })
  const section = (...blocks: Parameters<typeof group>[1][]) => ({ id: 's', title: 'S', remark: '', blocks })
  expect(
    figuresOf([
      section(text('a'), group('beside', block('1'), text('b'), block('2'))),
      section(block('3')),
    ]).map(({ id }) => id),
  ).toEqual(['1', '2', '3'])
})
