import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { tableCsv } from '../../../src/figures/table'
import { demoProject } from '../../../src/model/index'
import { escapeFormula, unescapeFormula } from '../../../src/model/parts/formulaEscape'
import { partsCsv, readPartsCsv } from '../../../src/model/parts/partsCsv'

// Source: OWASP, CSV Injection (from memory): = + - @, tab and carriage return; with the wide forms of the same signs.
const SIGNS = ['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠']

describe.each(SIGNS)('text that begins with %j', (sign) => {
  const text = `${sign}1+1`

  test('is led by an apostrophe, and is itself again without it', () => {
    expect(escapeFormula(text)).toBe(`'${text}`)
    expect(unescapeFormula(escapeFormula(text))).toBe(text)
  })

  test('is text in a copied table', () => {
    expect(Papa.parse<string[]>(tableCsv({ columns: [{ label: text }], rows: [] })).data[0]).toEqual([
      `'${text}`,
    ])
  })

  test('is text in a list of parts, and comes back from it', () => {
    const project = demoProject()
    for (const fibre of project.fibres) {
      fibre.name = text
      fibre.claddingDiameter.note = text
    }
    const csv = partsCsv(project)
    expect(
      Papa.parse<string[]>(csv)
        .data.flat()
        .filter((cell) => cell.startsWith(sign) && !/^-\d/.test(cell)),
    ).toEqual([])
    const read = readPartsCsv(csv)
    expect(
      read.ok && read.value.fibres.map(({ name, claddingDiameter }) => [name, claddingDiameter.note]),
    ).toEqual(project.fibres.map(() => [text, text]))
  })
})

test('an apostrophe that was entered stays', () => {
  for (const text of ["'quoted", "''twice", "'=typed"])
    expect(unescapeFormula(escapeFormula(text))).toBe(text)
  expect(unescapeFormula("'90s")).toBe("'90s")
})
