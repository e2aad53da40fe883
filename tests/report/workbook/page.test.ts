import { describe, expect, test } from 'vitest'
import { address, below, columnLetters, pageWriter } from '../../../src/report/workbook/page'
import { literal } from '../../../src/report/workbook/term'

describe('addresses', () => {
  // ECMA-376, 18.17.2.3: columns A to Z, then AA; rows from 1.
  test.each([
    [0, 'A'],
    [25, 'Z'],
    [26, 'AA'],
    [51, 'AZ'],
    [52, 'BA'],
    [701, 'ZZ'],
    [702, 'AAA'],
  ])('column %i is %s', (column, letters) => {
    expect(columnLetters(column)).toBe(letters)
  })

  test('rows are counted from 1, with the page where one is given', () => {
    expect(address(6, 2)).toBe('C7')
    expect(address(6, 2, 'Budget 1')).toBe("'Budget 1'!$C$7")
  })
})

describe('a page while it is filled', () => {
  test('gives references that name the page, and leaves them out on the page itself', () => {
    const writer = pageWriter('Page (1)')
    const cell = writer.number(3, 1, 0.5)
    expect(cell).toEqual({ text: "'Page (1)'!$B$4", value: 0.5 })
    const other = literal(2)
    const term = writer.formula(4, 1, { text: `(${cell.text}*'Other'!$B$4*${other.text})`, value: 1 })
    expect(term).toEqual({ text: "'Page (1)'!$B$5", value: 1 })
    writer.word(5, 1, `IF(${term.text}>0,"met","not met")`, 'met')
    const { cells } = writer.page([10], 2)
    expect(cells.get('4,1')).toEqual({ value: 1, formula: "(B4*'Other'!$B$4*2)", style: 'result' })
    expect(cells.get('5,1')).toEqual({ value: 'met', formula: 'IF(B5>0,"met","not met")', style: 'result' })
  })

  test('keeps a format only where one is given', () => {
    const writer = pageWriter('Page')
    writer.number(0, 0, 1)
    writer.number(0, 1, 1, 'plain', '0.00')
    writer.formula(1, 0, literal(2))
    writer.formula(1, 1, literal(2), 'sign', '0')
    const { cells } = writer.page([10], 0)
    expect(cells.get('0,0')).toEqual({ value: 1, style: 'input' })
    expect(cells.get('0,1')).toEqual({ value: 1, style: 'plain', format: '0.00' })
    expect(cells.get('1,0')).toEqual({ value: 2, formula: '2', style: 'result' })
    expect(cells.get('1,1')).toEqual({ value: 2, formula: '2', style: 'sign', format: '0' })
  })

  test('counts the rows of a part from its first', () => {
    const writer = pageWriter('Page')
    const part = below(writer, 10)
    part.text(0, 0, 'text')
    part.number(1, 0, 1)
    expect(part.formula(2, 0, literal(2)).text).toBe("'Page'!$A$13")
    part.word(3, 0, 'IF(1>0,"yes","no")', 'yes')
    part.limit(1, 0, { from: 0, to: 1, message: '' })
    const { cells, limits } = writer.page([10], 0)
    expect([...cells.keys()]).toEqual(['10,0', '11,0', '12,0', '13,0'])
    expect([...limits.keys()]).toEqual(['A12'])
  })
})
