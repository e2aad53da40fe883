// What is escaped in Markdown, and what is left unchanged. Block structure and autolinks: CommonMark 0.31, sect.
// 4 to 6, and the extended autolinks of GitHub Flavored Markdown 0.29, sect. 6.9 (from memory).

import { describe, expect, test } from 'vitest'
import { table } from '../../src/report/document/blocks'
import { fixedCell } from '../../src/report/document/cells'
import { markdownText, sheetMarkdown } from '../../src/report/formats/markdown'
import { sheetRows } from '../../src/report/formats/sheetRows'
import { HEAD } from './workbook/head'

describe('a text in Markdown', () => {
  test.each([
    '0.10',
    'High-NA stub, bonded',
    '2026-11-25',
    'Demo: all invented',
    'loss (one way) > 2 dB!',
    'a + b',
  ])('%j stays as it is', (text) => {
    expect(markdownText(text)).toBe(text)
  })

  test.each([
    ['1. item', '1\\. item'],
    ['2) item', '2\\) item'],
    ['- item', '\\- item'],
    ['+ item', '\\+ item'],
    ['# head', '\\# head'],
    ['> quote', '\\> quote'],
    ['---', '\\---'],
    ['===', '\\==='],
    ['![x](y)', '\\!\\[x\\](y)'],
    ['https://a.b', 'https\\://a.b'],
    ['www.a.b', 'www\\.a.b'],
    ['me@a.b', 'me\\@a.b'],
    [':smile:', '\\:smile:'],
    ['a | b * c _d_ `e`', 'a \\| b \\* c \\_d\\_ \\`e\\`'],
  ])('%j becomes %j', (text, written) => {
    expect(markdownText(text)).toBe(written)
  })
})

test('a document says what it is and for which design under its title, also as rows', () => {
  const printed = { head: HEAD, sections: [] }
  expect(sheetMarkdown(printed).split('\n')[2]).toBe(HEAD.subject)
  expect(sheetRows(printed)).toContainEqual({
    section: 'Document',
    kind: 'head',
    cells: ['Document', HEAD.subject],
  })
})

test('a table has numbers to the right, words to the left, and its total in bold, without bold blanks', () => {
  const budget = table(
    'Budget',
    ['Line', { label: 'Loss', unit: 'dB' }, 'Note'],
    [['Splice', fixedCell(0.1, 2), 'measured'], { cells: ['Total', fixedCell(1.234, 2), ''], total: true }],
  )
  const section = { id: 'budget' as const, title: 'Budget', remark: '', blocks: [budget] }
  const text = sheetMarkdown({ head: HEAD, sections: [section] })
  expect(text.split('\n').slice(-5, -1)).toEqual([
    '| Line | Loss, dB | Note |',
    '| --- | ---: | --- |',
    '| Splice | 0.10 | measured |',
    '| **Total** | **1.23** |  |',
  ])
})
