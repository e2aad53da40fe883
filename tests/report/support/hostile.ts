// Text that breaks what is careless: markup, formulas, right to left, emoji, length, line breaks, commas, quotes.

import { parseProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { twoDesigns } from '../../support/twoDesigns'

/** Short enough for a name. Of the signs that begin a formula a few: each is escaped in tests/model/parts/formulaEscape.test.ts. */
export const HOSTILE_NAMES: Readonly<Record<string, string>> = {
  markup: '<script>alert(1)</script><img src=x onerror=alert(2)>&amp;</title></style>',
  'a formula': '=HYPERLINK("http://example.invalid","x")',
  'a minus': '-2+3',
  'a tab and a formula': '\t=1+1',
  'a wide plus': '＋1',
  'right to left': 'מסלול \u202eabc\u202c عربي ١٢٣',
  emoji: '🧪👩🏽‍🔬🏳️‍🌈 \u{1F9EA}',
  'commas and quotes': 'a,b;"c","d" \'e\' “f”',
  'line breaks': 'one\ntwo\r\nthree',
  'a table row': 'a | b \\| c || --- | **bold** _it_ `code` [l](javascript:alert(1)) ![i](x) # h',
  'an escape of workbooks': '_x0041_ _x000D_ &#65;',
  'a leading apostrophe': "'quoted",
  spaces: '   three before',
  'an address': 'see www.example.invalid and https://example.invalid/x?a=b&c=d',
}

/** Ten thousand characters without a place to break, and as many with emoji. */
export const LONG_TEXTS: readonly string[] = ['W'.repeat(10_000), '🧪x'.repeat(3333)]

/** The demo with the name wherever a user can type one, and a long text wherever one fits. */
export function hostileProject(name: string, long: string): Project {
  const project = twoDesigns()
  project.name = name
  project.remark = long
  for (const list of [project.fibres, project.facets, project.media])
    for (const part of list) part.name = name
  for (const candidate of project.candidates) {
    candidate.name = name
    candidate.remark = long
    candidate.userLines = [
      { id: 'own', label: name, kind: 'user line', loss: quantityOf(0.1, 'dB', 'estimate') },
    ]
  }
  project.review = {
    reason: long,
    remarks: { job: long, budget: name },
    openQuestions: [name],
    roles: [name],
  }
  return parseProject(JSON.parse(JSON.stringify(project)))
}
