import { expect, test } from 'vitest'
import { demoProject } from '../../src/model/index'
import { type Section, table, text } from '../../src/report/document/blocks'
import { sectionBody } from '../../src/report/document/body'
import { sheetMarkdown } from '../../src/report/formats/markdown'
import { sheetRows } from '../../src/report/formats/sheetRows'
import { sheetInputs } from '../../src/report/inputs'
import { sheetOf } from './support/sheets'

const LONG = 'Isolator 2.5 mm long, clear aperture 0.9 mm, isolation at least 30 dB, loss at most 0.35 dB'
const FIT = { widthPx: 150, sizePx: 12, cut: 'end' } as const

test('a text is shortened to its space on paper only', () => {
  const section: Section = {
    id: 'budget',
    title: 'Budget',
    remark: '',
    blocks: [
      text(LONG, FIT),
      table('Parts', [{ label: 'Part', fit: { ...FIT, cut: 'middle' } }, 'Use'], [[LONG, LONG]]),
    ],
  }
  const paper = JSON.stringify(sectionBody(section))
  expect(paper.match(/…/g)).toHaveLength(2)
  const printed = { ...sheetOf(demoProject()), sections: [section] }
  for (const whole of [sheetMarkdown(printed), JSON.stringify(sheetRows(printed))]) {
    expect(whole).not.toContain('…')
    expect(whole.split(LONG)).toHaveLength(4)
  }
})

test('a number stays with its unit on one line, up to 32 characters', () => {
  const body = (...cells: readonly string[]) =>
    JSON.stringify(
      sectionBody({ id: 'own', title: '', remark: '', blocks: [table('T', ['A', 'B'], [cells])] }),
    )
  expect(body('at 20 °C', '± 0.5 µm')).toMatch(/"held".*20 °C.*"held".*± 0\.5 µm/)
  const long = (letters: number) => `x${'0'.repeat(letters - 4)} µm`
  expect(long(32)).toHaveLength(32)
  expect(body(long(32), 'b')).toContain('"held"')
  expect(body(long(33), 'b')).not.toContain('"held"')
})

test('a quantity is called by what it is', () => {
  const labels = demoProject()
    .candidates.flatMap(({ id }) => sheetInputs(demoProject(), id))
    .map(({ label }) => label)
  expect(
    labels.filter((label) =>
      /^dn\/dT of index|^glass of|^on-chip taper|^(length|expansion) of layer/.test(label),
    ),
  ).toEqual([])
  expect(labels).toContainEqual(expect.stringMatching(/^dn\/dT of /))
  expect(labels).toContainEqual(expect.stringMatching(/^taper loss of /))
  expect(labels).toContainEqual(expect.stringMatching(/^length of mount layer 1, fibre side$/))
})
