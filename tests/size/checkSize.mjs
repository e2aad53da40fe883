// Fails when what the browser must load grows past its budget. Sizes are gzipped.

import { readdirSync, readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'

// The first load holds the frame. What evaluates a design comes right behind it, in one file, with the first page.
// The spreadsheet is the library that writes it (39 kB) with the pages of the review's workbook; loaded when one is requested.
const LIMITS_KB = { first: 100, evaluation: 100, plots: 470, spreadsheet: 55 }
const folder = new URL('../../dist/assets/', import.meta.url)

const kilobytes = (name) => gzipSync(readFileSync(new URL(name, folder)), { level: 9 }).length / 1000
const scripts = readdirSync(folder).filter((name) => name.endsWith('.js'))
const html = readFileSync(new URL('../index.html', folder), 'utf8')
const first = scripts.filter((name) => html.includes(name))
const spreadsheet = scripts.filter((name) => /^(workbook|writePages)-/.test(name))
const evaluation = scripts.filter((name) => name.startsWith('evaluation-'))
const plots = scripts.filter((name) => /plotly/i.test(name))

const sum = (names) => names.reduce((total, name) => total + kilobytes(name), 0)
const rows = [
  ['first JavaScript', sum(first), LIMITS_KB.first, first.length > 0],
  [
    'evaluation of designs',
    sum(evaluation),
    LIMITS_KB.evaluation,
    evaluation.length === 1 && !evaluation.some((name) => first.includes(name)),
  ],
  ['plots', sum(plots), LIMITS_KB.plots, !plots.some((name) => first.includes(name))],
  [
    'spreadsheet',
    sum(spreadsheet),
    LIMITS_KB.spreadsheet,
    spreadsheet.length > 0 && !spreadsheet.some((name) => first.includes(name)),
  ],
]

let failed = false
for (const [label, size, limit, wellFormed] of rows) {
  const ok = wellFormed && size <= limit
  failed ||= !ok
  console.log(`${ok ? 'ok  ' : 'OVER'} ${label}: ${size.toFixed(1)} kB gzipped, limit ${limit} kB`)
}
for (const name of scripts.filter((each) => !first.includes(each))) {
  console.log(`     ${name}: ${kilobytes(name).toFixed(1)} kB, loaded when needed`)
}
process.exit(failed ? 1 : 0)
